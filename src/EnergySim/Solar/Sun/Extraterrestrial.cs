using NodaTime;

namespace EnergySim.Solar;

/// <summary>The sun's irradiance above the air.</summary>
public static class Extraterrestrial
{
    /// <summary>
    /// At the mean distance, W/m². The World Radiation Center's value, on which the diffuse, sky and clear-sky correlations used here were fitted
    /// (Duffie and Beckman, Solar Engineering of Thermal Processes, 2013, §1.2); satellites since have measured 1361.
    /// </summary>
    public const double SolarConstantWPerM2 = 1367;

    /// <summary>On a plane that faces the sun, W/m², at a distance in astronomical units.</summary>
    public static double NormalWPerM2(double distanceAu) => SolarConstantWPerM2 / (distanceAu * distanceAu);

    /// <summary>On a plane that faces the sun, W/m², at an instant.</summary>
    public static double NormalWPerM2(Instant instant) => NormalWPerM2(GeocentricSun.At(instant).DistanceAu);
}
