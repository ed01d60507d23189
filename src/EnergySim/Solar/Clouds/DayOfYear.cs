using NodaTime;

namespace EnergySim.Solar;

/// <summary>Days of a year of 365; 29 February counts as the 28th.</summary>
internal static class DayOfYear
{
    public const int Count = 365;

    public static int Of(LocalDate date) => new LocalDate(2001, date.Month, date is { Month: 2, Day: 29 } ? 28 : date.Day).DayOfYear - 1;

    /// <summary>Days from one to the other around the year, 0–182.</summary>
    public static int Between(int a, int b)
    {
        int apart = Math.Abs(a - b);
        return Math.Min(apart, Count - apart);
    }

    /// <summary>For each day of the year those of the days, clearness known, that lie so near to it, the least clear first.</summary>
    public static ClearnessDay[][] Near(IReadOnlyList<ClearnessDay> days, int nearDays)
    {
        ClearnessDay[] known = [.. days.Where(d => d.Clearness is not null).OrderBy(d => d.Clearness!.Value)];
        int[] of = [.. known.Select(d => Of(d.Date))];
        var near = new ClearnessDay[Count][];
        for (int day = 0; day < Count; day++)
        {
            var list = new List<ClearnessDay>();
            for (int i = 0; i < known.Length; i++)
                if (Between(of[i], day) <= nearDays) list.Add(known[i]);
            near[day] = [.. list];
        }
        return near;
    }
}
