namespace EnergySim.Solar;

/// <summary>
/// How much brighter the sky is around the sun and near the horizon. Source: Perez, Ineichen, Seals, Michalsky and Stewart, Modeling daylight availability and irradiance components from
/// direct and global irradiance, Solar Energy 44 (1990), Table 6, its coefficients in full precision.
/// </summary>
/// <param name="CircumsolarFraction">F1: share of the diffuse irradiance that comes from around the sun, ≥ 0.</param>
/// <param name="HorizonFraction">F2: what the band at the horizon adds, as a share of the diffuse irradiance; negative where it is darker.</param>
public readonly record struct PerezSky(double CircumsolarFraction, double HorizonFraction)
{
    private const double Kappa = 1.041;

    // cos 85°: below it the ratio of plane to flat would run away.
    internal const double LeastCosZenith = 0.08715574274765817;

    /// <summary>Upper edges of the first seven bins of clearness; the last is open.</summary>
    internal static ReadOnlySpan<double> Edges => [1.065, 1.230, 1.500, 1.950, 2.800, 4.500, 6.200];

    /// <summary>F11, F12, F13, F21, F22, F23 of each bin.</summary>
    internal static ReadOnlySpan<double> Coefficients =>
    [
        -0.0083117, 0.5877285, -0.0620636, -0.0596012, 0.0721249, -0.0220216,
        0.1299457, 0.6825954, -0.1513752, -0.0189325, 0.0659650, -0.0288748,
        0.3296958, 0.4868735, -0.2210958, 0.0554140, -0.0639588, -0.0260542,
        0.5682053, 0.1874525, -0.2951290, 0.1088631, -0.1519229, -0.0139754,
        0.8730280, -0.3920403, -0.3616149, 0.2255647, -0.4620442, 0.0012448,
        1.1326077, -1.2367284, -0.4118494, 0.2877813, -0.8230357, 0.0558651,
        1.0601591, -1.5999137, -0.3589221, 0.2642124, -1.1272340, 0.1310694,
        0.6777470, -0.3272588, -0.2504286, 0.1561313, -1.3765031, 0.2506212,
    ];

    /// <summary>The sky of an interval.</summary>
    /// <param name="diffuseWPerM2">On the flat from the sky, above 0.</param>
    /// <param name="directNormalWPerM2">On a plane that faces the sun.</param>
    /// <param name="zenithDegrees">Zenith.</param>
    /// <param name="airMass">Relative air mass.</param>
    /// <param name="extraterrestrialNormalWPerM2">Above the air on a plane that faces the sun.</param>
    public static PerezSky Of(double diffuseWPerM2, double directNormalWPerM2, double zenithDegrees, double airMass, double extraterrestrialNormalWPerM2)
    {
        double zenith = zenithDegrees * GeocentricSun.Radian, cubed = Kappa * zenith * zenith * zenith;
        double clearness = (((diffuseWPerM2 + directNormalWPerM2) / diffuseWPerM2) + cubed) / (1 + cubed);
        double brightness = diffuseWPerM2 * airMass / extraterrestrialNormalWPerM2;
        int bin = 0;
        while (bin < Edges.Length && clearness >= Edges[bin]) bin++;
        ReadOnlySpan<double> f = Coefficients.Slice(bin * 6, 6);
        return new PerezSky(
            Math.Max(0, f[0] + (f[1] * brightness) + (f[2] * zenith)),
            f[3] + (f[4] * brightness) + (f[5] * zenith));
    }
}
