using System.Runtime.CompilerServices;
using EnergySim.Strategies;

namespace EnergySim.Engine;

/// <summary>What the battery holds at each interval's start if, until then, it was made ready for a storm for a stated time.</summary>
public static class StormStarts
{
    /// <summary>Walks the preparation before every interval, each from what the everyday run held at its beginning; before the first day the last days stand.</summary>
    /// <param name="everyday">The everyday run, on the grid.</param>
    /// <param name="preparing">The set-points while the storm is awaited, one row an interval of the run.</param>
    /// <param name="leadIntervals">How long it is awaited, intervals, 0 … the run's length.</param>
    /// <returns>Energy in the cells at each interval's start, kWh.</returns>
    /// <exception cref="ArgumentException">The run is off the grid, the rows have another length, or the lead is out of range.</exception>
    public static double[] Of(Run everyday, SetPoints preparing, int leadIntervals)
    {
        ArgumentNullException.ThrowIfNull(everyday);
        return Of(everyday, new MeterColumns(everyday.Axis.Count), preparing, leadIntervals);
    }

    /// <summary>The same; what the meters see of the everyday run goes into the columns.</summary>
    internal static double[] Of(Run everyday, MeterColumns meter, SetPoints preparing, int leadIntervals)
    {
        ArgumentNullException.ThrowIfNull(preparing);
        int count = everyday.Axis.Count;
        if (everyday.IsOffGrid) throw new ArgumentException("The everyday run is on the grid.", nameof(everyday));
        if (preparing.Count != count) throw new ArgumentException($"{preparing.Count} set-point rows for {count} intervals.", nameof(preparing));
        if (leadIntervals < 0 || leadIntervals > count) throw new ArgumentOutOfRangeException(nameof(leadIntervals), leadIntervals, "The lead is not longer than the data.");
        double[] held = everyday.Held(meter);
        return leadIntervals == 0 ? held : Walk(everyday, preparing, leadIntervals, held);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static double[] Walk(Run everyday, SetPoints preparing, int lead, double[] heldKwh)
    {
        var input = new SeriesInput(everyday.Load.Array, everyday.SolarDc.Array, everyday.SolarAc.Array);
        GridUp<Scalar> grid = default;
        var constants = new StepConstants<Scalar>(everyday.Plant, everyday.Site, everyday.Axis.StepHours, offGrid: false);
        var rows = new StepRow<Scalar>[preparing.Rows.Length];
        for (int r = 0; r < rows.Length; r++) rows[r] = new StepRow<Scalar>(preparing.Rows[r], everyday.Plant);
        int count = everyday.Axis.Count;
        var starts = new double[count];
        // After each interval of the walk before: one that comes to the same energy goes on as that did.
        var after = new double[lead];
        Array.Fill(after, double.NaN);
        var book = new NoBook();
        for (int start = 0; start < count; start++)
        {
            int from = start + count - lead, last = start + count - 1;
            after[last % lead] = double.NaN;
            var stored = new Scalar(heldKwh[from % count]);
            for (int at = from; at <= last; at++)
            {
                int i = at % count;
                Step.Walk(in constants, in rows[preparing.Picks[i]], in input, i, i + 1, ref grid, ref stored, ref book);
                bool same = after[at % lead] == stored.Value && at < last;
                after[at % lead] = stored.Value;
                if (!same) continue;
                stored = new Scalar(after[(last - 1) % lead]);
                at = last - 1;
            }
            starts[start] = stored.Value;
        }
        return starts;
    }
}
