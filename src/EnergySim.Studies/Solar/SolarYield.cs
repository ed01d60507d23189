using EnergySim.Solar;
using NodaTime;

namespace EnergySim.Studies.Solar;

/// <summary>What a home's roof gives: by plane and month, what is lost on the way to the house, and the darkest days behind it.</summary>
public sealed record SolarYield
{
    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>First local date.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last local date.</summary>
    public required LocalDate To { get; init; }

    /// <summary>True when the figures are DC at the inverter's inputs; false when they are AC behind it.</summary>
    public required bool IsDc { get; init; }

    /// <summary>The planes; one without a rating where the home gives a profile.</summary>
    public required IReadOnlyList<PlaneYield> Planes { get; init; }

    /// <summary>All planes, kWh by month, January first.</summary>
    public required IReadOnlyList<double> KwhByMonth { get; init; }

    /// <summary>Rated power of all planes, kW DC; null = not known.</summary>
    public required double? RatedKw { get; init; }

    /// <summary>Mean power by month (January first) and local hour of the day (0–23), kW; null = the data have no such month.</summary>
    public required IReadOnlyList<IReadOnlyList<double>?> KwByMonthAndHour { get; init; }

    /// <summary>What happens to it as the home is, and with each offer.</summary>
    public required IReadOnlyList<SolarUse> Uses { get; init; }

    /// <summary>The dark spells of the weather; null = the home gives a profile, not weather.</summary>
    public required DarkSpells? DarkSpells { get; init; }

    /// <summary>How dark made-up years of the same weather come to be; null = the home gives a profile, not weather.</summary>
    public SpellOdds? SpellOdds { get; init; }

    /// <summary>Sentences that belong under the figures.</summary>
    public required IReadOnlyList<string> Notes { get; init; }

    /// <summary>All planes, kWh.</summary>
    public double Kwh => KwhByMonth.Sum();
}

/// <summary>What one plane gives.</summary>
public sealed record PlaneYield
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>The plane; null = a profile of unknown planes.</summary>
    public required RoofPlane? Plane { get; init; }

    /// <summary>kWh by month, January first.</summary>
    public required IReadOnlyList<double> KwhByMonth { get; init; }

    /// <summary>What falls on it, kWh/m² by month; empty = not known.</summary>
    public required IReadOnlyList<double> IncidentKwhPerM2ByMonth { get; init; }

    /// <summary>kWh.</summary>
    public double Kwh => KwhByMonth.Sum();

    /// <summary>kWh a kW of its modules; null = not known.</summary>
    public double? KwhPerKw => Plane is RoofPlane plane ? Kwh / plane.RatedKw : null;
}

/// <summary>Solar lost in one column of the comparison.</summary>
/// <param name="Name">The column: as it is, or the offer.</param>
/// <param name="ClippedKwh">Above the rating of an inverter on the wall or of solar inputs, kWh in the measure of the yield.</param>
/// <param name="CurtailedDcKwh">Not let in because nothing takes it, kWh DC.</param>
/// <param name="CurtailedAcKwh">The same behind an inverter on the wall, kWh AC.</param>
public sealed record SolarUse(string Name, double ClippedKwh, double CurtailedDcKwh, double CurtailedAcKwh);
