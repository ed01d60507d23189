using NodaTime;

namespace EnergySim.Solar;

/// <summary>The air that bends the light.</summary>
/// <param name="PressureMbar">Pressure, mbar (hPa).</param>
/// <param name="Celsius">Temperature, °C.</param>
public readonly record struct Air(double PressureMbar, double Celsius)
{
    /// <summary>Annual mean where none is known: the standard atmosphere's pressure at the elevation (ICAO, 1993), 10 °C.</summary>
    public static Air StandardAt(double elevationM) => new(1013.25 * Math.Pow(1 - (2.25577e-5 * elevationM), 5.25588), 10);
}

/// <summary>
/// Where the sun's centre stands in the sky of a place. Source: Reda and Andreas, NREL/TP-560-34302 (rev. 2008), §3.11–3.15.
/// </summary>
/// <param name="AzimuthDegrees">From north clockwise, 0–360: 90 east, 180 south, 270 west.</param>
/// <param name="GeometricElevationDegrees">Above the horizon without refraction.</param>
/// <param name="RefractionDegrees">What the air adds to it; 0 where the whole disc is below the horizon.</param>
public readonly record struct SunPosition(double AzimuthDegrees, double GeometricElevationDegrees, double RefractionDegrees)
{
    /// <summary>Sun's radius as seen from the earth, degrees; with <see cref="HorizonRefractionDegrees"/> it makes the 0.833° of rise and set.</summary>
    internal const double RadiusDegrees = 0.26667;

    /// <summary>Refraction at the horizon, degrees (the report's usual value).</summary>
    internal const double HorizonRefractionDegrees = 0.5667;

    private const double Radian = GeocentricSun.Radian;
    private const double Flattening = 0.99664719;
    private const double EarthRadiusM = 6378140;

    /// <summary>Elevation with refraction, as seen.</summary>
    public double ElevationDegrees => GeometricElevationDegrees + RefractionDegrees;

    /// <summary>From the zenith, with refraction, as seen.</summary>
    public double ZenithDegrees => 90 - ElevationDegrees;

    /// <summary>The sun at an instant.</summary>
    /// <param name="instant">The instant.</param>
    /// <param name="place">The place.</param>
    /// <param name="air">The air; null = <see cref="Air.StandardAt"/> its elevation.</param>
    /// <param name="deltaTSeconds">Terrestrial less universal time, s; null = <see cref="DeltaT.SecondsAt"/>.</param>
    public static SunPosition At(Instant instant, in Place place, Air? air = null, double? deltaTSeconds = null) =>
        At(GeocentricSun.At(instant, deltaTSeconds), place, air ?? Air.StandardAt(place.ElevationM));

    /// <summary>The sun of the earth's centre as a place sees it.</summary>
    public static SunPosition At(in GeocentricSun sun, in Place place, in Air air)
    {
        (double sinLatitude, double cosLatitude) = Math.SinCos(place.LatitudeDegrees * Radian);
        double hour = (sun.SiderealDegrees + place.LongitudeDegrees - sun.RightAscensionDegrees) * Radian;
        (double sinHour, double cosHour) = Math.SinCos(hour);
        (double sinDeclination, double cosDeclination) = Math.SinCos(sun.DeclinationDegrees * Radian);
        double sinParallax = Math.Sin(8.794 / 3600 / sun.DistanceAu * Radian);
        double reduced = Math.Atan(Flattening * sinLatitude / cosLatitude);
        double x = Math.Cos(reduced) + (place.ElevationM / EarthRadiusM * cosLatitude);
        double y = (Flattening * Math.Sin(reduced)) + (place.ElevationM / EarthRadiusM * sinLatitude);
        double toAxis = cosDeclination - (x * sinParallax * cosHour);
        double shift = Math.Atan2(-x * sinParallax * sinHour, toAxis);
        double declination = Math.Atan2((sinDeclination - (y * sinParallax)) * Math.Cos(shift), toAxis);
        (double sinTopocentric, double cosTopocentric) = Math.SinCos(declination);
        (double sinLocal, double cosLocal) = Math.SinCos(hour - shift);
        double elevation = Math.Asin((sinLatitude * sinTopocentric) + (cosLatitude * cosTopocentric * cosLocal)) / Radian;
        double fromSouth = Math.Atan2(sinLocal, (cosLocal * sinLatitude) - (sinTopocentric / cosTopocentric * cosLatitude)) / Radian;
        return new SunPosition(GeocentricSun.Turn(fromSouth + 180), elevation, Refraction(elevation, air));
    }

    /// <summary>What the air adds to an elevation, degrees; 0 where the whole disc is below the horizon.</summary>
    internal static double Refraction(double elevationDegrees, in Air air) =>
        elevationDegrees < -(RadiusDegrees + HorizonRefractionDegrees)
            ? 0
            : air.PressureMbar / 1010 * (283 / (273 + air.Celsius)) * 1.02 / (60 * Math.Tan((elevationDegrees + (10.3 / (elevationDegrees + 5.11))) * Radian));

    /// <summary>Angle between the sun and the normal of a plane, degrees, 0–180.</summary>
    /// <param name="tiltDegrees">Of the plane, 0 flat, 90 upright.</param>
    /// <param name="azimuthDegrees">That the plane faces, from north clockwise.</param>
    public double IncidenceDegrees(double tiltDegrees, double azimuthDegrees)
    {
        (double sinTilt, double cosTilt) = Math.SinCos(tiltDegrees * Radian);
        (double sinElevation, double cosElevation) = Math.SinCos(ElevationDegrees * Radian);
        double cos = (sinElevation * cosTilt) + (cosElevation * sinTilt * Math.Cos((AzimuthDegrees - azimuthDegrees) * Radian));
        return Math.Acos(Math.Clamp(cos, -1, 1)) / Radian;
    }
}
