using EnergySim.Time;
using NodaTime;

namespace EnergySim.Solar;

/// <summary>Lays a month's snow days on its coldest days.</summary>
internal static class SnowCover
{
    /// <summary>True in the intervals in which snow covers the modules; empty = never.</summary>
    /// <param name="snowDays">Days in each month, January first; empty = none. A month that the axis holds in part has its share, rounded.</param>
    /// <param name="sky">The sky with its air temperatures.</param>
    public static bool[] Of(IReadOnlyList<int> snowDays, SkySeries sky)
    {
        if (snowDays.All(d => d == 0)) return [];
        TimeAxis axis = sky.Axis;
        var covered = new bool[axis.Count];
        var days = new List<(int Day, int First, int Count, double MeanCelsius)>();
        for (int i = 0; i < axis.Count;)
        {
            int day = axis.LocalDayOf(i), first = i;
            double sum = 0;
            for (; i < axis.Count && axis.LocalDayOf(i) == day; i++) sum += sky.AirCelsius[i];
            days.Add((day, first, i - first, sum / (i - first)));
        }
        foreach (var month in days.GroupBy(d => DateOf(d.Day).ToYearMonth()))
        {
            double share = (double)month.Count() / CalendarSystem.Iso.GetDaysInMonth(month.Key.Year, month.Key.Month);
            int number = (int)Math.Round(snowDays[month.Key.Month - 1] * share, MidpointRounding.AwayFromZero);
            foreach (var day in month.OrderBy(d => d.MeanCelsius).ThenBy(d => d.Day).Take(number))
                covered.AsSpan(day.First, day.Count).Fill(true);
        }
        return covered;
    }

    private static LocalDate DateOf(int day) => TimeAxis.DateOfDay(day);
}
