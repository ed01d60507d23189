using NodaTime;

namespace EnergySim.Studies.Outages;

/// <summary>What the battery holds when the grid fails.</summary>
public enum StartCharge
{
    /// <summary>What the everyday run holds at that instant.</summary>
    Everyday,

    /// <summary>Full: a storm was seen coming in time. The best case.</summary>
    Full,

    /// <summary>The strategy's reserve and no more.</summary>
    Reserve,
}

/// <summary>What is asked of an outage. Everything has a default.</summary>
public sealed record OutageTerms
{
    /// <summary>How far each start is walked, h. What lasts so long lasted "at least" so long.</summary>
    public int HorizonHours { get; init; } = 336;

    /// <summary>Share of the recorded sun that is left, ≥ 0; 0 = none, 1 = as recorded.</summary>
    public double CloudFactor { get; init; } = 1;

    /// <summary>Share of the house's load that is kept running, 0–1.</summary>
    public double KeptFraction { get; init; } = 1;

    /// <summary>What the battery holds at the start.</summary>
    public StartCharge StartCharge { get; init; } = StartCharge.Everyday;

    /// <summary>True when excess load is shed; false when overload trips the inverter.</summary>
    public bool ManagesLoad { get; init; } = true;

    /// <summary>Start of the outage that is told in detail; null = the worst start of the first offer.</summary>
    public LocalDateTime? NamedStart { get; init; }

    /// <summary>Its length, h.</summary>
    public int NamedHours { get; init; } = 72;

    /// <summary>Checks the ranges.</summary>
    /// <exception cref="ArgumentException">Names the first number out of range.</exception>
    public void Validate()
    {
        if (HorizonHours is < 1 or > 8760) throw new ArgumentException($"The horizon is {HorizonHours} h; it lies between 1 and 8760.");
        if (NamedHours is < 1 or > 8760) throw new ArgumentException($"The outage is {NamedHours} h long; it lies between 1 and 8760.");
        if (!(CloudFactor is >= 0 and <= 2)) throw new ArgumentException("The cloud factor lies between 0 (no sun) and 2.");
        if (!(KeptFraction is >= 0 and <= 1)) throw new ArgumentException("The share of the load kept running lies between 0 and 1.");
        if (!Enum.IsDefined(StartCharge)) throw new ArgumentException("The start charge is not one that is known.");
    }
}
