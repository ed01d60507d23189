using EnergySim.Engine;
using NodaTime;

namespace EnergySim.Studies.Outages;

/// <summary>What an outage does to the home with each offer.</summary>
public sealed record OutageResult
{
    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>What was asked.</summary>
    public required OutageTerms Terms { get; init; }

    /// <summary>Each offer, on the same starts.</summary>
    public required IReadOnlyList<OfferOutages> Offers { get; init; }

    /// <summary>Each later offer against the first.</summary>
    public required IReadOnlyList<PairedOutages> Pairs { get; init; }

    /// <summary>What was assumed, and what the figures are not.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

/// <summary>An offer in outages from every start.</summary>
public sealed record OfferOutages
{
    /// <summary>The offer's name.</summary>
    public required string Name { get; init; }

    /// <summary>What became of each start.</summary>
    public required StartOutcomes Outcomes { get; init; }

    /// <summary>Lasting, whatever the cause.</summary>
    public required Survival Any { get; init; }

    /// <summary>Lasting, for want of energy alone.</summary>
    public required Survival OnEnergy { get; init; }

    /// <summary>Lasting by season of the start: December–February, March–May, June–August, September–November; only those with starts.</summary>
    public required IReadOnlyList<(string Season, Survival Survival)> BySeason { get; init; }

    /// <summary>What half the starts last, h, by local hour of the start; null = no start in that hour.</summary>
    public required IReadOnlyList<double?> HalfLastByHour { get; init; }

    /// <summary>Served over demanded house energy, over all starts to the horizon; null = nothing was demanded.</summary>
    public required double? Availability { get; init; }

    /// <summary>Mean over starts of house load not served to the horizon, kWh.</summary>
    public required double MeanUnservedKwh { get; init; }

    /// <summary>Mean over starts of dark hours to the horizon, h.</summary>
    public required double MeanDarkHours { get; init; }

    /// <summary>The starts that last the least, at most one a day, the worst first.</summary>
    public required IReadOnlyList<WorstStart> Worst { get; init; }

    /// <summary>The outage told in detail.</summary>
    public required NamedOutage Named { get; init; }
}

/// <summary>A start that lasts little.</summary>
/// <param name="At">Local start.</param>
/// <param name="LastingHours">Whole intervals lasted, h.</param>
/// <param name="StartKwh">Energy in the cells then, kWh.</param>
/// <param name="UnservedKwh">House load not served to the horizon, kWh.</param>
public sealed record WorstStart(LocalDateTime At, double LastingHours, double StartKwh, double UnservedKwh);

/// <summary>A later offer against the first on the same starts; shares of all starts.</summary>
public sealed record PairedOutages
{
    /// <summary>The first offer.</summary>
    public required string First { get; init; }

    /// <summary>The other.</summary>
    public required string Second { get; init; }

    /// <summary>Both last to the horizon, or both the same whole intervals.</summary>
    public required double AddsNothingFraction { get; init; }

    /// <summary>The second lasts longer.</summary>
    public required double AddsHoursFraction { get; init; }

    /// <summary>Of those that last longer: the first fails before the first 06:00 after the start, the second lasts past it.</summary>
    public required double CarriesNightFraction { get; init; }

    /// <summary>The second lasts less (its own draw, or a ratio it breaks).</summary>
    public required double TakesHoursFraction { get; init; }
}

/// <summary>One outage in detail.</summary>
public sealed record NamedOutage
{
    /// <summary>Its intervals.</summary>
    public required Ledger Ledger { get; init; }

    /// <summary>Local start.</summary>
    public required LocalDateTime At { get; init; }

    /// <summary>Length, h.</summary>
    public required double Hours { get; init; }

    /// <summary>Energy in the cells at the start, kWh.</summary>
    public required double StartKwh { get; init; }

    /// <summary>At the start of each interval: hours served with the sun expected; null = to the end of the walk and beyond.</summary>
    public required IReadOnlyList<double?> HoursLeftWithSun { get; init; }

    /// <summary>At the start of each interval: hours served if the sun gave nothing more; null = beyond the horizon.</summary>
    public required IReadOnlyList<double?> HoursLeftWithoutSun { get; init; }

    /// <summary>Hours from the start to the first interval with unserved load; null = none.</summary>
    public required double? FirstUnservedHours { get; init; }

    /// <summary>Hours from the start to the first dark interval; null = none.</summary>
    public required double? FirstDarkHours { get; init; }

    /// <summary>Hours from the start to the first wholly served interval after that; null = it does not recover, or was never dark.</summary>
    public required double? RecoversHours { get; init; }

    /// <summary>Solar not used, kWh as DC and AC together.</summary>
    public required double CurtailedKwh { get; init; }
}
