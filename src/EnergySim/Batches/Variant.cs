using System.Globalization;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Time;
using EnergySim.Wiring;

namespace EnergySim.Batches;

/// <summary>
/// One case of a <see cref="Batch"/>, on the grid. Variants that use the same <see cref="Profile"/> objects and set-points of the same
/// <see cref="StrategyClock"/> run fastest side by side; they need not.
/// </summary>
public sealed record Variant
{
    /// <summary>The house, kW AC, on the batch's axis.</summary>
    public required Profile Load { get; init; }

    /// <summary>What every value of <see cref="Load"/> is multiplied by, finite and ≥ 0.</summary>
    public double LoadFactor { get; init; } = 1;

    /// <summary>DC solar at the battery inverter's inputs, kW; null = none.</summary>
    public Profile? SolarDc { get; init; }

    /// <summary>What every value of <see cref="SolarDc"/> is multiplied by, finite and ≥ 0.</summary>
    public double SolarDcFactor { get; init; } = 1;

    /// <summary>AC of a separate solar inverter, kW; null = none.</summary>
    public Profile? SolarAc { get; init; }

    /// <summary>What every value of <see cref="SolarAc"/> is multiplied by, finite and ≥ 0.</summary>
    public double SolarAcFactor { get; init; } = 1;

    /// <summary>The equipment.</summary>
    public required Plant Plant { get; init; }

    /// <summary>The wiring.</summary>
    public SiteLimits Site { get; init; } = SiteLimits.None;

    /// <summary>What is wanted, one row an interval.</summary>
    public required SetPoints SetPoints { get; init; }

    /// <summary>Energy at the start, kWh; null = what the last 336 h of the span lead to.</summary>
    public double? StartKwh { get; init; }

    /// <summary>A run as a variant.</summary>
    /// <param name="run">A run on the grid.</param>
    /// <exception cref="ArgumentException">The run is off the grid.</exception>
    public static Variant Of(Run run)
    {
        ArgumentNullException.ThrowIfNull(run);
        if (run.IsOffGrid) throw new ArgumentException("A batch runs on the grid.", nameof(run));
        return new Variant
        {
            Load = run.Load,
            SolarDc = run.SolarDc,
            SolarAc = run.SolarAc,
            Plant = run.Plant,
            Site = run.Site,
            SetPoints = run.SetPoints,
            StartKwh = run.StartKwh,
        };
    }

    /// <summary>Checks series, rows and every number.</summary>
    /// <param name="axis">The batch's axis.</param>
    /// <exception cref="ArgumentException">Names the first thing that is out of range or on another axis.</exception>
    public void Check(TimeAxis axis)
    {
        ArgumentNullException.ThrowIfNull(axis);
        Plant.Validate();
        CheckSeries(Load, LoadFactor, nameof(Load), axis);
        CheckSeries(SolarDc, SolarDcFactor, nameof(SolarDc), axis);
        CheckSeries(SolarAc, SolarAcFactor, nameof(SolarAc), axis);
        if (SetPoints.Count != axis.Count) throw new ArgumentException($"{SetPoints.Count} set-point rows for {axis.Count} intervals.");
        if (StartKwh is double start) Plant.CheckLevel(start);
    }

    private static void CheckSeries(Profile? profile, double factor, string name, TimeAxis axis)
    {
        if (profile is not null && !profile.Axis.IsSameAs(axis)) throw new ArgumentException($"{name} is not on the batch's axis.");
        if (!(factor >= 0) || double.IsInfinity(factor)) throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"{name} is multiplied by {factor}; the factor is finite and at least 0."));
    }

    /// <summary>The variant as a run of its own: the same numbers to the last bit, and a ledger if asked.</summary>
    /// <exception cref="ArgumentException">A number is out of range, or the series and rows are not on one axis.</exception>
    public Run ToRun() => new(Load.Scaled(LoadFactor), SolarDc?.Scaled(SolarDcFactor), SolarAc?.Scaled(SolarAcFactor), Plant, Site, SetPoints, StartKwh);
}
