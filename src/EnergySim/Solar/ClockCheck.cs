namespace EnergySim.Solar;

/// <summary>
/// Compares when the data's sun stands highest with the sun's own noon, to find a wrong clock, a wrong sign or swapped coordinates. Both are told
/// by the phase of their daily wave (first Fourier term), so that clouds of single days do not matter.
/// </summary>
/// <param name="HoursLate">Hours by which the data's noon comes after the sun's, −12 to 12.</param>
/// <param name="SeasonsAgree">False when the data are brightest in the place's winter; true also when less than a year tells nothing.</param>
public readonly record struct ClockCheck(double HoursLate, bool SeasonsAgree)
{
    /// <summary>Weather that is cloudier in the morning or the afternoon moves noon by up to half an hour; more than this is a wrong clock. Our choice.</summary>
    public const double ToleranceHours = 0.75;

    private const int LeastSeasonDays = 330;

    /// <summary>True when nothing seems wrong.</summary>
    public bool IsGood => Math.Abs(HoursLate) < ToleranceHours && SeasonsAgree;

    /// <summary>Checks weather at its own place.</summary>
    public static ClockCheck Of(WeatherSeries weather)
    {
        ArgumentNullException.ThrowIfNull(weather);
        return Of(weather, weather.Place);
    }

    /// <summary>What seems wrong and what would fit, in one sentence; null = nothing, or a file without any sun.</summary>
    public static string? WarningOf(WeatherSeries weather)
    {
        ClockCheck check = Of(weather);
        if (check.IsGood) return null;
        Place place = weather.Place;
        foreach ((Place other, string what) in Others(place))
        {
            if (!Of(weather, other).IsGood) continue;
            return FormattableString.Invariant($"The data's sun does not fit the place {place.LatitudeDegrees:0.##}, {place.LongitudeDegrees:0.##}, but would fit {other.LatitudeDegrees:0.##}, {other.LongitudeDegrees:0.##}: {what}.");
        }
        return Math.Abs(check.HoursLate) >= ToleranceHours
            ? FormattableString.Invariant($"The clock seems off by {Math.Round(Math.Abs(check.HoursLate)):0} h: the data's noon comes {Math.Abs(check.HoursLate):0.0} h {(check.HoursLate > 0 ? "after" : "before")} the sun's.")
            : "The data are brightest in the place's winter: they are not of this place.";
    }

    private static IEnumerable<(Place Other, string What)> Others(Place place)
    {
        // East or west is the most usual slip.
        yield return (place with { LongitudeDegrees = -place.LongitudeDegrees }, "the longitude's sign seems wrong (east is positive)");
        yield return (place with { LatitudeDegrees = -place.LatitudeDegrees }, "the latitude's sign seems wrong (north is positive)");
        if (Math.Abs(place.LongitudeDegrees) <= 90)
            yield return (place with { LatitudeDegrees = place.LongitudeDegrees, LongitudeDegrees = place.LatitudeDegrees }, "latitude and longitude seem swapped");
    }

    private static ClockCheck Of(WeatherSeries weather, in Place place)
    {
        var track = new SunTrack(place, weather.Start, weather.Step, weather.Count);
        double stepHours = weather.Step.TotalHours;
        double dataSin = 0, dataCos = 0, sunSin = 0, sunCos = 0;
        for (int i = 0; i < weather.Count; i++)
        {
            (double sin, double cos) = Math.SinCos((i + 0.5) * stepHours * Math.PI / 12);
            double sun = track.ExtraterrestrialHorizontalWPerM2(i), data = weather.GlobalWPerM2[i];
            dataSin += data * sin;
            dataCos += data * cos;
            sunSin += sun * sin;
            sunCos += sun * cos;
        }
        if (dataSin == 0 && dataCos == 0) return new ClockCheck(0, true);
        double late = (Math.Atan2(dataSin, dataCos) - Math.Atan2(sunSin, sunCos)) * 12 / Math.PI;
        return new ClockCheck(Math.IEEERemainder(late, 24), DoSeasonsAgree(weather, track));
    }

    // Sign of the covariance of daily sums with the sun's; places near the equator have no seasons to tell by.
    private static bool DoSeasonsAgree(WeatherSeries weather, SunTrack track)
    {
        int perDay = (int)Math.Round(1 / weather.Step.TotalDays), days = weather.Count / perDay;
        if (days < LeastSeasonDays) return true;
        double data = 0, sun = 0, both = 0, sunSquared = 0;
        for (int d = 0; d < days; d++)
        {
            double g = 0, e = 0;
            for (int i = d * perDay; i < (d + 1) * perDay; i++)
            {
                g += weather.GlobalWPerM2[i];
                e += track.ExtraterrestrialHorizontalWPerM2(i);
            }
            data += g;
            sun += e;
            both += g * e;
            sunSquared += e * e;
        }
        double variance = (sunSquared / days) - (sun / days * (sun / days));
        bool hasSeasons = Math.Sqrt(Math.Max(0, variance)) > 0.15 * sun / days;
        return !hasSeasons || (both / days) - (data / days * (sun / days)) > 0;
    }
}
