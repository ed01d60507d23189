using EnergySim.Strategies;
using EnergySim.Tariffs;

namespace EnergySim;

/// <summary>Which of two allowances a utility takes for growth under an old agreement. Practice conflicts: ask the utility in writing.</summary>
public enum GrowthRule
{
    /// <summary>The lesser of share and kW: the cautious reading.</summary>
    Lesser,

    /// <summary>The greater of them.</summary>
    Greater,
}

/// <summary>Today's interconnection agreement.</summary>
public sealed record Agreement
{
    /// <summary>The generating capacity it authorises, kW AC.</summary>
    public required double AuthorisedKw { get; init; }

    /// <summary>Share of it by which the capacity may grow, 0–1.</summary>
    public double GrowthFraction { get; init; } = 0.1;

    /// <summary>kW by which it may grow.</summary>
    public double GrowthKw { get; init; } = 1;

    /// <summary>Which of the two holds.</summary>
    public GrowthRule GrowthRule { get; init; }

    /// <summary>True when the rating of an AC-coupled battery is added to the solar inverter's.</summary>
    public bool CountsStorage { get; init; }

    /// <summary>The agreement's rule on the battery.</summary>
    public IntegrityRule StorageRule { get; init; }

    /// <summary>The plan to which a changed system is moved; null = not stated.</summary>
    public Tariff? NewTariff { get; init; }

    /// <summary>The most capacity that keeps the agreement, kW.</summary>
    public double MostKw => AuthorisedKw + (GrowthRule == GrowthRule.Lesser
        ? Math.Min(GrowthFraction * AuthorisedKw, GrowthKw)
        : Math.Max(GrowthFraction * AuthorisedKw, GrowthKw));
}
