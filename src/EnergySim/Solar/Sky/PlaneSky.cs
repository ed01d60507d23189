namespace EnergySim.Solar;

/// <summary>Which reading of the sky turns irradiance on the flat into irradiance on a plane.</summary>
public enum SkyModel
{
    /// <summary>
    /// Brighter around the sun and at the horizon: Perez, Ineichen, Seals, Michalsky and Stewart, Solar Energy 44 (1990). The usual choice.
    /// </summary>
    Perez,

    /// <summary>
    /// Equally bright all over: Liu and Jordan, The long-term average performance of flat-plate solar-energy collectors, Solar Energy 7 (1963). Too low for planes that face the sun.
    /// </summary>
    Isotropic,
}

/// <summary>What falls on a plane in an interval, W/m², by where it comes from.</summary>
/// <param name="BeamWPerM2">From the sun's disc.</param>
/// <param name="CircumsolarWPerM2">From the sky around the sun.</param>
/// <param name="SkyWPerM2">From the rest of the sky; may be negative by a little where the sky model darkens the horizon.</param>
/// <param name="GroundWPerM2">From the ground.</param>
public readonly record struct PlaneSky(double BeamWPerM2, double CircumsolarWPerM2, double SkyWPerM2, double GroundWPerM2)
{
    /// <summary>All together.</summary>
    public double TotalWPerM2 => Math.Max(0, BeamWPerM2 + CircumsolarWPerM2 + SkyWPerM2 + GroundWPerM2);

    /// <summary>The parts on a plane, of the same mean directions as the flat's.</summary>
    /// <param name="flat">On the flat.</param>
    /// <param name="sky">The sky's brightness; default = equal all over (<see cref="SkyModel.Isotropic"/>).</param>
    /// <param name="cosIncidence">Cosine of the angle of sun and plane's normal; negative = the sun is behind the plane.</param>
    /// <param name="cosZenith">Cosine of the zenith.</param>
    /// <param name="cosTilt">Cosine of the plane's tilt.</param>
    /// <param name="sinTilt">Sine of the plane's tilt.</param>
    public static PlaneSky Of(in FlatSky flat, in PerezSky sky, double cosIncidence, double cosZenith, double cosTilt, double sinTilt)
    {
        double facing = Math.Max(0, cosIncidence);
        double ratio = facing / Math.Max(PerezSky.LeastCosZenith, cosZenith);
        double f1 = sky.CircumsolarFraction;
        return new PlaneSky(
            flat.DirectNormalWPerM2 * facing,
            flat.DiffuseWPerM2 * f1 * ratio,
            flat.DiffuseWPerM2 * (((1 - f1) * (1 + cosTilt) / 2) + (sky.HorizonFraction * sinTilt)),
            flat.GlobalWPerM2 * flat.AlbedoFraction * (1 - cosTilt) / 2);
    }
}

/// <summary>What falls on the flat in an interval, W/m².</summary>
/// <param name="GlobalWPerM2">All together.</param>
/// <param name="DirectNormalWPerM2">From the disc on a plane that faces it.</param>
/// <param name="DiffuseWPerM2">From the sky.</param>
/// <param name="AlbedoFraction">Share that the ground throws back, 0–1.</param>
public readonly record struct FlatSky(double GlobalWPerM2, double DirectNormalWPerM2, double DiffuseWPerM2, double AlbedoFraction);
