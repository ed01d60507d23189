using EnergySim.Solar;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Where a roof stands, held against the home's zone, its weather and its planes: swapped or mirrored coordinates are usual slips.</summary>
internal static class RoofPlace
{
    // Clocks differ from the sun by up to three hours and a bit (the west of China, summer time aside).
    private const double MostHoursFromZone = 3.5;
    private const double TellKm = 50, MostKm = 500;

    /// <summary>The place that a home states; null = none, or one that does not fit.</summary>
    public static Place? Read(YamlMap map, DateTimeZone zone)
    {
        if (map.Has("latitude") != map.Has("longitude")) map.ReportHere("latitude and longitude come together");
        double? latitude = map.Number("latitude", new Bounds(-180, 180)), longitude = map.Number("longitude", new Bounds(-180, 180));
        double elevation = map.Number("elevationM", new Bounds(-450, 9000)) ?? 0;
        if (latitude is not double north || longitude is not double east) return null;
        Offset standard = zone.GetZoneInterval(Instant.FromUtc(2025, 1, 1, 0, 0)).StandardOffset;
        bool Fits(double degrees) => Math.Abs(Math.IEEERemainder((degrees / 15) - (standard.Seconds / 3600.0), 24)) <= MostHoursFromZone;
        bool fits = Fits(east), isSwapped = Math.Abs(east) <= 90 && Fits(north);
        if (Math.Abs(north) > 90) map.Report("latitude", $"is beyond 90 degrees{(isSwapped ? "; latitude and longitude seem swapped" : "")}");
        else if (!fits && Fits(-east)) map.Report("longitude", FormattableString.Invariant($"does not fit {zone.Id}; east is positive, west negative: {-east:0.####} would"));
        else if (!fits && isSwapped) map.Report("longitude", $"does not fit {zone.Id}; latitude and longitude seem swapped");
        else if (!fits) map.Report("longitude", $"does not fit {zone.Id}: the sun's noon would be hours from the clock's");
        else return new Place(north, east, elevation);
        return null;
    }

    /// <summary>Compares the roof's place with the weather's.</summary>
    public static void CheckWeather(YamlMap map, Place place, WeatherSeries weather, List<string> told)
    {
        double km = Km(place, weather.Place);
        string where = FormattableString.Invariant($"{weather.Source} is the weather of {weather.Place.LatitudeDegrees:0.##}, {weather.Place.LongitudeDegrees:0.##}, {km:0} km away");
        if (km > MostKm) map.ReportWhole("weather", $"{where}; is a sign or the file wrong");
        else if (km > TellKm) told.Add($"{where} from the roof.");
    }

    /// <summary>A warning when every tilted plane faces away from the noon sun, as planes do that count from south; null = none.</summary>
    public static string? NoteOnAzimuths(Roof roof)
    {
        const double Level = 8, Behind = 60;
        double away = roof.Place.LatitudeDegrees >= 0 ? 0 : 180;
        RoofPlane[] tilted = [.. roof.Planes.Where(p => p.TiltDegrees > Level)];
        if (tilted.Length == 0 || Math.Abs(roof.Place.LatitudeDegrees) < 20) return null;
        return tilted.All(p => Math.Abs(Math.IEEERemainder(p.AzimuthDegrees - away, 360)) < Behind)
            ? $"Every tilted plane faces {(away == 0 ? "north" : "south")}, away from the sun at noon. An azimuth runs from north clockwise (east 90, south 180, west 270): check it was not counted from south."
            : null;
    }

    // Distance on a sphere of 6,371 km.
    private static double Km(Place a, Place b)
    {
        const double Radian = Math.PI / 180;
        double half = Math.Pow(Math.Sin((a.LatitudeDegrees - b.LatitudeDegrees) * Radian / 2), 2)
            + (Math.Cos(a.LatitudeDegrees * Radian) * Math.Cos(b.LatitudeDegrees * Radian) * Math.Pow(Math.Sin((a.LongitudeDegrees - b.LongitudeDegrees) * Radian / 2), 2));
        return 2 * 6371 * Math.Asin(Math.Min(1, Math.Sqrt(half)));
    }
}
