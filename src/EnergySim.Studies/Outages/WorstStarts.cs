using EnergySim.Engine;
using EnergySim.Time;

namespace EnergySim.Studies.Outages;

/// <summary>Orders starts: the shortest lasting first, then the most left unserved, then the earliest.</summary>
internal static class WorstStarts
{
    /// <summary>Every start of every year of weather, the worst first.</summary>
    public static IEnumerable<(int Year, int Index)> Of(IReadOnlyList<StartOutcomes> years) =>
        Enumerable.Range(0, years.Count).SelectMany(y => Enumerable.Range(0, years[y].LastingIntervals.Length).Select(i => (Year: y, Index: i)))
            .OrderBy(s => years[s.Year].LastingIntervals[s.Index])
            .ThenByDescending(s => years[s.Year].UnservedKwh[s.Index])
            .ThenBy(s => s.Year)
            .ThenBy(s => s.Index);

    /// <summary>The worst start of each of the worst days.</summary>
    public static IEnumerable<(int Year, int Index)> OnePerDay(TimeAxis axis, IReadOnlyList<StartOutcomes> years, int count) =>
        Of(years).DistinctBy(s => (s.Year, axis.LocalDayOf(s.Index))).Take(count);
}
