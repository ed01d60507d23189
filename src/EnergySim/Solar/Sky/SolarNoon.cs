using NodaTime;

namespace EnergySim.Solar;

/// <summary>Asks whether a weather file's clock is right: its radiation must gather around solar noon.</summary>
public static class SolarNoon
{
    /// <summary>Cloudier afternoons or mornings move the centre of a real place's year by less than this, hours (common practice; 0.3 seen).</summary>
    public const double SuspectHours = 0.6;

    /// <summary>
    /// By how many hours the centre of the radiation comes after the sun's own noon, −12 to 12; null where there is none. The mean of the hour angles on their circle, weighted with global
    /// irradiance, so that also a shift of half a day is seen.
    /// </summary>
    public static double? HoursLate(WeatherSeries weather)
    {
        ArgumentNullException.ThrowIfNull(weather);
        double cos = 0, sin = 0;
        GeocentricSun sun = default;
        int perDay = Math.Max(1, (int)Math.Round(Duration.FromDays(1) / weather.Step));
        Instant noon = default;
        for (int i = 0; i < weather.Count; i++)
        {
            Instant at = weather.Start + (weather.Step * i) + (weather.Step / 2);
            if (i % perDay == 0)
            {
                sun = GeocentricSun.At(at);
                noon = at;
            }
            double hour = (sun.SiderealDegrees + weather.Place.LongitudeDegrees - sun.RightAscensionDegrees) + ((at - noon).TotalDays * 360);
            (double s, double c) = Math.SinCos(hour * GeocentricSun.Radian);
            cos += weather.GlobalWPerM2[i] * c;
            sin += weather.GlobalWPerM2[i] * s;
        }
        return Math.Abs(cos) + Math.Abs(sin) < 1e-9 ? null : Math.Atan2(sin, cos) / Math.PI * 12;
    }

    /// <summary>A warning where the clock seems wrong; null = it does not.</summary>
    public static string? Warning(WeatherSeries weather)
    {
        if (HoursLate(weather) is not double late || Math.Abs(late) < SuspectHours) return null;
        int whole = (int)Math.Round(Math.Abs(late), MidpointRounding.AwayFromZero);
        return string.Create(System.Globalization.CultureInfo.InvariantCulture,
            $"{weather.Source}: the clock seems off by {whole} {(whole == 1 ? "hour" : "hours")}: its radiation gathers {Math.Abs(late):0.0} h {(late > 0 ? "after" : "before")} solar noon at longitude {weather.Place.LongitudeDegrees:0.##}. Check the time zone, the stamps and the sign of the longitude (east is positive).");
    }
}
