namespace EnergySim.Studies.Outages;

/// <summary>One kind of outage: how many a year, and how long they are on average.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="PerYear">Mean number a year, ≥ 0.</param>
/// <param name="MeanHours">Mean length, h, &gt; 0; lengths are taken as exponentially distributed (a common simplification, stated).</param>
public sealed record OutageKind(string Name, double PerYear, double MeanHours);

/// <summary>How often and how long the grid fails where the home stands.</summary>
public sealed record OutageDurations
{
    /// <summary>Where the figures come from.</summary>
    public required string Source { get; init; }

    /// <summary>The kinds.</summary>
    public required IReadOnlyList<OutageKind> Kinds { get; init; }

    /// <summary>
    /// From reliability indices (IEEE 1366: CAIDI = SAIDI ÷ SAIFI): outages of ordinary days, and, where the indices without major event days are
    /// given too, those of major events as what is left.
    /// </summary>
    /// <param name="source">Where they come from.</param>
    /// <param name="saidiMinutes">Minutes a customer and year, all events, &gt; 0.</param>
    /// <param name="saifi">Interruptions a customer and year, all events, &gt; 0.</param>
    /// <param name="ordinarySaidiMinutes">The same without major event days; null = not known.</param>
    /// <param name="ordinarySaifi">The same without major event days; null = not known.</param>
    public static OutageDurations OfIndices(string source, double saidiMinutes, double saifi, double? ordinarySaidiMinutes = null, double? ordinarySaifi = null)
    {
        if (ordinarySaidiMinutes is not double minutes || ordinarySaifi is not double count || minutes >= saidiMinutes || count >= saifi)
            return new OutageDurations { Source = source, Kinds = [new OutageKind("all", saifi, saidiMinutes / saifi / 60)] };
        return new OutageDurations
        {
            Source = source,
            Kinds = [new OutageKind("ordinary days", count, minutes / count / 60), new OutageKind("major events", saifi - count, (saidiMinutes - minutes) / (saifi - count) / 60)],
        };
    }

    /// <summary>
    /// Share of the outages of a kind that are over before the first unserved load: the mean over starts of 1 − e^(−lasting ÷ mean). A start that
    /// outlasts the horizon counts with the horizon, so this is a lower bound.
    /// </summary>
    /// <param name="kind">The kind.</param>
    /// <param name="lastingHours">Hours lasted, one a start.</param>
    public static double CarriedFraction(OutageKind kind, IEnumerable<double> lastingHours)
    {
        ArgumentNullException.ThrowIfNull(kind);
        return lastingHours.Average(hours => 1 - Math.Exp(-hours / kind.MeanHours));
    }

    internal void Validate()
    {
        foreach (OutageKind kind in Kinds)
            if (!(kind.PerYear >= 0 && kind.MeanHours > 0)) throw new ArgumentException($"Outages of {kind.Name}: a number a year of at least 0, and a mean length above 0 h.");
    }
}
