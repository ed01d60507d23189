using System.Globalization;
using NodaTime;
using NodaTime.TimeZones;

namespace EnergySim.Files;

/// <summary>Turns minutes of UTC into minutes of a zone's wall clock and back, both counted from 1970-01-01 00:00; quick for times in order.</summary>
internal sealed class WallClock(DateTimeZone zone)
{
    private static readonly LocalDateTime s_epoch = new(1970, 1, 1, 0, 0);
    private long _from = 1;
    private long _until;
    private int _offsetMinutes;

    public DateTimeZone Zone => zone;

    public long LocalOf(long utcMinute)
    {
        if (utcMinute < _from || utcMinute >= _until)
        {
            ZoneInterval era = zone.GetZoneInterval(InstantOf(utcMinute));
            _from = era.HasStart ? era.Start.ToUnixTimeSeconds() / 60 : long.MinValue;
            _until = era.HasEnd ? era.End.ToUnixTimeSeconds() / 60 : long.MaxValue;
            _offsetMinutes = era.WallOffset.Seconds / 60;
        }
        return utcMinute + _offsetMinutes;
    }

    /// <summary>The minutes of UTC at which the wall clock shows this: none where it is skipped, two where it is repeated.</summary>
    public IReadOnlyList<long> UtcOf(long localMinute)
    {
        ZoneLocalMapping mapping = zone.MapLocal(s_epoch.PlusMinutes(localMinute));
        return mapping.Count switch
        {
            0 => [],
            1 => [MinuteOf(mapping.Single())],
            _ => [MinuteOf(mapping.First()), MinuteOf(mapping.Last())],
        };
    }

    /// <summary>The zone's standard offset at a time, minutes.</summary>
    public int StandardOffsetMinutes(long utcMinute) => zone.GetZoneInterval(InstantOf(utcMinute)).StandardOffset.Seconds / 60;

    public static Instant InstantOf(long utcMinute) => Instant.FromUnixTimeSeconds(utcMinute * 60);

    /// <summary>A minute as people write it.</summary>
    public static string Text(long minute) => s_epoch.PlusMinutes(minute).ToString("uuuu-MM-dd HH:mm", CultureInfo.InvariantCulture);

    private static long MinuteOf(ZonedDateTime at) => at.ToInstant().ToUnixTimeSeconds() / 60;
}
