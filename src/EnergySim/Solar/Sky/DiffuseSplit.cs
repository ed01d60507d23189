namespace EnergySim.Solar;

/// <summary>Splits global irradiance on the flat into what comes from the sun's disc and what comes from the sky, where a file holds the global alone.</summary>
public static class DiffuseSplit
{
    // Below this the sun stands less than two degrees high on average: what there is comes from the sky.
    private const double LowestCosZenith = 0.035;

    /// <summary>
    /// Share of global irradiance that is diffuse, by clearness. Source: Erbs, Klein and Duffie, Estimation of the diffuse radiation fraction for hourly, daily and monthly-average global radiation, Solar Energy 28 (1982);
    /// made for hours. Small jumps at 0.22 and 0.80 are the correlation's own.
    /// </summary>
    /// <param name="clearness">Global over extraterrestrial irradiance on the flat, ≥ 0.</param>
    public static double DiffuseFraction(double clearness) => clearness switch
    {
        <= 0.22 => 1 - (0.09 * clearness),
        <= 0.80 => 0.9511 + (clearness * (-0.1604 + (clearness * (4.388 + (clearness * (-16.638 + (clearness * 12.336))))))),
        _ => 0.165,
    };

    /// <summary>Direct normal and diffuse irradiance of each interval, W/m². Their sum on the flat is the global; the disc gives no more than above the air.</summary>
    /// <param name="track">The sun over the same intervals.</param>
    /// <param name="globalWPerM2">Global irradiance of each interval.</param>
    /// <param name="directNormalWPerM2">Takes the direct normal irradiance.</param>
    /// <param name="diffuseWPerM2">Takes the diffuse irradiance.</param>
    /// <exception cref="ArgumentException">The columns have not one length.</exception>
    public static void Split(SunTrack track, ReadOnlySpan<double> globalWPerM2, Span<double> directNormalWPerM2, Span<double> diffuseWPerM2)
    {
        ArgumentNullException.ThrowIfNull(track);
        if (globalWPerM2.Length != track.Count || directNormalWPerM2.Length != track.Count || diffuseWPerM2.Length != track.Count)
            throw new ArgumentException("The sun and the irradiance have not the same number of intervals.", nameof(globalWPerM2));
        for (int i = 0; i < globalWPerM2.Length; i++)
        {
            double global = globalWPerM2[i], up = track.Up[i], share = track.UpFraction[i];
            directNormalWPerM2[i] = 0;
            diffuseWPerM2[i] = global;
            if (up < LowestCosZenith) continue;
            // Both are means over the interval; what the disc gives while it is up is more by 1 / share.
            double fraction = DiffuseFraction(global / track.ExtraterrestrialHorizontalWPerM2(i));
            double direct = Math.Min(global * (1 - fraction) / up, track.ExtraterrestrialNormalWPerM2[i] * share);
            directNormalWPerM2[i] = direct;
            diffuseWPerM2[i] = global - (direct * up);
        }
    }

    /// <summary>Diffuse irradiance of each interval where the direct is known: the global less the direct on the flat, not below 0, W/m².</summary>
    /// <param name="track">The sun over the same intervals.</param>
    /// <param name="globalWPerM2">Global irradiance of each interval.</param>
    /// <param name="directNormalWPerM2">Direct normal irradiance of each.</param>
    /// <param name="diffuseWPerM2">Takes the diffuse irradiance.</param>
    public static void DiffuseFromDirect(SunTrack track, ReadOnlySpan<double> globalWPerM2, ReadOnlySpan<double> directNormalWPerM2, Span<double> diffuseWPerM2)
    {
        ArgumentNullException.ThrowIfNull(track);
        for (int i = 0; i < globalWPerM2.Length; i++)
            diffuseWPerM2[i] = Math.Max(0, globalWPerM2[i] - (directNormalWPerM2[i] * track.Up[i] * track.UpFraction[i]));
    }

    /// <summary>Direct normal irradiance of each interval where the diffuse is known: what is left of the global, raised from the flat; none while the sun stands too low to divide by, W/m².</summary>
    /// <param name="track">The sun over the same intervals.</param>
    /// <param name="globalWPerM2">Global irradiance of each interval.</param>
    /// <param name="diffuseWPerM2">Diffuse irradiance of each.</param>
    /// <param name="directNormalWPerM2">Takes the direct normal irradiance.</param>
    public static void DirectFromDiffuse(SunTrack track, ReadOnlySpan<double> globalWPerM2, ReadOnlySpan<double> diffuseWPerM2, Span<double> directNormalWPerM2)
    {
        ArgumentNullException.ThrowIfNull(track);
        for (int i = 0; i < globalWPerM2.Length; i++)
        {
            double height = track.Up[i] * track.UpFraction[i];
            directNormalWPerM2[i] = height < LowestCosZenith ? 0 : Math.Clamp((globalWPerM2[i] - diffuseWPerM2[i]) / height, 0, track.ExtraterrestrialNormalWPerM2[i]);
        }
    }
}
