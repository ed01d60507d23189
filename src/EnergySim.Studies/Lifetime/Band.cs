namespace EnergySim.Studies.Lifetime;

/// <summary>What one cause does to a figure.</summary>
/// <param name="Name">The cause and its two cases, in words.</param>
/// <param name="Low">The figure in the case that makes it least.</param>
/// <param name="High">The figure in the case that makes it greatest.</param>
/// <param name="Share">Its share of the band: its half width squared over the sum of all those, 0–1.</param>
public sealed record BandCause(string Name, double Low, double High, double Share);

/// <summary>
/// A figure with a low and a high. Each cause is moved alone; what the causes do is then taken together as if they were independent: root of
/// the sum of squares, each side by itself (common practice).
/// </summary>
public sealed record Band
{
    /// <summary>Low.</summary>
    public required double Low { get; init; }

    /// <summary>As assumed.</summary>
    public required double Likely { get; init; }

    /// <summary>High.</summary>
    public required double High { get; init; }

    /// <summary>The causes, largest share first.</summary>
    public required IReadOnlyList<BandCause> Causes { get; init; }

    /// <summary>The band of a figure.</summary>
    /// <param name="likely">The figure as assumed.</param>
    /// <param name="cases">For each cause the figure in its two cases, in either order.</param>
    public static Band Of(double likely, IReadOnlyList<(string Cause, double A, double B)> cases)
    {
        ArgumentNullException.ThrowIfNull(cases);
        var causes = cases.Select(c => (c.Cause, Low: Math.Min(likely, Math.Min(c.A, c.B)), High: Math.Max(likely, Math.Max(c.A, c.B)))).ToArray();
        double squares = causes.Sum(c => Math.Pow((c.High - c.Low) / 2, 2));
        return new Band
        {
            Low = likely - Math.Sqrt(causes.Sum(c => Math.Pow(likely - c.Low, 2))),
            Likely = likely,
            High = likely + Math.Sqrt(causes.Sum(c => Math.Pow(c.High - likely, 2))),
            Causes = [.. causes.Select(c => new BandCause(c.Cause, c.Low, c.High, squares > 0 ? Math.Pow((c.High - c.Low) / 2, 2) / squares : 0)).OrderByDescending(c => c.Share)],
        };
    }
}

/// <summary>The bands of one offer, or of what a second battery adds.</summary>
public sealed record OfferBands
{
    /// <summary>Saving of the first year.</summary>
    public required Band FirstYearSaving { get; init; }

    /// <summary>Sum of all the bills saved within the horizon.</summary>
    public required Band TotalSaving { get; init; }

    /// <summary>Net present value; null where no price is stated.</summary>
    public required Band? NetPresentValue { get; init; }

    /// <summary>Money that has come in all by the start and the end of each year, low and high; empty where no price is stated.</summary>
    public required IReadOnlyList<(double Low, double High)> Cumulative { get; init; }

    /// <summary>Simple payback of the high case, years; null = not within the horizon, or no price.</summary>
    public required double? EarliestPaybackYears { get; init; }

    /// <summary>Simple payback of the low case, years; null = not within the horizon, or no price.</summary>
    public required double? LatestPaybackYears { get; init; }
}
