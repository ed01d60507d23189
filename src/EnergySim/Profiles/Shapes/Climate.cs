namespace EnergySim.Profiles.Shapes;

/// <summary>A climate as it matters for a house's year: how warm months and hours are. Figures are ours, round, of no real place.</summary>
public sealed record Climate
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Mean temperature of the year, °C.</summary>
    public required double MeanCelsius { get; init; }

    /// <summary>Half of the difference between the warmest and the coldest month, °C.</summary>
    public required double YearSwingCelsius { get; init; }

    /// <summary>Half of the difference between afternoon and dawn, °C.</summary>
    public required double DaySwingCelsius { get; init; }

    /// <summary>How far days stray from their month's mean, standard deviation, °C.</summary>
    public required double WeatherCelsius { get; init; }

    /// <summary>The climates there are.</summary>
    public static IReadOnlyList<Climate> All { get; } =
    [
        new() { Name = "cold", MeanCelsius = 6, YearSwingCelsius = 15, DaySwingCelsius = 5, WeatherCelsius = 4 },
        new() { Name = "mixed", MeanCelsius = 12, YearSwingCelsius = 12, DaySwingCelsius = 5.5, WeatherCelsius = 3.5 },
        new() { Name = "mild", MeanCelsius = 13, YearSwingCelsius = 5, DaySwingCelsius = 5, WeatherCelsius = 2.5 },
        new() { Name = "hot-dry", MeanCelsius = 22, YearSwingCelsius = 10, DaySwingCelsius = 7.5, WeatherCelsius = 2.5 },
        new() { Name = "hot-humid", MeanCelsius = 21, YearSwingCelsius = 8, DaySwingCelsius = 5, WeatherCelsius = 2.5 },
    ];

    /// <summary>
    /// Outdoor temperature, °C: a cosine over the year, coldest in mid-January; a cosine over the day, warmest at 15:00; and weather that lasts for days.
    /// </summary>
    /// <param name="day">Days since 1970-01-01.</param>
    /// <param name="minuteOfDay">Local minute.</param>
    /// <param name="noise">The seed of the weather.</param>
    public double CelsiusAt(int day, int minuteOfDay, ShapeNoise noise)
    {
        double year = Math.Cos(2 * Math.PI * (day - 15) / 365.25), hour = Math.Cos(2 * Math.PI * (minuteOfDay - 900) / 1440.0);
        // Weather of three and of seven days, eased from one to the next.
        double weather = (noise.Eased(day / 3.0, 1) * 0.8) + (noise.Eased(day / 7.0, 2) * 0.6);
        return MeanCelsius - (YearSwingCelsius * year) + (DaySwingCelsius * hour) + (WeatherCelsius * weather);
    }
}
