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

    /// <summary>Number of battery units.</summary>
    public required int BatteryUnits { get; init; }

    /// <summary>What became of each start, with the home's own weather.</summary>
    public StartOutcomes Outcomes => ByWeather[0].Outcomes;

    /// <summary>Each year of weather; the home's own first, with an empty name.</summary>
    public required IReadOnlyList<WeatherOutcomes> ByWeather { get; init; }

    /// <summary>Lasting, whatever the cause.</summary>
    public required Survival Any { get; init; }

    /// <summary>Lasting, for want of energy alone.</summary>
    public required Survival OnEnergy { get; init; }

    /// <summary>Lasting by season of the start: December–February, March–May, June–August, September–November; only those with starts.</summary>
    public required IReadOnlyList<(string Season, Survival Survival)> BySeason { get; init; }

    /// <summary>What half the starts last, h, by local hour of the start; null = no start in that hour.</summary>
    public required IReadOnlyList<double?> HalfLastByHour { get; init; }

    /// <summary>What half the starts last, h, by month (12 rows) and local hour (24) of the start; null = no start then.</summary>
    public required IReadOnlyList<IReadOnlyList<double?>> HalfLastByMonthAndHour { get; init; }

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

    /// <summary>What one thing done otherwise would have come to in it, from what costs nothing to what costs most; empty = the house was served.</summary>
    public required IReadOnlyList<CarryingChange> Changes { get; init; }

    /// <summary>Can it carry the house: power, starting current, energy.</summary>
    public required CarryVerdicts Verdicts { get; init; }

    /// <summary>Share of outages that are over before the first unserved load, by kind of outage; empty = not asked.</summary>
    public required IReadOnlyList<(OutageKind Kind, double CarriedFraction)> Carried { get; init; }
}

/// <summary>The starts with one year of weather.</summary>
/// <param name="Weather">Its name; empty = the home's own.</param>
/// <param name="Outcomes">What became of each start.</param>
/// <param name="Lasting">Lasting, whatever the cause.</param>
public sealed record WeatherOutcomes(string Weather, StartOutcomes Outcomes, Survival Lasting);

/// <summary>A start that lasts little.</summary>
/// <param name="At">Local start.</param>
/// <param name="LastingHours">Whole intervals lasted, h.</param>
/// <param name="StartKwh">Energy in the cells then, kWh.</param>
/// <param name="UnservedKwh">House load not served to the horizon, kWh.</param>
/// <param name="Weather">Year of weather; empty = the home's own.</param>
public sealed record WorstStart(LocalDateTime At, double LastingHours, double StartKwh, double UnservedKwh, string Weather);

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
