using NodaTime;

namespace EnergySim.Solar;

/// <summary>Rise, noon and set of one day. Rise and set are those of the disc's upper edge with refraction of 34′ (elevation −0.8333° of its centre) over a flat horizon.</summary>
/// <param name="Rise">When the sun rises before <paramref name="Noon"/>; null = it does not.</param>
/// <param name="Noon">When it stands highest.</param>
/// <param name="Set">When it sets after <paramref name="Noon"/>; null = it does not.</param>
/// <param name="IsAlwaysUp">True when it neither rises nor sets because it stays up.</param>
public readonly record struct SunDay(Instant? Rise, Instant Noon, Instant? Set, bool IsAlwaysUp)
{
    private const double HorizonDegrees = -(SunPosition.RadiusDegrees + SunPosition.HorizonRefractionDegrees);

    /// <summary>The day whose solar noon is nearest to clock noon.</summary>
    /// <param name="date">The date on the place's clock.</param>
    /// <param name="offset">That clock's offset from UTC.</param>
    /// <param name="place">The place.</param>
    public static SunDay Of(LocalDate date, Offset offset, in Place place)
    {
        Instant noon = date.At(new LocalTime(12, 0)).WithOffset(offset).ToInstant();
        double longitude = place.LongitudeDegrees, latitude = place.LatitudeDegrees;
        noon = Seek(noon, longitude, _ => 0)!.Value;
        double? ToHorizon(GeocentricSun sun)
        {
            (double sinLatitude, double cosLatitude) = Math.SinCos(latitude * GeocentricSun.Radian);
            (double sinDeclination, double cosDeclination) = Math.SinCos(sun.DeclinationDegrees * GeocentricSun.Radian);
            double cos = (Math.Sin(HorizonDegrees * GeocentricSun.Radian) - (sinLatitude * sinDeclination)) / (cosLatitude * cosDeclination);
            return cos is < -1 or > 1 ? null : Math.Acos(cos) / GeocentricSun.Radian;
        }
        Instant? rise = Seek(noon, longitude, sun => -ToHorizon(sun)), set = Seek(noon, longitude, ToHorizon);
        double highest = SunPosition.At(noon, place).GeometricElevationDegrees;
        return new SunDay(rise, noon, set, rise is null && set is null && highest > HorizonDegrees);
    }

    // The instant near another at which the sun's hour angle is the one aimed at, which depends on the sun's declination there.
    private static Instant? Seek(Instant from, double longitude, Func<GeocentricSun, double?> aim)
    {
        Instant at = from;
        double moved = 0;
        for (int i = 0; i < 6; i++)
        {
            GeocentricSun sun = GeocentricSun.At(at);
            if (aim(sun) is not double target) return null;
            double hour = Math.IEEERemainder(sun.SiderealDegrees + longitude - sun.RightAscensionDegrees, 360);
            double turn = target - hour;
            // The first step may be more than half a turn; later ones are small.
            if (i > 0) turn = Math.IEEERemainder(turn, 360);
            moved += turn / 360;
            at = from + Duration.FromDays(moved);
        }
        return at;
    }
}
