namespace EnergySim.Solar;

/// <summary>Irradiance under a sky without clouds, W/m².</summary>
/// <param name="GlobalWPerM2">On the flat.</param>
/// <param name="DirectNormalWPerM2">From the sun's disc on a plane that faces it.</param>
public readonly record struct ClearSky(double GlobalWPerM2, double DirectNormalWPerM2)
{
    /// <summary>A usual turbidity at mid-latitudes: clean rural air in winter is near 2, a city's summer near 5 (common practice).</summary>
    public const double UsualTurbidity = 3;

    /// <summary>On the flat from the sky without the sun's disc, W/m², ≥ 0.</summary>
    /// <param name="cosZenith">Cosine of the zenith.</param>
    public double DiffuseWPerM2(double cosZenith) => Math.Max(0, GlobalWPerM2 - (DirectNormalWPerM2 * cosZenith));

    /// <summary>
    /// The model of Ineichen and Perez, A new airmass independent formulation for the Linke turbidity coefficient, Solar Energy 73 (2002), with the factor for long ways through the air.
    /// </summary>
    /// <param name="zenithDegrees">Zenith as seen.</param>
    /// <param name="elevationM">Metres above the sea.</param>
    /// <param name="turbidity">Linke turbidity at air mass 2, about 2 to 6.</param>
    /// <param name="extraterrestrialNormalWPerM2">Above the air on a plane that faces the sun.</param>
    public static ClearSky Of(double zenithDegrees, double elevationM, double turbidity, double extraterrestrialNormalWPerM2)
    {
        double cosZenith = Math.Cos(zenithDegrees * GeocentricSun.Radian);
        if (cosZenith <= 0) return default;
        double mass = AirMass.Relative(zenithDegrees);
        double low = Math.Exp(-elevationM / 8000), near = Math.Exp(-elevationM / 1250);
        double a = (5.09e-5 * elevationM) + 0.868, b = (3.92e-5 * elevationM) + 0.0387;
        double global = a * extraterrestrialNormalWPerM2 * cosZenith * Math.Exp(-b * mass * (low + (near * (turbidity - 1)))) * Math.Exp(0.01 * Math.Pow(mass, 1.8));
        double direct = (0.664 + (0.163 / low)) * extraterrestrialNormalWPerM2 * Math.Exp(-0.09 * mass * (turbidity - 1));
        return new ClearSky(global, Math.Min(direct, global / cosZenith));
    }
}
