namespace EnergySim.Wiring;

/// <summary>
/// The limits that the wiring of the site and the agreement with the utility set, kW. They do not grow with the number of batteries.
/// <see cref="double.PositiveInfinity"/> means no limit.
/// </summary>
public sealed record SiteLimits
{
    /// <summary>Share of a breaker's or conductor's rating that may flow for three hours or more (common practice for equipment not rated for 100 %).</summary>
    public const double ContinuousShare = 0.8;

    /// <summary>No limit at all.</summary>
    public static SiteLimits None { get; } = new();

    /// <summary>Most power through the battery inverter's breaker, either direction, kW AC.</summary>
    public double InverterBreakerKw { get; init; } = double.PositiveInfinity;

    /// <summary>The grid-current cap: battery charging is throttled to keep the site's import under it, kW.</summary>
    public double ImportKw { get; init; } = double.PositiveInfinity;

    /// <summary>Most power sold at the meter, kW; 0 = the site never exports.</summary>
    public double ExportKw { get; init; } = double.PositiveInfinity;

    /// <summary>What a power control system lets the busbar carry from all its sources together, kW.</summary>
    public double BusbarKw { get; init; } = double.PositiveInfinity;

    /// <summary>True when the battery discharges, above its floor, to hold import at <see cref="ImportKw"/>.</summary>
    public bool RelievesImport { get; init; } = true;

    /// <summary>True when the separate solar inverter feeds the guarded busbar.</summary>
    public bool AcSolarOnBusbar { get; init; } = true;

    /// <summary>Off the grid: true when loads beyond the inverter's power are shed; false when the inverter trips instead.</summary>
    public bool ManagesLoad { get; init; } = true;

    /// <summary>Continuous power at a current and a voltage: 0.8 × A × V.</summary>
    /// <param name="amps">Rating of the breaker or conductor, A, ≥ 0.</param>
    /// <param name="volts">Line-to-line volts of the service, &gt; 0 (240 for split phase).</param>
    /// <returns>kW.</returns>
    public static double ContinuousKw(double amps, double volts)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(amps);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(volts);
        return ContinuousShare * amps * volts / 1000;
    }
}
