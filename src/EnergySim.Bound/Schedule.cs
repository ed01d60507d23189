using EnergySim.Engine;
using EnergySim.Strategies;

namespace EnergySim.Bound;

/// <summary>Turns the programme's cheapest operation into set-points: a row an interval that leads the step to the same stored energy.</summary>
internal static class Schedule
{
    private const double SmallKwh = 1e-6;

    public static SetPoints Of(Run run, PlantProgramme plant, ReadOnlySpan<double> values)
    {
        var rows = new SetPointRow[run.Axis.Count];
        var picks = new int[rows.Length];
        double before = values[plant.Start];
        for (int i = 0; i < rows.Length; i++)
        {
            double after = values[plant.Stored[i]];
            rows[i] = RowOf(run, i, before, after, values[plant.Import[i]], values[plant.Export[i]]);
            picks[i] = i;
            before = after;
        }
        return new SetPoints(rows, picks);
    }

    private static SetPointRow RowOf(Run run, int i, double before, double after, double importKw, double exportKw)
    {
        const double never = double.PositiveInfinity, hold = double.PositiveInfinity;
        if (after > before + SmallKwh)
        {
            // Solar that the house leaves fills the cells by itself; the grid, or solar ahead of the house, is asked only where that is not enough.
            bool fromGrid = importKw > SmallKwh;
            return new(before, after, fromGrid ? after : 0, hold, never);
        }
        if (after < before - SmallKwh) return new(after, after, 0, 0, exportKw > SmallKwh ? after : never);
        return new(before, before, 0, hold, never);
    }
}
