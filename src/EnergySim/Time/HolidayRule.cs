using NodaTime;

namespace EnergySim.Time;

/// <summary>Where a fixed-date holiday is kept when it falls on a weekend.</summary>
public enum HolidayMove
{
    /// <summary>It stays where it falls.</summary>
    None,

    /// <summary>Saturday goes to Friday before, Sunday to Monday after.</summary>
    Nearest,

    /// <summary>Only a Sunday moves, to Monday after; a Saturday stays.</summary>
    Monday,
}

/// <summary>One rule that names holidays: a tariff holds its own list of them, or none.</summary>
public abstract record HolidayRule
{
    private HolidayRule() { }

    /// <summary>The holiday's date as kept for the holiday that belongs to <paramref name="year"/>; null when there is none that year.</summary>
    public abstract LocalDate? In(int year);

    /// <summary>One date of one year.</summary>
    /// <param name="Date">The date.</param>
    public sealed record OnDate(LocalDate Date) : HolidayRule
    {
        /// <inheritdoc/>
        public override LocalDate? In(int year) => Date.Year == year ? Date : null;
    }

    /// <summary>The same month and day every year, moved off a weekend as the rule says.</summary>
    /// <param name="Day">Month and day; 29 February is a holiday in leap years only.</param>
    /// <param name="Move">What happens on a weekend.</param>
    public sealed record Fixed(MonthDay Day, HolidayMove Move) : HolidayRule
    {
        /// <inheritdoc/>
        public override LocalDate? In(int year)
        {
            if (Day.Day > CalendarSystem.Iso.GetDaysInMonth(year, Day.Month)) return null;
            var date = new LocalDate(year, Day.Month, Day.Day);
            return (Move, date.DayOfWeek) switch
            {
                (HolidayMove.Nearest, IsoDayOfWeek.Saturday) => date.PlusDays(-1),
                (HolidayMove.Nearest or HolidayMove.Monday, IsoDayOfWeek.Sunday) => date.PlusDays(1),
                _ => date,
            };
        }
    }

    /// <summary>The n-th weekday of a month (last Monday of May, fourth Thursday of November).</summary>
    /// <param name="Month">1 to 12.</param>
    /// <param name="Number">1 to 5, or −1 for the last.</param>
    /// <param name="Weekday">The day of the week.</param>
    public sealed record Nth(int Month, int Number, IsoDayOfWeek Weekday) : HolidayRule
    {
        /// <inheritdoc/>
        public override LocalDate? In(int year)
        {
            if (Number < 0)
            {
                var last = new LocalDate(year, Month, CalendarSystem.Iso.GetDaysInMonth(year, Month));
                return last.DayOfWeek == Weekday ? last : last.Previous(Weekday);
            }
            var first = new LocalDate(year, Month, 1);
            LocalDate hit = (first.DayOfWeek == Weekday ? first : first.Next(Weekday)).PlusWeeks(Number - 1);
            return hit.Month == Month ? hit : null;
        }
    }

    /// <summary>
    /// All holidays that fall in the years from <paramref name="firstYear"/> to <paramref name="lastYear"/>, each once, in order.
    /// A rule of the year before or after may move into the span (1 January kept on 31 December).
    /// </summary>
    public static IReadOnlyList<LocalDate> Dates(IEnumerable<HolidayRule> rules, int firstYear, int lastYear)
    {
        ArgumentNullException.ThrowIfNull(rules);
        var dates = new SortedSet<LocalDate>();
        foreach (HolidayRule rule in rules)
            for (int year = firstYear - 1; year <= lastYear + 1; year++)
                if (rule.In(year) is LocalDate date && date.Year >= firstYear && date.Year <= lastYear) dates.Add(date);
        return [.. dates];
    }
}
