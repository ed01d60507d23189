namespace EnergySim.Studies.Sweeps;

/// <summary>
/// An output over a grid of two inputs, and the line on which it is zero: where something begins to pay. Between grid points the output is
/// taken as a straight line along each side of a cell.
/// </summary>
public sealed record BreakEvenContour
{
    /// <summary>The input along.</summary>
    public required string Along { get; init; }

    /// <summary>The input upwards.</summary>
    public required string Up { get; init; }

    /// <summary>Values along, rising.</summary>
    public required IReadOnlyList<double> AlongAt { get; init; }

    /// <summary>Values upwards, rising.</summary>
    public required IReadOnlyList<double> UpAt { get; init; }

    /// <summary>The output, a row a value upwards; NaN = no figure.</summary>
    public required IReadOnlyList<IReadOnlyList<double>> Output { get; init; }

    /// <summary>Stretches of the line of zero, each from a point to a point, in the inputs' own numbers.</summary>
    public required IReadOnlyList<((double Along, double Up) From, (double Along, double Up) To)> Zero { get; init; }

    /// <summary>The contour of an output in a grid over just two inputs of numbers, others keeping one value; null where it is no such grid.</summary>
    /// <param name="table">The sweep.</param>
    /// <param name="column">The output.</param>
    /// <param name="place">The home and tariff.</param>
    public static BreakEvenContour? Of(SweepTable table, int column, int place)
    {
        ArgumentNullException.ThrowIfNull(table);
        if (table.Plan.Design != SweepDesign.Grid || table.Plan.Inputs.Where(i => i.Values.Stated!.Count > 1).ToArray() is not [SweepInput along, SweepInput up]) return null;
        if (NumbersOf(along) is not double[] xs || NumbersOf(up) is not double[] ys) return null;
        ReadOnlySpan<double> output = table.Output(column, place);
        int[] xOrder = [.. Enumerable.Range(0, xs.Length).OrderBy(i => xs[i])], yOrder = [.. Enumerable.Range(0, ys.Length).OrderBy(i => ys[i])];
        var rows = new double[ys.Length][];
        for (int r = 0; r < rows.Length; r++)
        {
            rows[r] = new double[xs.Length];
            for (int c = 0; c < xs.Length; c++) rows[r][c] = output[(xOrder[c] * ys.Length) + yOrder[r]];
        }
        double[] x = [.. xs.Order()], y = [.. ys.Order()];
        return new BreakEvenContour { Along = along.Name, Up = up.Name, AlongAt = x, UpAt = y, Output = rows, Zero = ZeroOf(x, y, rows) };
    }

    /// <summary>The line of zero over a grid.</summary>
    internal static IReadOnlyList<((double, double), (double, double))> ZeroOf(double[] x, double[] y, double[][] rows)
    {
        var line = new List<((double, double), (double, double))>();
        for (int r = 0; r + 1 < y.Length; r++)
            for (int c = 0; c + 1 < x.Length; c++)
            {
                double a = rows[r][c], b = rows[r][c + 1], d = rows[r + 1][c], e = rows[r + 1][c + 1];
                if (double.IsNaN(a + b + d + e)) continue;
                var crossings = new List<(double, double)>();
                if (a >= 0 != b >= 0) crossings.Add((Between(x[c], x[c + 1], a, b), y[r]));
                if (b >= 0 != e >= 0) crossings.Add((x[c + 1], Between(y[r], y[r + 1], b, e)));
                if (d >= 0 != e >= 0) crossings.Add((Between(x[c], x[c + 1], d, e), y[r + 1]));
                if (a >= 0 != d >= 0) crossings.Add((x[c], Between(y[r], y[r + 1], a, d)));
                for (int i = 0; i + 1 < crossings.Count; i += 2) line.Add((crossings[i], crossings[i + 1]));
            }
        return line;
    }

    private static double Between(double from, double to, double atFrom, double atTo) => from + ((to - from) * atFrom / (atFrom - atTo));

    private static double[]? NumbersOf(SweepInput input)
    {
        double?[] numbers = [.. input.Values.Stated!.Select(v => v.Number)];
        return numbers.Length >= 2 && numbers.All(n => n is not null) && numbers.Distinct().Count() == numbers.Length ? [.. numbers.Select(n => n!.Value)] : null;
    }
}
