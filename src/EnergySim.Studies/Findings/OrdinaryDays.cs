using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Findings;

/// <summary>Chooses days to show: for July and January (else the first and last month of the data) the day whose load lies in the middle of its month's.</summary>
internal static class OrdinaryDays
{
    private const int SummerMonth = 7, WinterMonth = 1;

    public static IReadOnlyList<LocalDate> Of(Home home)
    {
        TimeAxis axis = home.Load.Axis;
        var days = new Dictionary<int, (int Intervals, double Load)>();
        for (int i = 0; i < axis.Count; i++)
        {
            int day = axis.LocalDayOf(i);
            (int intervals, double load) = days.GetValueOrDefault(day);
            days[day] = (intervals + 1, load + home.Load.Kw[i]);
        }
        int most = days.Values.Max(d => d.Intervals), aDay = 24 * 60 / axis.StepMinutes;
        // Days that the data cut are left out, and so are those on which the clock changes.
        (LocalDate Date, double Load)[] whole = [.. days.Where(d => d.Value.Intervals == Math.Min(most, aDay)).Select(d => (TimeAxis.DateOfDay(d.Key), d.Value.Load))];
        int[] months = [.. whole.Select(d => d.Date.Month).Distinct()];
        int first = months.Contains(SummerMonth) ? SummerMonth : months[0], last = months.Contains(WinterMonth) ? WinterMonth : months[^1];
        return [.. new[] { first, last }.Distinct().Select(month => Middle([.. whole.Where(d => d.Date.Month == month)]))];
    }

    private static LocalDate Middle((LocalDate Date, double Load)[] days) => days.OrderBy(d => d.Load).ThenBy(d => d.Date).ElementAt(days.Length / 2).Date;
}
