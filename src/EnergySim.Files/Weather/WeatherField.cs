namespace EnergySim.Files;

/// <summary>What a column of weather holds.</summary>
internal enum WeatherField
{
    Global,
    DirectNormal,
    Diffuse,
    Air,
    Wind,
    Albedo,
    Snow,
}

/// <summary>A column of a weather file: where it stands, what it is called, and which of its numbers mean "missing".</summary>
internal sealed record WeatherCell(WeatherField Field, int At, string Name)
{
    // Records of air temperature on the ground are −89.2 and 56.7 °C; direct sun outside the air is at most 1,408 W/m² (1,361 W/m² at 0.983 AU).
    private static readonly Bounds s_irradiance = new(NightOffsetWPerM2, 2000, "W/m², mean of the interval");
    private static readonly Bounds s_direct = new(NightOffsetWPerM2, 1420, "W/m², the most that the sun gives outside the air");
    private static readonly Bounds s_air = new(-90, 60, "°C; a file in °F must say so");
    private static readonly Bounds s_wind = new(0, 120, "m/s");
    private static readonly Bounds s_albedo = new(0, 1, "a share");
    private static readonly Bounds s_snow = new(0, 3000, "cm");

    /// <summary>Instruments read a little below zero at night; what lies below this is wrong.</summary>
    public const double NightOffsetWPerM2 = -20;

    /// <summary>Numbers from here up mean "missing".</summary>
    public double MissingFrom { get; init; } = double.PositiveInfinity;

    /// <summary>Numbers that mean "missing".</summary>
    public IReadOnlyList<double> MissingCodes { get; init; } = [];

    /// <summary>True when the numbers are °F.</summary>
    public bool IsFahrenheit { get; init; }

    public bool IsIrradiance => Field <= WeatherField.Diffuse;

    public bool IsMissing(double number)
    {
        if (number >= MissingFrom) return true;
        for (int i = 0; i < MissingCodes.Count; i++)
            if (number == MissingCodes[i]) return true;
        return false;
    }

    /// <summary>What is wrong with a number in the series' own unit; null = nothing.</summary>
    public string? FaultOf(double number) => Field switch
    {
        WeatherField.Global or WeatherField.Diffuse => s_irradiance,
        WeatherField.DirectNormal => s_direct,
        WeatherField.Air => s_air,
        WeatherField.Wind => s_wind,
        WeatherField.Albedo => s_albedo,
        _ => s_snow,
    } is var bounds ? bounds.FaultOf(number) : null;
}
