using NodaTime;

namespace EnergySim.Economics;

/// <summary>
/// An incentive, as data with the dates between which an installation earns it. There is none by default: in the United States the federal
/// owner credit (26 U.S.C. 25D) ended for spending after 2025-12-31.
/// </summary>
public sealed record Incentive
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>First day on which a finished installation earns it; null = from ever.</summary>
    public LocalDate? From { get; init; }

    /// <summary>Last such day; null = for ever.</summary>
    public LocalDate? Until { get; init; }

    /// <summary>Paid once, as a share of the cash price, 0–1.</summary>
    public double PriceFraction { get; init; }

    /// <summary>Paid once.</summary>
    public decimal Amount { get; init; }

    /// <summary>Paid once for each kW that the battery gives.</summary>
    public decimal AmountPerKw { get; init; }

    /// <summary>Paid once for each kWh that it holds.</summary>
    public decimal AmountPerKwh { get; init; }

    /// <summary>Paid every year for each kW that it gives on average over the events.</summary>
    public decimal YearlyPerKw { get; init; }

    /// <summary>Years for which that is paid; null = the whole horizon.</summary>
    public int? Years { get; init; }

    /// <summary>Length of an event, h: the kW are no more than what the energy above the reserve lasts for.</summary>
    public double EventHours { get; init; } = 3;

    /// <summary>True when it is earned only by who owns the system: a lease then brings none.</summary>
    public bool ForOwnersOnly { get; init; } = true;

    /// <summary>True when an installation finished on a day earns it.</summary>
    public bool Holds(LocalDate finished) => !(finished < From) && !(finished > Until);
}
