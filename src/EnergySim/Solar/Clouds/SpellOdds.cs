namespace EnergySim.Solar;

/// <summary>The darkest days in a row of a year, over many made-up years: what an ordinary year has, and what one year in ten has or worse.</summary>
/// <param name="Days">How many days in a row.</param>
/// <param name="OrdinaryClearness">Their mean clearness in the middle year (median).</param>
/// <param name="OneInTenClearness">Not above this in one year in ten.</param>
public readonly record struct DarkWindowOdds(int Days, double OrdinaryClearness, double OneInTenClearness);

/// <summary>Dark spells of many made-up years.</summary>
public sealed record SpellOdds
{
    /// <summary>How many years.</summary>
    public required int Years { get; init; }

    /// <summary>Their seed.</summary>
    public required ulong Seed { get; init; }

    /// <summary>How much of a day's weather stays to the next (<see cref="ClearnessModel.Persistence"/>).</summary>
    public required double Persistence { get; init; }

    /// <summary>For 1, 2, 3, 5, 7 and 14 days in a row.</summary>
    public required IReadOnlyList<DarkWindowOdds> LeastClear { get; init; }

    /// <summary>Longest run of dark days in the middle year.</summary>
    public required double OrdinaryRunDays { get; init; }

    /// <summary>Longest run of dark days, reached in one year in ten.</summary>
    public required double OneInTenRunDays { get; init; }

    /// <summary>Makes the years and looks at each by itself; quantiles are of type 7.</summary>
    /// <param name="model">The model.</param>
    /// <param name="seed">The seed.</param>
    /// <param name="count">How many years, ≥ 1.</param>
    public static SpellOdds Of(ClearnessModel model, ulong seed, int count)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        var least = new double[DarkSpells.Lengths.Count][];
        for (int l = 0; l < least.Length; l++) least[l] = new double[count];
        var longest = new double[count];
        var clearness = new double[DayOfYear.Count];
        for (int y = 0; y < count; y++)
        {
            SeededNoise noise = SeededNoise.Stream(seed, y);
            model.Fill(ref noise, clearness);
            for (int l = 0; l < least.Length; l++) least[l][y] = LeastMean(clearness, DarkSpells.Lengths[l]);
            longest[y] = LongestRun(clearness);
        }
        foreach (double[] column in least) Array.Sort(column);
        Array.Sort(longest);
        return new SpellOdds
        {
            Years = count,
            Seed = seed,
            Persistence = model.Persistence,
            LeastClear = [.. DarkSpells.Lengths.Select((days, l) => new DarkWindowOdds(days, Quantile.Of(least[l], 0.5), Quantile.Of(least[l], 0.1)))],
            OrdinaryRunDays = Quantile.Of(longest, 0.5),
            OneInTenRunDays = Quantile.Of(longest, 0.9),
        };
    }

    private static double LeastMean(ReadOnlySpan<double> clearness, int days)
    {
        double sum = 0, least = double.PositiveInfinity;
        for (int i = 0; i < clearness.Length; i++)
        {
            sum += clearness[i];
            if (i >= days) sum -= clearness[i - days];
            if (i >= days - 1 && sum < least) least = sum;
        }
        return least / days;
    }

    private static int LongestRun(ReadOnlySpan<double> clearness)
    {
        int run = 0, longest = 0;
        foreach (double k in clearness)
        {
            run = k < DarkSpells.DarkClearness ? run + 1 : 0;
            longest = Math.Max(longest, run);
        }
        return longest;
    }
}
