using EnergySim.Solar;

namespace EnergySim.Studies.Sweeps;

/// <summary>An output where an input lies about a value, whatever the others are.</summary>
/// <param name="Input">The value; of a sampled input the mean of a twentieth of the variants.</param>
/// <param name="Mean">Mean of the output.</param>
/// <param name="Low">A tenth of the variants lie below.</param>
/// <param name="High">A tenth lie above.</param>
public readonly record struct DependencePoint(double Input, double Mean, double Low, double High);

/// <summary>How an output goes with one input while all others vary.</summary>
/// <param name="Input">The input.</param>
/// <param name="Points">By rising value.</param>
public sealed record Dependence(string Input, IReadOnlyList<DependencePoint> Points)
{
    private const int Bins = 20;

    /// <summary>The dependence of an output; null where the input has fewer than two numbers.</summary>
    /// <param name="table">The sweep.</param>
    /// <param name="column">The output.</param>
    /// <param name="input">Index of the input.</param>
    /// <param name="place">The home and tariff.</param>
    public static Dependence? Of(SweepTable table, int column, int input, int place)
    {
        ArgumentNullException.ThrowIfNull(table);
        double[] y = table.Output(column, place).ToArray(), x = new double[y.Length];
        for (int i = 0; i < x.Length; i++) x[i] = table.Input(input, place, i);
        int[] order = [.. Enumerable.Range(0, x.Length).Where(i => !double.IsNaN(x[i]) && !double.IsNaN(y[i])).OrderBy(i => x[i])];
        int[][] groups = table.Plan.Inputs[input].Values.Stated is not null
            ? [.. order.GroupBy(i => x[i]).Select(g => g.ToArray())]
            : [.. order.Chunk(Math.Max(1, (order.Length + Bins - 1) / Bins))];
        if (groups.Length < 2) return null;
        return new Dependence(table.Plan.Inputs[input].Name, [.. groups.Select(g =>
        {
            double[] sorted = [.. g.Select(i => y[i]).Order()];
            return new DependencePoint(g.Average(i => x[i]), sorted.Average(), Quantile.Of(sorted, 0.1), Quantile.Of(sorted, 0.9));
        })]);
    }
}
