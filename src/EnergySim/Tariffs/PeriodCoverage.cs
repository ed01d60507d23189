using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tariffs;

/// <summary>What can be wrong with the calendar of a version.</summary>
public enum CoverageFault
{
    /// <summary>A day of the year is in no season.</summary>
    DayWithoutSeason,

    /// <summary>A day of the year is in two seasons.</summary>
    DayInTwoSeasons,

    /// <summary>A minute of a day is in no period.</summary>
    MinuteWithoutPeriod,

    /// <summary>A minute of a day is in two periods.</summary>
    MinuteInTwoPeriods,

    /// <summary>A period that can occur in a season has no energy price there.</summary>
    NoPrice,
}

/// <summary>One thing that is wrong with the calendar of a version.</summary>
public sealed record CoverageFinding
{
    /// <summary>What is wrong.</summary>
    public required CoverageFault Fault { get; init; }

    /// <summary>The first day of the year meant; null where a season is.</summary>
    public MonthDay? Day { get; init; }

    /// <summary>The season; null where a day of the year is meant.</summary>
    public string? Season { get; init; }

    /// <summary>The kind of day; null where all are meant.</summary>
    public DayType? DayType { get; init; }

    /// <summary>The first minute of the day meant, 0–1439.</summary>
    public int? Minute { get; init; }

    /// <summary>The two seasons or periods that meet, or the period without a price.</summary>
    public IReadOnlyList<string> Names { get; init; } = [];
}

/// <summary>
/// Asks whether every day of a leap year is in exactly one season, every minute of every kind of day in every season in exactly one
/// period, and every period that occurs has a price.
/// </summary>
public static class PeriodCoverage
{
    private const int MinutesPerDay = 1440;

    /// <summary>What is wrong; the first day or minute of each kind of fault, season and kind of day. Empty = nothing.</summary>
    public static IReadOnlyList<CoverageFinding> Of(TariffVersion version)
    {
        ArgumentNullException.ThrowIfNull(version);
        var findings = new List<CoverageFinding>();
        AskSeasons(version, findings);
        // Any year does: no date is asked for.
        var rules = new DayRules(version, 2024, 2024);
        foreach (string season in rules.Seasons.Select(s => s.Name).Distinct())
        {
            var occurring = new List<string>();
            foreach (DayType day in DayTypesOf(rules)) AskDay(rules, season, day, occurring, findings);
            foreach (string period in occurring)
                if (rules.PriceOf(season, period) is null)
                    findings.Add(new CoverageFinding { Fault = CoverageFault.NoPrice, Season = season, Names = [period] });
        }
        return findings;
    }

    /// <summary>
    /// The kinds of day that a version tells apart: holidays only where a period rule names them (they are weekend days otherwise), event
    /// days likewise (they keep their own kind).
    /// </summary>
    private static IEnumerable<DayType> DayTypesOf(DayRules rules) => Enum.GetValues<DayType>().Where(day => day switch
    {
        DayType.Holiday => rules.NamesHolidays,
        DayType.Event => rules.NamesEvents,
        _ => true,
    });

    private static void AskSeasons(TariffVersion version, List<CoverageFinding> findings)
    {
        if (version.Seasons.Count == 0) return;
        bool gap = false, overlap = false;
        // Any leap year holds every day there is.
        for (var date = new LocalDate(2024, 1, 1); date.Year == 2024; date = date.PlusDays(1))
        {
            MonthDay day = MonthDay.Of(date);
            string[] names = [.. version.Seasons.Where(s => s.Contains(day)).Select(s => s.Name)];
            if (names.Length == 0 && !gap) findings.Add(new CoverageFinding { Fault = CoverageFault.DayWithoutSeason, Day = day });
            if (names.Length > 1 && !overlap) findings.Add(new CoverageFinding { Fault = CoverageFault.DayInTwoSeasons, Day = day, Names = names[..2] });
            gap |= names.Length == 0;
            overlap |= names.Length > 1;
        }
    }

    private static void AskDay(DayRules dayRules, string season, DayType day, List<string> occurring, List<CoverageFinding> findings)
    {
        PeriodRule[] rules = [.. dayRules.RulesFor(season, day)];
        bool gap = false, overlap = false;
        for (int minute = 0; minute < MinutesPerDay; minute++)
        {
            PeriodRule? first = null, second = null;
            foreach (PeriodRule rule in rules)
            {
                if (!rule.Window.Contains(minute)) continue;
                if (first is null) first = rule;
                else second ??= rule;
            }
            if (first is not null && !occurring.Contains(first.Period)) occurring.Add(first.Period);
            if (first is null && !gap)
                findings.Add(new CoverageFinding { Fault = CoverageFault.MinuteWithoutPeriod, Season = season, DayType = day, Minute = minute });
            if (second is not null && !overlap)
                findings.Add(new CoverageFinding { Fault = CoverageFault.MinuteInTwoPeriods, Season = season, DayType = day, Minute = minute, Names = [first!.Period, second.Period] });
            gap |= first is null;
            overlap |= second is not null;
        }
    }
}
