using EnergySim.Solar;
using NodaTime;

namespace EnergySim.Files;

/// <summary>What a reader of weather may do, and what a plain file's columns are. Nothing of it is guessed.</summary>
public sealed record WeatherOptions
{
    /// <summary>How a plain CSV is to be read; not used with files that describe themselves. Null = such files only.</summary>
    public WeatherColumns? Columns { get; init; }

    /// <summary>True lets 28 February stand for a 29 February that the file leaves out (years of 8,760 rows that were leap years). It is told.</summary>
    public bool RepeatsForLeapDay { get; init; }

    /// <summary>Longest run of missing values that is filled on a straight line between its neighbours, h; 0 = none. Each is told.</summary>
    public double FillsGapHours { get; init; }
}

/// <summary>Where in its interval a weather stamp stands.</summary>
public enum WeatherMark
{
    /// <summary>At the start.</summary>
    Start,

    /// <summary>In the middle.</summary>
    Middle,

    /// <summary>At the end.</summary>
    End,
}

/// <summary>A column of a plain weather file.</summary>
/// <param name="Header">Its header; blanks around it do not count.</param>
public sealed record WeatherColumn(string Header)
{
    /// <summary>Numbers that mean "missing" in this column and nowhere else, such as −9999.9. An empty field is missing in any column.</summary>
    public IReadOnlyList<double> MissingCodes { get; init; } = [];
}

/// <summary>The columns of a plain weather file: one header row, then a row an interval.</summary>
public sealed record WeatherColumns
{
    /// <summary>The place that the data are for.</summary>
    public required Place Place { get; init; }

    /// <summary>The file's standard time, all year: stamps without an offset of their own are read on it.</summary>
    public required Offset StandardOffset { get; init; }

    /// <summary>Headers of the columns that make the stamp, in order, joined by a blank. Empty = the first column.</summary>
    public IReadOnlyList<string> StampColumns { get; init; } = [];

    /// <summary>How stamps are written (<see cref="ProfileColumn.Pattern"/>); null = ISO 8601.</summary>
    public string? Pattern { get; init; }

    /// <summary>Where in its interval a stamp stands.</summary>
    public required WeatherMark Mark { get; init; }

    /// <summary>Global horizontal irradiance, W/m².</summary>
    public required WeatherColumn Global { get; init; }

    /// <summary>Direct normal irradiance, W/m²; null = not in the file, and estimated.</summary>
    public WeatherColumn? DirectNormal { get; init; }

    /// <summary>Diffuse horizontal irradiance, W/m²; null = not in the file, and estimated.</summary>
    public WeatherColumn? Diffuse { get; init; }

    /// <summary>Dry-bulb air temperature.</summary>
    public required WeatherColumn Air { get; init; }

    /// <summary>True when air temperature is in °F; it is turned into °C.</summary>
    public bool IsAirFahrenheit { get; init; }

    /// <summary>Wind speed, m/s; null = not in the file.</summary>
    public WeatherColumn? Wind { get; init; }

    /// <summary>Albedo of the ground, 0–1; null = not in the file.</summary>
    public WeatherColumn? Albedo { get; init; }

    /// <summary>Snow depth, cm; null = not in the file.</summary>
    public WeatherColumn? Snow { get; init; }
}
