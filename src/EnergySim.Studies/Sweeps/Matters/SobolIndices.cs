using EnergySim.Solar;

namespace EnergySim.Studies.Sweeps;

/// <summary>How much of an output's variance an input stands for.</summary>
public sealed record SobolIndex
{
    /// <summary>The input.</summary>
    public required string Input { get; init; }

    /// <summary>First-order index: by itself.</summary>
    public required double First { get; init; }

    /// <summary>Nine in ten resamples have the first-order index between these.</summary>
    public required (double Low, double High) FirstBand { get; init; }

    /// <summary>Total index: by itself and together with others.</summary>
    public required double Total { get; init; }

    /// <summary>Nine in ten resamples have the total index between these.</summary>
    public required (double Low, double High) TotalBand { get; init; }
}

/// <summary>
/// First-order and total indices from pairs of points and their exchanges. First order: Saltelli and others, Variance based sensitivity
/// analysis of model output, Computer Physics Communications 181 (2010), table 2 (b); total: Jansen's estimator, table 2 (f); formulas from memory.
/// </summary>
/// <param name="Mean">Mean of the output.</param>
/// <param name="Variance">Its variance.</param>
/// <param name="Points">Pairs that could be used: those with an error in any exchange are left out.</param>
/// <param name="Inputs">An index an input, largest total first.</param>
public sealed record SobolIndices(double Mean, double Variance, int Points, IReadOnlyList<SobolIndex> Inputs)
{
    private const int Resamples = 400;

    /// <summary>The indices of an output; null where it does not vary, or too few points have a figure.</summary>
    /// <param name="table">A sweep of that design.</param>
    /// <param name="column">The output.</param>
    /// <param name="place">The home and tariff.</param>
    /// <exception cref="ArgumentException">The sweep has another design.</exception>
    public static SobolIndices? Of(SweepTable table, int column, int place)
    {
        ArgumentNullException.ThrowIfNull(table);
        if (table.Plan.Design != SweepDesign.SobolIndices) throw new ArgumentException("Sobol indices need a sweep of the design sobol-indices.", nameof(table));
        return Of([.. table.Plan.Inputs.Select(i => i.Name)], table.Output(column, place), table.Plan.Seed);
    }

    /// <summary>The indices from outputs in the order of the design: of each pair the first point, the second, then the exchanges input by input.</summary>
    /// <param name="inputs">Names of the inputs.</param>
    /// <param name="outputs">(inputs + 2) × points values.</param>
    /// <param name="seed">Seed of the resampling.</param>
    public static SobolIndices? Of(IReadOnlyList<string> inputs, ReadOnlySpan<double> outputs, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        int width = inputs.Count + 2;
        var rows = new List<double[]>();
        for (int at = 0; at + width <= outputs.Length; at += width)
            if (!outputs.Slice(at, width).Contains(double.NaN)) rows.Add(outputs.Slice(at, width).ToArray());
        if (rows.Count < 2) return null;
        double[][] all = [.. rows];
        double mean = all.Average(r => (r[0] + r[1]) / 2);
        // Centred outputs make the products small, and the estimate of the first order steadier.
        foreach (double[] row in all) for (int i = 0; i < row.Length; i++) row[i] -= mean;
        double variance = VarianceOf(all, null);
        if (!(variance > 1e-12 * Math.Max(1, mean * mean))) return null;
        var picks = new int[all.Length];
        var first = new double[inputs.Count, Resamples];
        var total = new double[inputs.Count, Resamples];
        SeededNoise noise = SeededNoise.Stream(seed, -1);
        for (int s = 0; s < Resamples; s++)
        {
            for (int i = 0; i < picks.Length; i++) picks[i] = (int)(noise.Even() * all.Length);
            double spread = VarianceOf(all, picks);
            for (int i = 0; i < inputs.Count; i++) (first[i, s], total[i, s]) = spread > 0 ? IndexOf(all, picks, i, spread) : (0, 0);
        }
        var indices = new List<SobolIndex>();
        for (int i = 0; i < inputs.Count; i++)
        {
            (double own, double with) = IndexOf(all, null, i, variance);
            indices.Add(new SobolIndex { Input = inputs[i], First = own, FirstBand = BandOf(first, i), Total = with, TotalBand = BandOf(total, i) });
        }
        return new SobolIndices(mean, variance, all.Length, [.. indices.OrderByDescending(i => i.Total)]);
    }

    private static (double First, double Total) IndexOf(double[][] rows, int[]? picks, int input, double variance)
    {
        double first = 0, total = 0;
        for (int n = 0; n < rows.Length; n++)
        {
            double[] row = rows[picks?[n] ?? n];
            double a = row[0], b = row[1], exchanged = row[input + 2];
            first += b * (exchanged - a);
            total += (a - exchanged) * (a - exchanged);
        }
        return (first / rows.Length / variance, total / (2 * rows.Length) / variance);
    }

    private static double VarianceOf(double[][] rows, int[]? picks)
    {
        double sum = 0, squares = 0;
        for (int n = 0; n < rows.Length; n++)
        {
            double[] row = rows[picks?[n] ?? n];
            sum += row[0] + row[1];
            squares += (row[0] * row[0]) + (row[1] * row[1]);
        }
        double count = 2.0 * rows.Length;
        return (squares / count) - (sum / count * (sum / count));
    }

    private static (double, double) BandOf(double[,] resamples, int input)
    {
        var sorted = new double[Resamples];
        for (int s = 0; s < Resamples; s++) sorted[s] = resamples[input, s];
        Array.Sort(sorted);
        return (Quantile.Of(sorted, 0.05), Quantile.Of(sorted, 0.95));
    }
}
