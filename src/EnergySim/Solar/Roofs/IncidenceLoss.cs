namespace EnergySim.Solar;

/// <summary>
/// What the cover glass lets through at an angle, as a share of what it lets through straight on. Source: De Soto, Klein and Beckman, Improvement and validation of a model for photovoltaic array
/// performance, Solar Energy 80 (2006): refraction 1.526, absorption 4 per metre, 2 mm of glass.
/// </summary>
public static class IncidenceLoss
{
    private const double Refraction = 1.526;
    private const double AbsorptionThickness = 4 * 0.002;

    private static readonly double s_straight = Math.Exp(-AbsorptionThickness) * (1 - Math.Pow((Refraction - 1) / (Refraction + 1), 2));

    /// <summary>Share let through of light from one direction, 0–1.</summary>
    /// <param name="cosIncidence">Cosine of the angle to the plane's normal; 0 at and below 0.</param>
    public static double Of(double cosIncidence)
    {
        if (cosIncidence <= 0) return 0;
        if (cosIncidence > 0.99999) return 1;
        double sin = Math.Sqrt(1 - (cosIncidence * cosIncidence)) / Refraction;
        double cosInside = Math.Sqrt(1 - (sin * sin));
        // Fresnel's two polarisations, written in cosines.
        double across = (cosIncidence - (Refraction * cosInside)) / (cosIncidence + (Refraction * cosInside));
        double along = ((Refraction * cosIncidence) - cosInside) / ((Refraction * cosIncidence) + cosInside);
        double through = 1 - (0.5 * ((across * across) + (along * along)));
        return Math.Exp(-AbsorptionThickness / cosInside) * through / s_straight;
    }

    /// <summary>
    /// Share let through of light from all over the sky, by tilt. Source: Brandemuehl and Beckman, Transmission of diffuse radiation through CPC and flat plate collector glazings, Solar Energy 24 (1980), the
    /// equivalent angle as in Duffie and Beckman, Solar Engineering of Thermal Processes (2013), eq. 5.4.2.
    /// </summary>
    public static double OfSky(double tiltDegrees) => OfAngle(59.7 + (tiltDegrees * (-0.1388 + (0.001497 * tiltDegrees))));

    /// <summary>Share let through of light from the ground, by tilt; same source, eq. 5.4.1.</summary>
    public static double OfGround(double tiltDegrees) => OfAngle(90 + (tiltDegrees * (-0.5788 + (0.002693 * tiltDegrees))));

    private static double OfAngle(double degrees) => Of(Math.Cos(degrees * GeocentricSun.Radian));
}
