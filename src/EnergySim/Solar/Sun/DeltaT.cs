using NodaTime;

namespace EnergySim.Solar;

/// <summary>Terrestrial time less universal time: how far the turning earth lags behind even clocks.</summary>
public static class DeltaT
{
    /// <summary>
    /// Seconds at an instant, by the polynomials of Espenak and Meeus, Five Millennium Canon of Solar Eclipses, NASA/TP-2006-214141 (2006), for 1961 to 2050, and
    /// their parabola outside. Five seconds of error move the sun by 0.0001°.
    /// </summary>
    public static double SecondsAt(Instant instant)
    {
        ZonedDateTime utc = instant.InUtc();
        double year = utc.Year + ((utc.Month - 0.5) / 12);
        double t;
        switch (year)
        {
            case >= 1961 and < 1986:
                t = year - 1975;
                return 45.45 + (t * (1.067 - (t * ((1 / 260.0) + (t / 718)))));
            case >= 1986 and < 2005:
                t = year - 2000;
                return 63.86 + (t * (0.3345 + (t * (-0.060374 + (t * (0.0017275 + (t * (0.000651814 + (t * 0.00002373599)))))))));
            case >= 2005 and < 2050:
                t = year - 2000;
                return 62.92 + (t * (0.32217 + (t * 0.005589)));
            default:
                t = (year - 1820) / 100;
                return -20 + (32 * t * t);
        }
    }
}
