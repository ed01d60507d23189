using EnergySim.Profiles;

namespace EnergySim.Engine;

/// <summary>A part of the house that is switched off while little energy is stored, by a relay say, and on again when there is more.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Load">What it uses while it is on, kW AC.</param>
/// <param name="OffBelowFraction">It goes off at the start of an interval in which less than this share of usable energy is stored, 0–1.</param>
/// <param name="OnAboveFraction">It comes on again when at least this share is stored; not below <paramref name="OffBelowFraction"/>.</param>
public sealed record SheddableLoad(string Name, Profile Load, double OffBelowFraction, double OnAboveFraction);

/// <summary>
/// A generator that starts and stops by the stored energy. While it runs it serves the house and fills the cells through the rectifier, up to
/// its power; the cells help above that.
/// </summary>
public sealed record Generator
{
    /// <summary>Most power, kW AC, &gt; 0.</summary>
    public required double Kw { get; init; }

    /// <summary>It starts below this share of usable energy, or when the house is dark, 0–1.</summary>
    public double StartBelowFraction { get; init; } = 0.2;

    /// <summary>It fills the cells up to this share and stops there; above <see cref="StartBelowFraction"/>, at most 1.</summary>
    public double StopAboveFraction { get; init; } = 0.8;

    /// <summary>What the fuel on hand gives, kWh AC; ∞ = refuelled in time. It runs as long as the rest covers an interval at full power.</summary>
    public double FuelKwh { get; init; } = double.PositiveInfinity;

    /// <summary>True when a separate solar inverter may feed beside it; usually it is locked out, as a generator takes no surplus (common practice).</summary>
    public bool RunsBesideSeparateSolar { get; init; }
}

/// <summary>What else holds while the grid is down: parts that are shed, restarts, a generator. The default is the plain step.</summary>
public sealed record OutageRules
{
    /// <summary>The most sheddable parts.</summary>
    public const int MostSheddable = 16;

    /// <summary>Nothing beyond the step.</summary>
    public static OutageRules None { get; } = new();

    /// <summary>Parts of the house that come on top of the run's load and are shed by stored energy.</summary>
    public IReadOnlyList<SheddableLoad> Sheddable { get; init; } = [];

    /// <summary>The generator, if any.</summary>
    public Generator? Generator { get; init; }

    /// <summary>True when a tripped inverter restarts by the restart rule; false when somebody must do it.</summary>
    public bool RestartsAfterTrip { get; init; } = true;

    /// <summary>True when an empty battery restarts by the restart rule; false when somebody must do it.</summary>
    public bool RestartsAfterEmpty { get; init; } = true;

    /// <summary>Where somebody must do it: hours dark until they ask the restart rule for the first time; null = not within the outage.</summary>
    public double? ByHandAfterHours { get; init; }

    /// <summary>Share of usable energy that is never given out, so that there is some to restart with, 0–1. The restart level lies above it.</summary>
    public double HeldBackFraction { get; init; }

    /// <summary>
    /// True when a dark plant uses held-back energy to form the grid again as soon as all its solar, that of a separate inverter included, covers
    /// standby and house.
    /// </summary>
    public bool TriesWithSun { get; init; }

    /// <summary>True when only the plain step is asked.</summary>
    public bool IsNone => Sheddable.Count == 0 && Generator is null && RestartsAfterTrip && RestartsAfterEmpty && HeldBackFraction == 0;

    /// <summary>Checks the ranges.</summary>
    /// <exception cref="ArgumentException">Names the first number out of range.</exception>
    public void Validate()
    {
        if (Sheddable.Count > MostSheddable) throw new ArgumentException($"{Sheddable.Count} sheddable parts; there can be {MostSheddable}.");
        foreach (SheddableLoad part in Sheddable)
            if (!(part.OffBelowFraction >= 0 && part.OnAboveFraction >= part.OffBelowFraction && part.OnAboveFraction <= 1))
                throw new ArgumentException($"{part.Name}: it goes off below a share of 0–1 and on again above one that is not less.");
        if (!(HeldBackFraction is >= 0 and < 1)) throw new ArgumentException("The share held back lies between 0 and 1.");
        if (ByHandAfterHours is double hours && !(hours >= 0)) throw new ArgumentException("The hours until a restart by hand are at least 0.");
        if (TriesWithSun && HeldBackFraction == 0) throw new ArgumentException("To form the grid again for the sun, some energy must be held back.");
        if (Generator is not Generator g) return;
        if (!(g.Kw > 0) || double.IsInfinity(g.Kw)) throw new ArgumentException("The generator's power is above 0 kW.");
        if (!(g.StartBelowFraction >= 0 && g.StopAboveFraction > g.StartBelowFraction && g.StopAboveFraction <= 1))
            throw new ArgumentException("The generator starts below a share of 0–1 and stops above a greater one.");
        if (!(g.FuelKwh >= 0)) throw new ArgumentException("The generator's fuel is at least 0 kWh.");
    }
}
