using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tariffs;

/// <summary>The days of one bill.</summary>
/// <param name="FromDay">First local date, as days since 1970-01-01.</param>
/// <param name="UntilDay">The day after the last.</param>
/// <param name="SettlementYear">The settlement year its first day is in, counted from 0.</param>
/// <param name="EndsSettlementYear">True when the year is settled with this bill.</param>
public sealed record BillSpan(int FromDay, int UntilDay, int SettlementYear, bool EndsSettlementYear)
{
    /// <summary>First local date.</summary>
    public LocalDate From => TimeAxis.DateOfDay(FromDay);

    /// <summary>Last local date.</summary>
    public LocalDate To => TimeAxis.DateOfDay(UntilDay - 1);

    /// <summary>Number of days.</summary>
    public int Days => UntilDay - FromDay;

    /// <summary>The bills of a span: between read dates, or calendar months; each trimmed to the days that have data.</summary>
    /// <param name="axis">The intervals.</param>
    /// <param name="account">Read dates and the settlement's anniversary.</param>
    /// <param name="notes">Takes sentences on what was assumed.</param>
    /// <exception cref="ArgumentException">Read dates do not rise, or a date with data is in no bill.</exception>
    internal static IReadOnlyList<BillSpan> Of(TimeAxis axis, Account account, ICollection<string> notes)
    {
        int first = axis.LocalDayOf(0);
        int until = axis.LocalDayOf(axis.Count - 1) + 1;
        List<int> bounds = account.ReadDates.Count > 0 ? Reads(account.ReadDates, first, until) : Months(first, until);
        LocalDate anniversary = account.Anniversary ?? TimeAxis.DateOfDay(first);
        int YearOf(int day) => SettlementYearOf(TimeAxis.DateOfDay(day), anniversary);
        var spans = new List<BillSpan>();
        for (int i = 0; i + 1 < bounds.Count; i++)
        {
            int year = YearOf(bounds[i]);
            bool ends = i + 2 >= bounds.Count || YearOf(bounds[i + 1]) != year;
            spans.Add(new BillSpan(bounds[i], bounds[i + 1], year - YearOf(bounds[0]), ends));
        }
        bool startsWhole = YearOf(bounds[0] - 1) != YearOf(bounds[0]);
        bool endsWhole = YearOf(bounds[^1]) != YearOf(bounds[^2]);
        if (!startsWhole || !endsWhole) notes.Add("partial settlement year, settled at its last bill");
        if (account.ReadDates.Count == 0) notes.Add("bills are calendar months: no read dates are given");
        return spans;
    }

    private static int SettlementYearOf(LocalDate date, LocalDate anniversary)
    {
        bool before = (date.Month * 100) + date.Day < (anniversary.Month * 100) + anniversary.Day;
        return date.Year - (before ? 1 : 0);
    }

    private static List<int> Reads(IReadOnlyList<LocalDate> reads, int first, int until)
    {
        var bounds = reads.Select(TimeAxis.DayOfDate).ToList();
        for (int i = 1; i < bounds.Count; i++)
            if (bounds[i] <= bounds[i - 1]) throw new ArgumentException($"Read dates rise; {TimeAxis.DateOfDay(bounds[i])} does not.");
        if (bounds[0] > first) throw new ArgumentException($"{TimeAxis.DateOfDay(first)} is in no bill: the first read is on {TimeAxis.DateOfDay(bounds[0])}.");
        if (bounds[^1] < until) throw new ArgumentException($"{TimeAxis.DateOfDay(until - 1)} is in no bill: the last read is on {TimeAxis.DateOfDay(bounds[^1])}.");
        while (bounds.Count > 2 && bounds[1] <= first) bounds.RemoveAt(0);
        while (bounds.Count > 2 && bounds[^2] >= until) bounds.RemoveAt(bounds.Count - 1);
        bounds[0] = Math.Max(bounds[0], first);
        bounds[^1] = Math.Min(bounds[^1], until);
        return bounds;
    }

    private static List<int> Months(int first, int until)
    {
        var bounds = new List<int> { first };
        LocalDate month = TimeAxis.DateOfDay(first);
        while (true)
        {
            month = new LocalDate(month.Year, month.Month, 1).PlusMonths(1);
            int day = TimeAxis.DayOfDate(month);
            if (day >= until) break;
            bounds.Add(day);
        }
        bounds.Add(until);
        return bounds;
    }
}
