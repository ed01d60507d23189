using NodaTime;

namespace EnergySim.Solar;

/// <summary>
/// Weather of one place at equal steps: each value is the mean over its interval. Files of every stamp convention become this; whole years
/// need not start in January. All columns have the same length.
/// </summary>
public sealed record WeatherSeries
{
    /// <summary>Where the data come from, in words for the reader: file, station, year.</summary>
    public required string Source { get; init; }

    /// <summary>The place the data are for.</summary>
    public required Place Place { get; init; }

    /// <summary>Start of the first interval.</summary>
    public required Instant Start { get; init; }

    /// <summary>Length of an interval.</summary>
    public required Duration Step { get; init; }

    /// <summary>The file's clock: standard time, all year.</summary>
    public required Offset StandardOffset { get; init; }

    /// <summary>True for a typical year stitched together from months of several years: its cloudy spells are understated.</summary>
    public required bool IsTypicalYear { get; init; }

    /// <summary>True when direct and diffuse irradiance are not the file's own but estimated from the global.</summary>
    public bool IsSplitEstimated { get; init; }

    /// <summary>Global horizontal irradiance, W/m², ≥ 0.</summary>
    public required double[] GlobalWPerM2 { get; init; }

    /// <summary>Direct normal irradiance, W/m², ≥ 0.</summary>
    public required double[] DirectNormalWPerM2 { get; init; }

    /// <summary>Diffuse horizontal irradiance, W/m², ≥ 0.</summary>
    public required double[] DiffuseWPerM2 { get; init; }

    /// <summary>Dry-bulb air temperature, °C.</summary>
    public required double[] AirCelsius { get; init; }

    /// <summary>Wind speed at the file's height (10 m usual), m/s; null when the file has none.</summary>
    public double[]? WindMPerS { get; init; }

    /// <summary>Albedo of the ground, 0–1; null when the file has none.</summary>
    public double[]? AlbedoFraction { get; init; }

    /// <summary>Snow depth, cm; null when the file has none.</summary>
    public double[]? SnowCm { get; init; }

    /// <summary>Number of intervals.</summary>
    public int Count => GlobalWPerM2.Length;

    /// <summary>End of the last interval.</summary>
    public Instant End => Start + (Step * Count);
}
