using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tariffs;

/// <summary>
/// Chooses the days of events that a plan gives by number. A utility calls its events when its system is at its highest; of that the
/// house's own load, in the events' window, is all that is known here.
/// </summary>
internal static class EventDays
{
    /// <summary>The plan with the days of its events; each calendar year, season and version for itself, the earlier of equal days.</summary>
    /// <param name="tariff">The plan.</param>
    /// <param name="axis">The intervals.</param>
    /// <param name="loadKw">The house's load; empty = unknown: then there are no events.</param>
    /// <param name="notes">Takes a sentence on what was assumed.</param>
    public static Tariff Chosen(Tariff tariff, TimeAxis axis, ReadOnlySpan<double> loadKw, ICollection<string> notes)
    {
        if (!tariff.Versions.Any(v => v.Events?.HighestLoadDays is not null)) return tariff;
        if (loadKw.IsEmpty)
        {
            notes.Add("events on the days of highest load are not billed: no load is known");
            return tariff;
        }
        var versions = new List<TariffVersion>();
        for (int v = 0; v < tariff.Versions.Count; v++)
        {
            TariffVersion version = tariff.Versions[v];
            LocalDate? until = v + 1 < tariff.Versions.Count ? tariff.Versions[v + 1].Effective : null;
            if (version.Events is { HighestLoadDays: int count } events)
                version = version with { Events = events with { Dates = Highest(version, v == 0 ? null : version.Effective, until, count, DayLoads(axis, loadKw, events.Window)) } };
            versions.Add(version);
        }
        notes.Add("events stand on the days of highest load of this house, which the utility need not call");
        return tariff with { Versions = versions };
    }

    private static List<LocalDate> Highest(TariffVersion version, LocalDate? from, LocalDate? until, int count, IEnumerable<(LocalDate Date, double Kwh)> days)
    {
        var rules = new DayRules(version, version.Effective.Year, version.Effective.Year);
        return [.. days
            .Where(d => !(d.Date < from) && !(d.Date >= until) && (version.Events!.Season is null || rules.SeasonOf(d.Date) == version.Events.Season))
            .GroupBy(d => d.Date.Year)
            .SelectMany(year => year.OrderByDescending(d => d.Kwh).ThenBy(d => d.Date).Take(count))
            .Select(d => d.Date).Order()];
    }

    private static List<(LocalDate Date, double Kwh)> DayLoads(TimeAxis axis, ReadOnlySpan<double> loadKw, ClockWindow window)
    {
        var days = new List<(LocalDate, double)>();
        double kwh = 0;
        for (int i = 0; i < axis.Count; i++)
        {
            if (window.Contains(axis.LocalMinuteOf(i))) kwh += loadKw[i] * axis.StepHours;
            if (i + 1 < axis.Count && axis.LocalDayOf(i + 1) == axis.LocalDayOf(i)) continue;
            days.Add((axis.LocalDateOf(i), kwh));
            kwh = 0;
        }
        return days;
    }
}
