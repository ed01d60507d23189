namespace EnergySim.Solar;

/// <summary>How much air the sun's light passes, as a multiple of the air straight up.</summary>
public static class AirMass
{
    /// <summary>Relative air mass by Kasten and Young, Revised optical air mass tables and approximation formula, Applied Optics 28 (1989).</summary>
    /// <param name="zenithDegrees">Zenith as seen, 0–90; beyond 90 the value at the horizon is given.</param>
    public static double Relative(double zenithDegrees)
    {
        double zenith = Math.Min(zenithDegrees, 90);
        return 1 / (Math.Cos(zenith * GeocentricSun.Radian) + (0.50572 * Math.Pow(96.07995 - zenith, -1.6364)));
    }
}
