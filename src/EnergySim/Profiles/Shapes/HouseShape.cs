namespace EnergySim.Profiles.Shapes;

/// <summary>When people are at home.</summary>
public enum Presence
{
    /// <summary>Out on working days, home in the evening.</summary>
    OutByDay,

    /// <summary>At home all day.</summary>
    HomeByDay,

    /// <summary>Out on working days, up until late.</summary>
    LateEvenings,
}

/// <summary>What a house does with electricity, as far as it shapes its year. The amount comes from the bills.</summary>
public sealed record HouseShape
{
    /// <summary>When people are at home.</summary>
    public Presence Presence { get; init; }

    /// <summary>Whether what cold months take more than mild ones is heating (a heat pump or heaters).</summary>
    public bool HeatsWithElectricity { get; init; } = true;

    /// <summary>Whether what hot months take more is cooling.</summary>
    public bool Cools { get; init; } = true;

    /// <summary>Whether water is heated with electricity.</summary>
    public bool HeatsWater { get; init; }

    /// <summary>Whether a pool pump runs in the warm half of the year.</summary>
    public bool HasPool { get; init; }

    /// <summary>The climate.</summary>
    public required Climate Climate { get; init; }

    /// <summary>The seed of weather and habits.</summary>
    public ulong Seed { get; init; } = 1;
}
