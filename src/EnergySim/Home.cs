using EnergySim.Economics;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Wiring;

namespace EnergySim;

/// <summary>A home as the questions see it: what it uses, what its roof gives, what it pays, and what it is offered.</summary>
public sealed record Home
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Where it is, in words.</summary>
    public string Place { get; init; } = "";

    /// <summary>What must be said of its data under every figure (that they are invented, say).</summary>
    public string Note { get; init; } = "";

    /// <summary>What the house uses, kW AC.</summary>
    public required Profile Load { get; init; }

    /// <summary>True when the load comes from meter data in which import and export were netted inside each interval.</summary>
    public bool LoadIsNetted { get; init; }

    /// <summary>What the roof gives; null = no solar.</summary>
    public HomeSolar? Solar { get; init; }

    /// <summary>The rate plan.</summary>
    public required Tariff Tariff { get; init; }

    /// <summary>The account with the utility.</summary>
    public Account Account { get; init; } = new();

    /// <summary>The service and the agreement's export limit; a battery's own breaker comes with its offer.</summary>
    public Service Service { get; init; } = new();

    /// <summary>Panel, code edition, loads and ways to connect; null = not stated.</summary>
    public WiringPlan? Wiring { get; init; }

    /// <summary>Today's interconnection agreement; null = not stated.</summary>
    public Agreement? Agreement { get; init; }

    /// <summary>The offers, each compared with the home as it is.</summary>
    public required IReadOnlyList<Offer> Offers { get; init; }

    /// <summary>What is assumed of the years to come.</summary>
    public MoneyTerms Money { get; init; } = new();
}

/// <summary>The electric service.</summary>
public sealed record Service
{
    /// <summary>Line-to-line volts.</summary>
    public double Volts { get; init; } = 240;

    /// <summary>Rating of the main breaker, A; null = no import cap.</summary>
    public double? MainAmps { get; init; }

    /// <summary>The setting of the import cap where it is not 0.8 × main × volts, kW.</summary>
    public double? ImportLimitKw { get; init; }

    /// <summary>Most power that the agreement lets the site sell, kW; null = no limit, 0 = no export.</summary>
    public double? ExportLimitKw { get; init; }

    /// <summary>Rating of a busbar that a power control system guards, A; null = no guard.</summary>
    public double? GuardedBusbarAmps { get; init; }

    /// <summary>The setting of that system where it is not 0.8 × busbar × volts, kW.</summary>
    public double? BusbarLimitKw { get; init; }

    /// <summary>True when the battery discharges to hold import at the cap.</summary>
    public bool RelievesImport { get; init; } = true;
}

/// <summary>A proposed installation with its price.</summary>
public sealed record Offer
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>The battery unit.</summary>
    public required Battery Battery { get; init; }

    /// <summary>How many units, ≥ 1.</summary>
    public required int Units { get; init; }

    /// <summary>Price installed, in the tariff's money; null = not stated.</summary>
    public decimal? Price { get; init; }

    /// <summary>Prices installed by number of units, from one on; empty = none stated. <see cref="Price"/> is the one of <see cref="Units"/>.</summary>
    public IReadOnlyList<decimal> PricesByUnits { get; init; } = [];

    /// <summary>The breaker between the battery inverters and the panel, A; null = no limit.</summary>
    public double? BreakerAmps { get; init; }

    /// <summary>True when the battery's own inverter takes the place of today's solar inverter (needs a DC profile).</summary>
    public bool ReplacesSolarInverter { get; init; }

    /// <summary>Share of the panels rewired to the battery's own inputs while today's inverter keeps the rest (needs a DC profile), 0–1; 0 = none.</summary>
    public double SplitFraction { get; init; }

    /// <summary>What the battery is told to do.</summary>
    public required Strategy Strategy { get; init; }

    /// <summary>The price of so many units; null = not stated.</summary>
    public decimal? PriceOf(int units) => units == Units ? Price : units >= 1 && units <= PricesByUnits.Count ? PricesByUnits[units - 1] : null;
}
