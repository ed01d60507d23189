using EnergySim.Tariffs;
using EnergySim.Time;

namespace EnergySim.Batches;

/// <summary>What all workers of a batch share: its axis cut into blocks that stay in the cache, and what is kept.</summary>
internal sealed class BatchLayout
{
    private const int BlockIntervals = 96;

    public BatchLayout(TimeAxis axis, IReadOnlyList<TariffCalendar> calendars, BatchKeeps keeps)
    {
        Axis = axis;
        Calendars = calendars;
        Keeps = keeps;
        KeepsGross = calendars.Any(c => c.SellsAll);
        if (keeps == BatchKeeps.Meters && calendars is [{ AsksBucketsOnly: true } plan]) OneCalendar = plan;
        WarmUpFrom = Math.Max(0, axis.Count - (EnergySim.Engine.Run.WarmUpHours * 60 / axis.StepMinutes));
        var ends = new List<int>();
        int from = 0;
        for (int i = 1; i < axis.Count; i++)
        {
            if (i - from < BlockIntervals || !calendars.All(c => c.CanCutAt(i))) continue;
            ends.Add(i);
            LongestBlock = Math.Max(LongestBlock, i - from);
            from = i;
        }
        ends.Add(axis.Count);
        LongestBlock = Math.Max(LongestBlock, axis.Count - from);
        BlockEnds = [.. ends];
    }

    public TimeAxis Axis { get; }

    public IReadOnlyList<TariffCalendar> Calendars { get; }

    /// <summary>The calendar, where there is but one, and its buckets are all that is kept: then sums are made while walking.</summary>
    public TariffCalendar? OneCalendar { get; }

    public BatchKeeps Keeps { get; }

    public bool KeepsGross { get; }

    /// <summary>Where the warm-up begins.</summary>
    public int WarmUpFrom { get; }

    /// <summary>Where blocks end, rising; the last is the number of intervals.</summary>
    public int[] BlockEnds { get; }

    public int LongestBlock { get; }
}
