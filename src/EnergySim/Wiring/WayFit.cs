namespace EnergySim.Wiring;

/// <summary>A way to connect asked of a panel: whether it may be, by which rules, and what it comes to.</summary>
public sealed record WayFit
{
    /// <summary>The way.</summary>
    public required WayToConnect Way { get; init; }

    /// <summary>Whether it may be: within, beyond, not in this edition, or a fact is missing.</summary>
    public required Standing Standing { get; init; }

    /// <summary>Why, in one clause.</summary>
    public required string Why { get; init; }

    /// <summary>The rules asked.</summary>
    public required IReadOnlyList<Verdict> Verdicts { get; init; }

    /// <summary>The battery's breaker, A; 0 = none fits.</summary>
    public required double BreakerAmps { get; init; }

    /// <summary>Most continuous output, A: what the inverters give, or the breaker's continuous share where that is less.</summary>
    public required double OutputAmps { get; init; }

    /// <summary>The main breaker, A.</summary>
    public required double MainAmps { get; init; }

    /// <summary>The power control system's setting, A; null = none.</summary>
    public double? SettingAmps { get; init; }

    /// <summary>Share of the house's load behind what is guarded: 1 for the main panel.</summary>
    public double GuardedLoadFraction { get; init; } = 1;

    /// <summary>True when the inverters must be set to give less than they could.</summary>
    public bool IsSetDown { get; init; }

    /// <summary>True when this way may be.</summary>
    public bool MayBe => Standing == Standing.Within;
}
