using NodaTime;

namespace EnergySim.Solar;

/// <summary>
/// Where the sun stands as seen from the centre of the earth. Source: Reda and Andreas, NREL/TP-560-34302 (rev. 2008), §3.1–3.11 and A.1;
/// its stated uncertainty is 0.0003° for the years −2000 to 6000.
/// </summary>
/// <param name="RightAscensionDegrees">Apparent right ascension, 0–360.</param>
/// <param name="DeclinationDegrees">Apparent declination, north positive.</param>
/// <param name="DistanceAu">Distance of earth and sun, astronomical units.</param>
/// <param name="SiderealDegrees">Apparent sidereal time at Greenwich, 0–360.</param>
/// <param name="EquationOfTimeMinutes">Apparent less mean solar time, minutes.</param>
public readonly record struct GeocentricSun(
    double RightAscensionDegrees, double DeclinationDegrees, double DistanceAu, double SiderealDegrees, double EquationOfTimeMinutes)
{
    internal const double Radian = Math.PI / 180;
    private const double ArcsecondDegrees = 1 / 3600.0;

    /// <summary>Rows of the algorithm that its report prints between input and result; tests hold them to those figures.</summary>
    internal readonly record struct Parts(double LongitudeDegrees, double LatitudeDegrees, double NutationLongitudeDegrees, double NutationObliquityDegrees, double ObliquityDegrees);

    /// <summary>The sun at an instant.</summary>
    /// <param name="instant">The instant, UTC (taken for UT1; they differ by less than 0.9 s).</param>
    /// <param name="deltaTSeconds">Terrestrial less universal time, s; null = <see cref="DeltaT.SecondsAt"/>.</param>
    public static GeocentricSun At(Instant instant, double? deltaTSeconds = null) => At(instant, deltaTSeconds, out _);

    internal static GeocentricSun At(Instant instant, double? deltaTSeconds, out Parts parts)
    {
        double julianDay = JulianDay(instant);
        double century = (julianDay - 2451545) / 36525;
        double t = century + ((deltaTSeconds ?? DeltaT.SecondsAt(instant)) / 86400 / 36525);
        double millennium = t / 10;
        double distance = 1e-8 * Polynomial(millennium, Sum(SunTerms.R0, millennium), Sum(SunTerms.R1, millennium), Sum(SunTerms.R2, millennium), Sum(SunTerms.R3, millennium), Sum(SunTerms.R4, millennium), 0);
        double longitude = Turn(1e-8 / Radian * Polynomial(
            millennium, Sum(SunTerms.L0, millennium), Sum(SunTerms.L1, millennium), Sum(SunTerms.L2, millennium), Sum(SunTerms.L3, millennium), Sum(SunTerms.L4, millennium), Sum(SunTerms.L5, millennium)));
        double latitude = 1e-8 / Radian * Polynomial(millennium, Sum(SunTerms.B0, millennium), Sum(SunTerms.B1, millennium), 0, 0, 0, 0);
        (double nutationLongitude, double nutationObliquity) = Nutate(t);
        double obliquity = (MeanObliquityArcseconds(millennium / 10) * ArcsecondDegrees) + nutationObliquity;
        double aberration = -20.4898 * ArcsecondDegrees / distance;
        double apparent = (Turn(longitude + 180) + nutationLongitude + aberration) * Radian;
        (double sinApparent, double cosApparent) = Math.SinCos(apparent);
        (double sinObliquity, double cosObliquity) = Math.SinCos(obliquity * Radian);
        double beta = -latitude * Radian;
        double rightAscension = Turn(Math.Atan2((sinApparent * cosObliquity) - (Math.Tan(beta) * sinObliquity), cosApparent) / Radian);
        double declination = Math.Asin((Math.Sin(beta) * cosObliquity) + (Math.Cos(beta) * sinObliquity * sinApparent)) / Radian;
        double sidereal = Turn(280.46061837 + (360.98564736629 * (julianDay - 2451545)) + (century * century * (0.000387933 - (century / 38710000))) + (nutationLongitude * cosObliquity));
        double mean = 280.4664567 + (millennium * (360007.6982779 + (millennium * (0.03032028 + (millennium * ((1 / 49931.0) - (millennium * ((1 / 15300.0) + (millennium / 2000000)))))))));
        double equation = Turn(mean - 0.0057183 - rightAscension + (nutationLongitude * cosObliquity));
        parts = new Parts(longitude, latitude, nutationLongitude, nutationObliquity, obliquity);
        return new GeocentricSun(rightAscension, declination, distance, sidereal, 4 * (equation > 180 ? equation - 360 : equation));
    }

    /// <summary>Days since noon UT of 1 January −4712.</summary>
    internal static double JulianDay(Instant instant) => 2440587.5 + ((instant - NodaConstants.UnixEpoch).TotalDays);

    /// <summary>An angle brought to 0–360.</summary>
    internal static double Turn(double degrees) => degrees - (360 * Math.Floor(degrees / 360));

    private static double Polynomial(double t, double a, double b, double c, double d, double e, double f) =>
        a + (t * (b + (t * (c + (t * (d + (t * (e + (t * f)))))))));

    private static double Sum(ReadOnlySpan<double> terms, double millennium)
    {
        double sum = 0;
        for (int i = 0; i < terms.Length; i += 3) sum += terms[i] * Math.Cos(terms[i + 1] + (terms[i + 2] * millennium));
        return sum;
    }

    private static (double Longitude, double Obliquity) Nutate(double t)
    {
        double elongation = 297.85036 + (t * (445267.11148 + (t * (-0.0019142 + (t / 189474)))));
        double sunAnomaly = 357.52772 + (t * (35999.05034 + (t * (-0.0001603 - (t / 300000)))));
        double moonAnomaly = 134.96298 + (t * (477198.867398 + (t * (0.0086972 + (t / 56250)))));
        double moonLatitude = 93.27191 + (t * (483202.017538 + (t * (-0.0036825 + (t / 327270)))));
        double node = 125.04452 + (t * (-1934.136261 + (t * (0.0020708 + (t / 450000)))));
        double longitude = 0, obliquity = 0;
        ReadOnlySpan<double> terms = SunTerms.Nutation;
        for (int i = 0; i < terms.Length; i += 9)
        {
            ReadOnlySpan<double> row = terms.Slice(i, 9);
            double angle = Radian * ((row[0] * elongation) + (row[1] * sunAnomaly) + (row[2] * moonAnomaly) + (row[3] * moonLatitude) + (row[4] * node));
            (double sin, double cos) = Math.SinCos(angle);
            longitude += (row[5] + (row[6] * t)) * sin;
            obliquity += (row[7] + (row[8] * t)) * cos;
        }
        return (longitude * 1e-4 * ArcsecondDegrees, obliquity * 1e-4 * ArcsecondDegrees);
    }

    // u in units of 10,000 Julian years.
    private static double MeanObliquityArcseconds(double u) =>
        84381.448 + (u * (-4680.93 + (u * (-1.55 + (u * (1999.25 + (u * (-51.38 + (u * (-249.67 + (u * (-39.05 + (u * (7.12 + (u * (27.87 + (u * (5.79 + (u * 2.45)))))))))))))))))));
}
