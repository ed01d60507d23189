using EnergySim.Engine;
using EnergySim.Time;

namespace EnergySim.Studies.Outages;

/// <summary>Orders starts: the shortest lasting first, then the most left unserved, then the earliest.</summary>
internal static class WorstStarts
{
    /// <summary>Every start, the worst first.</summary>
    public static int[] Of(StartOutcomes outcomes) =>
    [
        .. Enumerable.Range(0, outcomes.LastingIntervals.Length)
            .OrderBy(i => outcomes.LastingIntervals[i])
            .ThenByDescending(i => outcomes.UnservedKwh[i])
            .ThenBy(i => i),
    ];

    /// <summary>The worst start of each of the worst days.</summary>
    public static IEnumerable<int> OnePerDay(TimeAxis axis, StartOutcomes outcomes, int count) => Of(outcomes).DistinctBy(axis.LocalDayOf).Take(count);
}
