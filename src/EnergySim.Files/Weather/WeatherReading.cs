using EnergySim.Solar;

namespace EnergySim.Files;

/// <summary>Weather as it was read, and what was done to it on the way.</summary>
public sealed record WeatherReading
{
    /// <summary>Path of the file.</summary>
    public required string File { get; init; }

    /// <summary>The weather.</summary>
    public required WeatherSeries Weather { get; init; }

    /// <summary>Number of rows of data.</summary>
    public required int Rows { get; init; }

    /// <summary>What was dropped, filled or turned into another unit, a sentence each.</summary>
    public required IReadOnlyList<string> Repairs { get; init; }

    /// <summary>What the reader should know of the data: typical year, columns not used, a clock that seems off. A sentence each.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}
