using EnergySim.Billing;
using EnergySim.Engine;
using NodaTime;

namespace EnergySim.Studies;

/// <summary>The home as it is and with each offer, side by side, on the same series and the same plan.</summary>
public sealed record Comparison
{
    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>The plan: name and the effective date of its version in force at the start.</summary>
    public required string Tariff { get; init; }

    /// <summary>ISO 4217 code.</summary>
    public required string Currency { get; init; }

    /// <summary>Length of an interval, minutes.</summary>
    public required int StepMinutes { get; init; }

    /// <summary>First local date.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last local date.</summary>
    public required LocalDate To { get; init; }

    /// <summary>First the home as it is, then each offer.</summary>
    public required IReadOnlyList<ComparisonColumn> Columns { get; init; }

    /// <summary>Sentences that belong under the figures: what was assumed, what they are not.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

/// <summary>One column: a year (or the span of the data) of one installation.</summary>
public sealed record ComparisonColumn
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Number of battery units; 0 as it is.</summary>
    public required int BatteryUnits { get; init; }

    /// <summary>Price installed; null = none stated.</summary>
    public required decimal? Price { get; init; }

    /// <summary>What the bills of the span come to.</summary>
    public required decimal AnnualBill { get; init; }

    /// <summary>Against the home as it is.</summary>
    public required decimal AnnualSaving { get; init; }

    /// <summary>Over the column before it.</summary>
    public required decimal AddedSaving { get; init; }

    /// <summary>Share of the house's load met by its own solar, directly or through the battery, 0–1.</summary>
    public required double OwnSupplyFraction { get; init; }

    /// <summary>Energy out of the cells over usable energy.</summary>
    public required double EquivalentFullCycles { get; init; }

    /// <summary>What the panels give, kWh in the measure of the solar profile (DC at the inverter's inputs, or AC behind it).</summary>
    public required double SolarKwh { get; init; }

    /// <summary>Of that, what is clipped or curtailed, kWh in the same measure.</summary>
    public required double CurtailedKwh { get; init; }

    /// <summary>Hours in which each limit bound, where it did; without a battery only the meter's limits are asked.</summary>
    public required IReadOnlyDictionary<Limit, double> LimitHours { get; init; }

    /// <summary>The sums of the run.</summary>
    public required RunSums Sums { get; init; }

    /// <summary>The bills.</summary>
    public required BillSet Bills { get; init; }
}
