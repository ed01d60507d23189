using EnergySim.Profiles;
using EnergySim.Solar;

namespace EnergySim;

/// <summary>Solar on the roof, and what it is connected to today.</summary>
public sealed record HomeSolar
{
    /// <summary>Power in each interval, kW.</summary>
    public required Profile Profile { get; init; }

    /// <summary>True when the profile is DC at the inverter's inputs; false when it is AC as metered behind the inverter.</summary>
    public required bool IsDc { get; init; }

    /// <summary>AC rating of today's inverter, kW; null = unknown (no clipping then; required for a DC profile).</summary>
    public double? InverterKw { get; init; }

    /// <summary>Efficiency of today's inverter, 0–1, the mean over its energy where it has a curve; used with a DC profile only.</summary>
    public double InverterEfficiency { get; init; } = 0.96;

    /// <summary>Efficiency of today's inverter by DC power as a share of its rating; empty = the same at any power.</summary>
    public IReadOnlyList<(double LoadFraction, double Efficiency)> InverterCurve { get; init; } = [];

    /// <summary>What the profile was worked out from; null = it was measured or made elsewhere.</summary>
    public ModelledRoof? Modelled { get; init; }

    /// <summary>Today's inverter, for a DC profile.</summary>
    public SolarInverter Inverter() =>
        new(InverterKw ?? double.PositiveInfinity, InverterCurve.Count > 0 ? InverterCurve : [(1, InverterEfficiency)]);
}

/// <summary>A roof, its weather, and what it gives under it on the axis of the home's load.</summary>
/// <param name="Roof">The roof.</param>
/// <param name="Weather">The weather.</param>
/// <param name="Output">The power.</param>
public sealed record ModelledRoof(Roof Roof, WeatherSeries Weather, RoofOutput Output);
