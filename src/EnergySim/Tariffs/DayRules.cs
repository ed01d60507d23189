using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tariffs;

/// <summary>
/// What one version of a plan says of a date and a minute: the season, the kind of day, the period. Shared by the calendar of a run, by
/// the checks of a tariff file and by what is printed back.
/// </summary>
public sealed class DayRules
{
    private readonly Season[] _seasons;
    private readonly HashSet<LocalDate> _holidays;
    private readonly HashSet<LocalDate> _eventDates;
    private readonly Dictionary<(string Season, DayType Day), string?[]> _periods;

    /// <param name="version">The version.</param>
    /// <param name="firstYear">First year whose holidays are wanted.</param>
    /// <param name="lastYear">Last such year.</param>
    public DayRules(TariffVersion version, int firstYear, int lastYear)
    {
        ArgumentNullException.ThrowIfNull(version);
        Version = version;
        _seasons = version.Seasons.Count > 0
            ? [.. version.Seasons]
            : [new Season(TariffVersion.WholeYear, new MonthDay(1, 1), new MonthDay(12, 31))];
        _holidays = [.. HolidayRule.Dates(version.Holidays, firstYear, lastYear)];
        _eventDates = [.. version.Events?.Dates ?? []];
        NamesHolidays = version.Periods.Any(p => p.Days.Contains(DayType.Holiday));
        NamesEvents = version.Periods.Any(p => p.Days.Contains(DayType.Event));
        _periods = [];
    }

    private DayRules(DayRules same, TariffVersion priced)
    {
        Version = priced;
        (_seasons, _holidays, _eventDates, _periods) = (same._seasons, same._holidays, same._eventDates, same._periods);
        (NamesHolidays, NamesEvents) = (same.NamesHolidays, same.NamesEvents);
    }

    /// <summary>The same rules of days with the prices of another version.</summary>
    internal DayRules WithPricesOf(TariffVersion priced) => new(this, priced);

    /// <summary>The version.</summary>
    public TariffVersion Version { get; }

    /// <summary>True when a period rule names holidays; else a holiday is priced as a weekend day.</summary>
    public bool NamesHolidays { get; }

    /// <summary>True when a period rule names event days; else they keep their day type.</summary>
    public bool NamesEvents { get; }

    /// <summary>The seasons, or the one that stands for none.</summary>
    public IReadOnlyList<Season> Seasons => _seasons;

    /// <summary>The season of a date.</summary>
    /// <exception cref="InvalidOperationException">The date is in no season.</exception>
    public string SeasonOf(LocalDate date)
    {
        MonthDay day = MonthDay.Of(date);
        foreach (Season season in _seasons)
            if (season.Contains(day)) return season.Name;
        throw new InvalidOperationException($"{day} is in no season of the plan.");
    }

    /// <summary>The kind of day of a date, events aside.</summary>
    public DayType DayTypeOf(LocalDate date) =>
        _holidays.Contains(date) ? DayType.Holiday
        : date.DayOfWeek >= IsoDayOfWeek.Saturday ? DayType.Weekend : DayType.Weekday;

    /// <summary>True when the utility called an event on the date.</summary>
    public bool IsEvent(LocalDate date) => _eventDates.Contains(date);

    /// <summary>The kind of day by which periods are read: an event day is its own only where a period rule names events.</summary>
    public DayType PeriodDayTypeOf(LocalDate date) => NamesEvents && IsEvent(date) ? DayType.Event : DayTypeOf(date);

    /// <summary>True when a list of days (empty = all) takes in a kind of day; a holiday counts as a weekend day where no period names holidays.</summary>
    public bool Takes(IReadOnlyList<DayType> days, DayType day)
    {
        ArgumentNullException.ThrowIfNull(days);
        return days.Count == 0 || days.Contains(day) || (day == DayType.Holiday && !NamesHolidays && days.Contains(DayType.Weekend));
    }

    /// <summary>For each minute of a day of that season and kind the period, or null where none holds; of several the first listed.</summary>
    public IReadOnlyList<string?> PeriodsOf(string season, DayType day)
    {
        if (_periods.TryGetValue((season, day), out string?[]? minutes)) return minutes;
        minutes = new string?[1440];
        foreach (PeriodRule rule in RulesFor(season, day))
            for (int minute = 0; minute < 1440; minute++)
                if (minutes[minute] is null && rule.Window.Contains(minute)) minutes[minute] = rule.Period;
        _periods.Add((season, day), minutes);
        return minutes;
    }

    /// <summary>The period rules that speak of a season and kind of day.</summary>
    public IEnumerable<PeriodRule> RulesFor(string season, DayType day) =>
        Version.Periods.Where(rule => (rule.Season is null || rule.Season == season) && Takes(rule.Days, day));

    /// <summary>The energy price of a season and period: the entry that names both, then season, then period, then neither; null if none.</summary>
    public EnergyPrice? PriceOf(string season, string period)
    {
        EnergyPrice? best = null;
        int bestRank = -1;
        foreach (EnergyPrice price in Version.EnergyPrices)
        {
            if ((price.Season is not null && price.Season != season) || (price.Period is not null && price.Period != period)) continue;
            int rank = (price.Season is null ? 0 : 2) + (price.Period is null ? 0 : 1);
            if (rank > bestRank) (best, bestRank) = (price, rank);
        }
        return best;
    }
}
