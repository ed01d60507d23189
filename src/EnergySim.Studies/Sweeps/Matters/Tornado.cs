namespace EnergySim.Studies.Sweeps;

/// <summary>What moving one input alone does to an output.</summary>
public sealed record TornadoBar
{
    /// <summary>The input.</summary>
    public required string Input { get; init; }

    /// <summary>The value that gives the least output.</summary>
    public required string LowAt { get; init; }

    /// <summary>The least output, the home's own included.</summary>
    public required double Low { get; init; }

    /// <summary>The value that gives the greatest output.</summary>
    public required string HighAt { get; init; }

    /// <summary>The greatest output, the home's own included.</summary>
    public required double High { get; init; }

    /// <summary>Per cent of output a per cent of input, from the values nearest to the home's own on both sides; null = not both numbers, or none on one side.</summary>
    public required double? Elasticity { get; init; }
}

/// <summary>Each input moved alone: bars from the least to the greatest output, the longest first.</summary>
/// <param name="Likely">The output of the home as its file has it.</param>
/// <param name="Bars">The bars.</param>
public sealed record Tornado(double Likely, IReadOnlyList<TornadoBar> Bars)
{
    /// <summary>The tornado of an output in a sweep of one input at a time; null where the home itself has no such figure.</summary>
    /// <param name="table">The sweep.</param>
    /// <param name="column">The output.</param>
    /// <param name="place">The home and tariff.</param>
    /// <exception cref="ArgumentException">The sweep has another design.</exception>
    public static Tornado? Of(SweepTable table, int column, int place)
    {
        ArgumentNullException.ThrowIfNull(table);
        if (table.Plan.Design != SweepDesign.OneAtATime) throw new ArgumentException("A tornado needs a sweep of one input at a time.", nameof(table));
        ReadOnlySpan<double> output = table.Output(column, place);
        if (double.IsNaN(output[0])) return null;
        var bars = new List<TornadoBar>();
        int at = 1;
        for (int i = 0; i < table.Plan.Inputs.Count; i++)
        {
            int count = table.Plan.Inputs[i].Values.Stated?.Count ?? 2, low = 0, high = 0;
            var moved = new List<(double X, double Y)>();
            for (int n = 0; n < count; n++, at++)
            {
                if (double.IsNaN(output[at])) continue;
                if (output[at] < output[low]) low = at;
                if (output[at] > output[high]) high = at;
                moved.Add((table.Input(i, place, at), output[at]));
            }
            bars.Add(new TornadoBar
            {
                Input = table.Plan.Inputs[i].Name,
                LowAt = table.InputText(i, place, low),
                Low = output[low],
                HighAt = table.InputText(i, place, high),
                High = output[high],
                Elasticity = ElasticityOf((table.Input(i, place, 0), output[0]), moved),
            });
        }
        return new Tornado(output[0], [.. bars.OrderByDescending(b => Math.Abs(b.High - b.Low))]);
    }

    /// <summary>(ΔY/Y)/(ΔX/X) at a point, from the nearest points below and above it; null = none on one side, or a zero in the way.</summary>
    /// <param name="own">The point.</param>
    /// <param name="moved">Other points.</param>
    public static double? ElasticityOf((double X, double Y) own, IReadOnlyList<(double X, double Y)> moved)
    {
        ArgumentNullException.ThrowIfNull(moved);
        (double X, double Y)[] below = [.. moved.Where(m => m.X < own.X).OrderByDescending(m => m.X).Take(1)], above = [.. moved.Where(m => m.X > own.X).OrderBy(m => m.X).Take(1)];
        if (below.Length == 0 || above.Length == 0 || own.X == 0 || own.Y == 0) return null;
        return (above[0].Y - below[0].Y) / own.Y / ((above[0].X - below[0].X) / own.X);
    }
}
