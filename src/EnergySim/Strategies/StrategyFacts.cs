using EnergySim.Profiles;
using EnergySim.Tariffs;

namespace EnergySim.Strategies;

/// <summary>What rules that look at the past and at prices are told. Of the series only days before the day decided on are asked.</summary>
public sealed record StrategyFacts
{
    /// <summary>The house, kW.</summary>
    public required Profile Load { get; init; }

    /// <summary>All solar, as AC; null = none.</summary>
    public required Profile? Solar { get; init; }

    /// <summary>What a kWh is worth at the meter.</summary>
    public required MarginalPrices Prices { get; init; }
}
