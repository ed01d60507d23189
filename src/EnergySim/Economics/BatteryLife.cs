namespace EnergySim.Economics;

/// <summary>When a battery is replaced.</summary>
public enum ReplacementRule
{
    /// <summary>At the start of a stated year.</summary>
    InYear,

    /// <summary>At the start of the year after its warranty ended.</summary>
    AfterWarranty,

    /// <summary>When it holds less than its end-of-life share.</summary>
    AtEndOfLife,
}

/// <summary>
/// How a battery ages, and how long its maker stands for it. The defaults come to 70 % after ten years of 250 full cycles: linear to the
/// warranty's end, the cautious common practice; the split between time and use is our own.
/// </summary>
public sealed record BatteryLife
{
    /// <summary>Share of the first usable energy lost a year by age alone, 0–1.</summary>
    public double FadePerYear { get; init; } = 0.015;

    /// <summary>Share of the first usable energy lost by one full cycle, 0–1.</summary>
    public double FadePerCycle { get; init; } = 0.00006;

    /// <summary>Share of the first usable energy below which it is taken out of service, 0–1.</summary>
    public double EndOfLifeFraction { get; init; } = 0.6;

    /// <summary>Years of warranty; null = not limited in years.</summary>
    public double? WarrantyYears { get; init; } = 10;

    /// <summary>Energy out of the cells of one unit under warranty, kWh; null = not limited in use.</summary>
    public double? WarrantyThroughputKwh { get; init; }

    /// <summary>Share of the first usable energy that the warranty promises, 0–1.</summary>
    public double WarrantyFraction { get; init; } = 0.7;

    /// <summary>Its replacement; null = none.</summary>
    public BatteryReplacement? Replacement { get; init; }
}

/// <summary>A battery's replacement by a new one of the same kind.</summary>
/// <param name="Rule">When.</param>
/// <param name="Year">The year, counted from 1, where the rule asks for one.</param>
/// <param name="PricePerUnit">Price of a unit, installed, at the prices of the first year.</param>
public sealed record BatteryReplacement(ReplacementRule Rule, int Year, decimal PricePerUnit);

/// <summary>An inverter's replacement.</summary>
/// <param name="Year">At the start of which year, counted from 1.</param>
/// <param name="Price">Price installed, at the prices of the first year.</param>
public sealed record InverterReplacement(int Year, decimal Price);
