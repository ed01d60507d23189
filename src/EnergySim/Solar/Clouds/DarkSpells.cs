namespace EnergySim.Solar;

/// <summary>The dark days of a place: the longest run of them and the darkest days in a row.</summary>
public sealed record DarkSpells
{
    /// <summary>A day less clear than this is dark (common practice).</summary>
    public const double DarkClearness = 0.3;

    /// <summary>Said where only typical years are at hand.</summary>
    public const string TypicalNotice =
        "Only a typical year is at hand: its months were chosen for being ordinary, so cloudy spells may be understated. Use recorded years to plan for outages.";

    /// <summary>The days in a row that are looked at.</summary>
    public static IReadOnlyList<int> Lengths { get; } = [1, 2, 3, 5, 7, 14];

    /// <summary>Where the data come from.</summary>
    public required IReadOnlyList<string> Sources { get; init; }

    /// <summary>Whole days in the data.</summary>
    public required int Days { get; init; }

    /// <summary>Of them dark.</summary>
    public required int DarkDays { get; init; }

    /// <summary>The longest run of dark days, the first of equals; null = none is dark.</summary>
    public required DarkWindow? LongestRun { get; init; }

    /// <summary>For 1, 2, 3, 5, 7 and 14 days in a row those with the least mean clearness; lengths that the data do not have are left out.</summary>
    public required IReadOnlyList<DarkWindow> LeastClear { get; init; }

    /// <summary>For the same lengths those with the least sun on the flat: deep winter, as a rule.</summary>
    public required IReadOnlyList<DarkWindow> LeastSun { get; init; }

    /// <summary><see cref="TypicalNotice"/> where it holds; null = recorded years are at hand.</summary>
    public required string? Notice { get; init; }

    /// <summary>The dark spells of days.</summary>
    public static DarkSpells Of(DailyClearness sky)
    {
        ArgumentNullException.ThrowIfNull(sky);
        return new DarkSpells
        {
            Sources = [.. sky.Sources.Select(s => s.Source)],
            Days = sky.Days.Count,
            DarkDays = sky.Days.Count(IsDark),
            LongestRun = LongestOf(sky.Days),
            LeastClear = [.. Windows(sky.Days, d => d.Clearness!.Value)],
            LeastSun = [.. Windows(sky.Days, d => d.GlobalWhPerM2)],
            Notice = sky.IsTypicalOnly ? TypicalNotice : null,
        };
    }

    private static IEnumerable<DarkWindow> Windows(IReadOnlyList<ClearnessDay> days, Func<ClearnessDay, double> figure)
    {
        foreach (int length in Lengths)
            if (DayRuns.Best(days, length, figure, mean => mean) is { } best) yield return WindowOf(days, best.From, length);
    }

    private static bool IsDark(ClearnessDay day) => day.Clearness < DarkClearness;

    private static DarkWindow? LongestOf(IReadOnlyList<ClearnessDay> days)
    {
        int longest = 0, from = 0, run = 0;
        for (int i = 0; i < days.Count; i++)
        {
            run = !IsDark(days[i]) ? 0 : days[i].FollowsPrevious ? run + 1 : 1;
            if (run > longest) (longest, from) = (run, i - run + 1);
        }
        return longest == 0 ? null : WindowOf(days, from, longest);
    }

    private static DarkWindow WindowOf(IReadOnlyList<ClearnessDay> days, int from, int length)
    {
        double clearness = 0, global = 0;
        for (int i = from; i < from + length; i++)
        {
            clearness += days[i].Clearness!.Value;
            global += days[i].GlobalWhPerM2;
        }
        return new DarkWindow(days[from].Date, length, clearness / length, global / length / 1000);
    }
}
