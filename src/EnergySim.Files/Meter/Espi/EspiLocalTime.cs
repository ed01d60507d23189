using NodaTime;
using NodaTime.TimeZones;

namespace EnergySim.Files;

/// <summary>A file's local-time parameters (NAESB REQ.21): standard offset, daylight saving and when it begins and ends.</summary>
internal sealed record EspiLocalTime(int TzOffsetSeconds, int DstOffsetSeconds, uint StartRule, uint EndRule)
{
    private static readonly string[] s_known =
    [
        "America/New_York", "America/Chicago", "America/Denver", "America/Los_Angeles", "America/Anchorage", "America/Halifax", "America/St_Johns",
        "Europe/London", "Europe/Berlin", "Europe/Athens", "Australia/Adelaide", "Australia/Sydney", "Pacific/Auckland",
    ];

    /// <summary>True when the clock never changes.</summary>
    public bool IsFixed => DstOffsetSeconds == 0 || StartRule == uint.MaxValue || EndRule == uint.MaxValue;

    /// <summary>A zone whose clock does the same in a year; null = none of those that are tried.</summary>
    public DateTimeZone? ZoneIn(int year)
    {
        if (IsFixed) return DateTimeZone.ForOffset(Offset.FromSeconds(TzOffsetSeconds));
        foreach (string id in s_known)
        {
            DateTimeZone zone = DateTimeZoneProviders.Tzdb[id];
            if (Fits(zone, TimeOf(StartRule, year), Begins: true) && Fits(zone, TimeOf(EndRule, year), Begins: false)) return zone;
        }
        return null;
    }

    /// <summary>
    /// The local time that a rule names in a year. Bits 0–11 seconds, 12–16 hour, 17–19 day of the week (1 Monday), 20–24 day of the month, 25–27 operator
    /// (0 that day, 1 the weekday on or after it, 2–6 the first to fifth, 7 the last), 28–31 month (NAESB REQ.21, schema, DstRuleType).
    /// </summary>
    public static LocalDateTime? TimeOf(uint rule, int year)
    {
        int month = (int)(rule >> 28), how = (int)(rule >> 25) & 7, day = (int)(rule >> 20) & 31, weekday = (int)(rule >> 17) & 7;
        int hour = (int)(rule >> 12) & 31, seconds = (int)(rule & 0xFFF);
        if (month is < 1 or > 12 || hour > 23 || seconds > 3599 || (how != 0 && weekday == 0)) return null;
        int length = CalendarSystem.Iso.GetDaysInMonth(year, month);
        if (how is 0 or 1 && (day < 1 || day > length)) return null;
        LocalDate date = how switch
        {
            0 => new LocalDate(year, month, day),
            1 => DateAdjusters.NextOrSame((IsoDayOfWeek)weekday)(new LocalDate(year, month, day)),
            7 => DateAdjusters.PreviousOrSame((IsoDayOfWeek)weekday)(new LocalDate(year, month, length)),
            _ => DateAdjusters.NextOrSame((IsoDayOfWeek)weekday)(new LocalDate(year, month, 1)).PlusWeeks(how - 2),
        };
        return date.AtMidnight().PlusHours(hour).PlusSeconds(seconds);
    }

    // The rule names the time on the clock that is about to change.
    private bool Fits(DateTimeZone zone, LocalDateTime? change, bool Begins)
    {
        if (change is not LocalDateTime at) return false;
        Offset before = Offset.FromSeconds(TzOffsetSeconds + (Begins ? 0 : DstOffsetSeconds));
        Instant instant = at.WithOffset(before).ToInstant();
        ZoneInterval after = zone.GetZoneInterval(instant);
        return after.HasStart && after.Start == instant
            && after.WallOffset.Seconds == TzOffsetSeconds + (Begins ? DstOffsetSeconds : 0)
            && zone.GetUtcOffset(instant - Duration.Epsilon) == before;
    }
}
