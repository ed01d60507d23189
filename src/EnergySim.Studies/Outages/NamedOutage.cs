using EnergySim.Engine;
using NodaTime;

namespace EnergySim.Studies.Outages;

/// <summary>One outage in detail.</summary>
public sealed record NamedOutage
{
    /// <summary>Its intervals.</summary>
    public required Ledger Ledger { get; init; }

    /// <summary>Local start.</summary>
    public required LocalDateTime At { get; init; }

    /// <summary>Year of weather; empty = the home's own.</summary>
    public required string Weather { get; init; }

    /// <summary>Length, h.</summary>
    public required double Hours { get; init; }

    /// <summary>Energy in the cells at the start, kWh.</summary>
    public required double StartKwh { get; init; }

    /// <summary>Lowest energy that the cells may hold, kWh.</summary>
    public required double LowestKwh { get; init; }

    /// <summary>Highest energy, kWh.</summary>
    public required double HighestKwh { get; init; }

    /// <summary>What happens in it, in order.</summary>
    public required IReadOnlyList<SpellEvent> Events { get; init; }

    /// <summary>At the start of each interval: hours served with the sun expected; null = to the end of the walk and beyond.</summary>
    public required IReadOnlyList<double?> HoursLeftWithSun { get; init; }

    /// <summary>At the start of each interval: hours served if the sun gave nothing more; null = beyond the horizon.</summary>
    public required IReadOnlyList<double?> HoursLeftWithoutSun { get; init; }

    /// <summary>Hours from the start to the first interval with unserved load; null = none.</summary>
    public required double? FirstUnservedHours { get; init; }

    /// <summary>Hours from the start to the first dark interval; null = none.</summary>
    public required double? FirstDarkHours { get; init; }

    /// <summary>Hours from the start to the first wholly served interval after that; null = it does not recover, or was never dark.</summary>
    public required double? RecoversHours { get; init; }

    /// <summary>Solar not used, kWh as DC and AC together.</summary>
    public required double CurtailedKwh { get; init; }
}
