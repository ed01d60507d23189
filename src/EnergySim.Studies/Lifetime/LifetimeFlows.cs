using EnergySim.Billing;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Lifetime;

/// <summary>A year to come: its prices and what the house and the roof then do.</summary>
internal sealed record YearConditions
{
    /// <summary>Counted from 1.</summary>
    public required int Year { get; init; }

    /// <summary>The plan of that year, before growth.</summary>
    public required YearPlan Plan { get; init; }

    /// <summary>That plan on the data's axis.</summary>
    public required TariffCalendar Calendar { get; init; }

    /// <summary>The house's load, kWh.</summary>
    public required double LoadKwh { get; init; }

    /// <summary>What the panels give, kWh in the measure of the profile.</summary>
    public required double SolarKwh { get; init; }

    /// <summary>What the meter of the home as it is sees.</summary>
    public required MeterSums AsItIs { get; init; }
}

/// <summary>One year of an offer.</summary>
internal sealed record OfferYear
{
    /// <summary>Share of the first usable energy that the year begins with, 0–1; 0 = out of service.</summary>
    public required double CapacityFraction { get; init; }

    /// <summary>The share that it ends with.</summary>
    public required double EndCapacityFraction { get; init; }

    /// <summary>Usable energy, kWh.</summary>
    public required double UsableKwh { get; init; }

    /// <summary>Full cycles of the cells as they were when new.</summary>
    public required double FullCycles { get; init; }

    /// <summary>What the cells gave to house and grid, kWh AC.</summary>
    public required double GivenKwh { get; init; }

    /// <summary>True when new cells came at the year's start.</summary>
    public required bool IsReplaced { get; init; }

    /// <summary>Most power to the AC side, kW.</summary>
    public required double MostOutKw { get; init; }

    /// <summary>Energy above the reserve that reaches the AC side, kWh.</summary>
    public required double AboveReserveKwh { get; init; }

    /// <summary>What the meter sees.</summary>
    public required MeterSums Sums { get; init; }
}

/// <summary>An offer over the years.</summary>
/// <param name="Offer">The offer.</param>
/// <param name="Years">Its years.</param>
/// <param name="WarrantyEnd">When the first cells' warranty ended; null = not within the horizon.</param>
internal sealed record OfferFlows(Offer Offer, IReadOnlyList<OfferYear> Years, WarrantyEnd? WarrantyEnd);

/// <summary>All years of a home simulated: energy, no money. Prices that only grow need no new simulation.</summary>
/// <param name="Years">The years.</param>
/// <param name="Offers">The offers.</param>
internal sealed record LifetimeFlows(IReadOnlyList<YearConditions> Years, IReadOnlyList<OfferFlows> Offers);
