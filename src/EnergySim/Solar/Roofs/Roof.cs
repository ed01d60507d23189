namespace EnergySim.Solar;

/// <summary>All the modules of a home, and what lies between the weather and the inverter's inputs.</summary>
public sealed record Roof
{
    /// <summary>What grass and fields throw back of the light (common practice); taken where neither home nor weather says.</summary>
    public const double UsualAlbedoFraction = 0.2;

    /// <summary>Median loss of power a year. Source: Jordan and Kurtz, Photovoltaic degradation rates – an analytical review, NREL/JA-5200-51664 (2012).</summary>
    public const double UsualDegradationPerYear = 0.005;

    /// <summary>Where it is.</summary>
    public required Place Place { get; init; }

    /// <summary>Its planes, at least one.</summary>
    public required IReadOnlyList<RoofPlane> Planes { get; init; }

    /// <summary>How the sky is read.</summary>
    public SkyModel SkyModel { get; init; } = SkyModel.Perez;

    /// <summary>Albedo of the ground, 0–1; null = the weather's, or <see cref="UsualAlbedoFraction"/>.</summary>
    public double? AlbedoFraction { get; init; }

    /// <summary>Losses, each of what the one before left.</summary>
    public IReadOnlyList<NamedLoss> Losses { get; init; } = NamedLoss.Usual;

    /// <summary>
    /// Days in each month, January first, on which snow covers the modules and they give nothing; empty = none. They are laid on the month's coldest days, when snow stays.
    /// </summary>
    public IReadOnlyList<int> SnowDays { get; init; } = [];

    /// <summary>Share of the power lost each year, compounded, 0 to below 1.</summary>
    public double DegradationPerYear { get; init; } = UsualDegradationPerYear;

    /// <summary>Age in years, ≥ 0: 0 = the first year, without degradation.</summary>
    public double AgeYears { get; init; }

    /// <summary>Rated power of all planes, kW DC.</summary>
    public double RatedKw => Planes.Sum(p => p.RatedKw);

    /// <summary>What losses and age leave of the power, 0–1.</summary>
    public double KeptFraction => Losses.Aggregate(1.0, (kept, loss) => kept * (1 - loss.Fraction)) * Math.Pow(1 - DegradationPerYear, AgeYears);

    /// <summary>Checks every number against its range.</summary>
    /// <exception cref="ArgumentException">Names what is out of range.</exception>
    public void Validate()
    {
        if (Place is not { LatitudeDegrees: >= -90 and <= 90, LongitudeDegrees: >= -180 and <= 180 })
            throw new ArgumentException("A latitude lies from −90 to 90, a longitude from −180 to 180 degrees.");
        if (Planes.Count == 0) throw new ArgumentException("A roof has at least one plane.");
        foreach (RoofPlane plane in Planes)
        {
            if (plane is not { TiltDegrees: >= 0 and <= 90, AzimuthDegrees: >= 0 and < 360, RatedKw: > 0, Strings: >= 1, Mounting.HeatLossWPerM2K: > 0 })
                throw new ArgumentException($"Plane {plane.Name}: its tilt lies from 0 to 90, its azimuth from 0 to below 360 degrees, its rated power is above 0.");
            if (plane.MonthlyShadeFractions.Count is not (0 or 12) || plane.MonthlyShadeFractions.Any(s => s is not (>= 0 and <= 1)))
                throw new ArgumentException($"Plane {plane.Name}: monthly shade is twelve shares from 0 to 1.");
        }
        if (Losses.Any(l => l.Fraction is not (>= 0 and <= 1))) throw new ArgumentException("A loss is a share from 0 to 1.");
        if (SnowDays.Count is not (0 or 12) || SnowDays.Any(d => d is < 0 or > 31)) throw new ArgumentException("Snow days are twelve numbers from 0 to 31.");
        if (DegradationPerYear is not (>= 0 and < 1) || AgeYears is not >= 0) throw new ArgumentException("Degradation is a share below 1, age at least 0.");
    }
}
