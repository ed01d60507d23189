namespace EnergySim.Solar;

/// <summary>A run of days to ask an outage about, made of days that the weather file has.</summary>
public sealed record CloudySpell
{
    // A run whose mean lies this near to the wanted clearness is as good as it; days of a season scatter ten times as widely. Our choice.
    private const double NearClearness = 0.02;

    /// <summary>What it is, in words.</summary>
    public required string Name { get; init; }

    /// <summary>The real days that it is made of, in order.</summary>
    public required IReadOnlyList<ClearnessDay> Days { get; init; }

    /// <summary>True when the days followed one another in the sky; false when they were gathered.</summary>
    public required bool IsConsecutive { get; init; }

    /// <summary>The clearness that was asked for; null = the darkest days were.</summary>
    public required double? WantedClearness { get; init; }

    /// <summary>Mean of the days' clearness.</summary>
    public double MeanClearness => Days.Average(d => d.Clearness!.Value);

    /// <summary>
    /// Days at a clearness quantile of the season's days (type 7): the days in a row whose mean is nearest to it or, where none comes within 0.02,
    /// the season's single days nearest to it, gathered.
    /// </summary>
    /// <param name="sky">The days.</param>
    /// <param name="season">The season.</param>
    /// <param name="days">How many, ≥ 1.</param>
    /// <param name="fraction">The quantile, 0 (darkest) to 1 (clearest).</param>
    /// <exception cref="ArgumentException">The season has fewer days than that, or a number is out of range.</exception>
    public static CloudySpell AtQuantile(DailyClearness sky, Season season, int days, double fraction)
    {
        ArgumentNullException.ThrowIfNull(sky);
        ArgumentOutOfRangeException.ThrowIfLessThan(days, 1);
        if (!(fraction >= 0 && fraction <= 1)) throw new ArgumentOutOfRangeException(nameof(fraction), fraction, "A quantile lies between 0 and 1.");
        ClearnessDay[] inSeason = [.. sky.Days.Where(d => d.Clearness is not null && Seasons.Of(d.Date) == season)];
        if (inSeason.Length < days) throw new ArgumentException(FormattableString.Invariant($"{Seasons.Words(season)} has {inSeason.Length} days, {days} were asked for."), nameof(days));
        double[] sorted = [.. inSeason.Select(d => d.Clearness!.Value).Order()];
        double wanted = Quantile.Of(sorted, fraction);
        string what = FormattableString.Invariant($"{Count(days)} at the {fraction:0.##%} quantile of {Seasons.Words(season)}, clearness {wanted:0.00}");
        (int From, double Distance)? run = DayRuns.Best(
            sky.Days, days, d => d.Clearness!.Value, mean => Math.Abs(mean - wanted), d => Seasons.Of(d.Date) == season);
        if (run is { Distance: <= NearClearness } near)
            return new CloudySpell
            {
                Name = FormattableString.Invariant($"{what}: {sky.Days[near.From].Date:uuuu-MM-dd} on, recorded"),
                Days = [.. sky.Days.Skip(near.From).Take(days)],
                IsConsecutive = true,
                WantedClearness = wanted,
            };
        return new CloudySpell
        {
            Name = what + ": gathered from single days",
            Days = [.. inSeason.OrderBy(d => Math.Abs(d.Clearness!.Value - wanted)).Take(days).OrderBy(d => d.Source).ThenBy(d => d.Date)],
            IsConsecutive = days == 1,
            WantedClearness = wanted,
        };
    }

    /// <summary>The darkest days in a row of the data, or of one season of them.</summary>
    /// <param name="sky">The days.</param>
    /// <param name="days">How many, ≥ 1.</param>
    /// <param name="season">The season; null = any.</param>
    /// <exception cref="ArgumentException">There are no so many days in a row.</exception>
    public static CloudySpell Darkest(DailyClearness sky, int days, Season? season = null)
    {
        ArgumentNullException.ThrowIfNull(sky);
        ArgumentOutOfRangeException.ThrowIfLessThan(days, 1);
        Func<ClearnessDay, bool>? take = season is Season s ? day => Seasons.Of(day.Date) == s : null;
        (int From, double Clearness) darkest = DayRuns.Best(sky.Days, days, d => d.Clearness!.Value, mean => mean, take)
            ?? throw new ArgumentException(FormattableString.Invariant($"The data have no {days} such days in a row."), nameof(days));
        string where = season is Season named ? $" of {Seasons.Words(named)}" : "";
        return new CloudySpell
        {
            Name = FormattableString.Invariant($"the darkest {Count(days)} in a row{where}: {sky.Days[darkest.From].Date:uuuu-MM-dd} on, clearness {darkest.Clearness:0.00}"),
            Days = [.. sky.Days.Skip(darkest.From).Take(days)],
            IsConsecutive = true,
            WantedClearness = null,
        };
    }

    private static string Count(int days) => days == 1 ? "day" : FormattableString.Invariant($"{days} days");
}
