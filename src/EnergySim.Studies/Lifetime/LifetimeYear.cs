namespace EnergySim.Studies.Lifetime;

/// <summary>One year of an offer, bought for cash, in money of that year.</summary>
public sealed record LifetimeYear
{
    /// <summary>Counted from 1.</summary>
    public required int Year { get; init; }

    /// <summary>Calendar year in which it begins.</summary>
    public required int CalendarYear { get; init; }

    /// <summary>Share of the first usable energy that it begins with, 0–1; 0 = out of service.</summary>
    public required double CapacityFraction { get; init; }

    /// <summary>Usable energy, kWh.</summary>
    public required double UsableKwh { get; init; }

    /// <summary>Full cycles of the cells as they were when new.</summary>
    public required double FullCycles { get; init; }

    /// <summary>What the cells gave to house and grid, kWh AC.</summary>
    public required double ShiftedKwh { get; init; }

    /// <summary>The bills.</summary>
    public required decimal Bill { get; init; }

    /// <summary>Against the home as it is in the same year.</summary>
    public required decimal Saving { get; init; }

    /// <summary>Incentives paid in this year.</summary>
    public required decimal IncentivePaid { get; init; }

    /// <summary>Upkeep.</summary>
    public required decimal Upkeep { get; init; }

    /// <summary>Replacements, less one that the offer saves; negative where it saves more.</summary>
    public required decimal Replacements { get; init; }

    /// <summary>In the last year, what cells that came within the horizon are still worth: what they cost by the share of their life that is left.</summary>
    public required decimal ResidualValue { get; init; }

    /// <summary>What comes in: saving + incentives − upkeep − replacements + residual value.</summary>
    public decimal NetCash => Saving + IncentivePaid - Upkeep - Replacements + ResidualValue;

    /// <summary>True when new cells came at its start.</summary>
    public required bool IsReplaced { get; init; }
}

/// <summary>One year of the home as it is.</summary>
/// <param name="Year">Counted from 1.</param>
/// <param name="CalendarYear">Calendar year in which it begins.</param>
/// <param name="Bill">The bills.</param>
/// <param name="LoadKwh">What the house uses, kWh.</param>
/// <param name="SolarKwh">What the panels give, kWh in the measure of the profile.</param>
public sealed record AsItIsYear(int Year, int CalendarYear, decimal Bill, double LoadKwh, double SolarKwh);
