using NodaTime;

namespace EnergySim.Time;

/// <summary>
/// A span of equal intervals on the real clock of one place. Each interval is named by its start, an instant in UTC; the local
/// wall clock (which skips or repeats an hour when daylight saving changes) is worked out once, here, and read by everything else.
/// </summary>
public sealed class TimeAxis
{
    /// <summary>The interval lengths a run may have, in minutes.</summary>
    public static ReadOnlySpan<int> AllowedStepMinutes => [1, 5, 15, 30, 60];

    private const int MinutesPerDay = 1440;
    private readonly int[] _localMinutes;

    /// <param name="zone">The site's IANA zone.</param>
    /// <param name="start">Start of the first interval.</param>
    /// <param name="stepMinutes">Length of an interval: 1, 5, 15, 30 or 60 minutes.</param>
    /// <param name="count">Number of intervals, at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The step is not one of the allowed, or there is no interval.</exception>
    public TimeAxis(DateTimeZone zone, Instant start, int stepMinutes, int count)
    {
        ArgumentNullException.ThrowIfNull(zone);
        if (!AllowedStepMinutes.Contains(stepMinutes))
            throw new ArgumentOutOfRangeException(nameof(stepMinutes), stepMinutes, "An interval is 1, 5, 15, 30 or 60 minutes long.");
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        Zone = zone;
        Start = start;
        StepMinutes = stepMinutes;
        Count = count;
        _localMinutes = WallClock(zone, start, stepMinutes, count);
    }

    /// <summary>The site's zone.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>Start of the first interval.</summary>
    public Instant Start { get; }

    /// <summary>End of the last interval.</summary>
    public Instant End => StartOf(Count);

    /// <summary>Length of an interval in minutes.</summary>
    public int StepMinutes { get; }

    /// <summary>Length of an interval in hours.</summary>
    public double StepHours => StepMinutes / 60.0;

    /// <summary>Number of intervals.</summary>
    public int Count { get; }

    /// <summary>The intervals from the first local midnight of one date up to that of another, <paramref name="end"/> excluded.</summary>
    /// <param name="zone">The site's zone.</param>
    /// <param name="start">First local date.</param>
    /// <param name="end">The date after the last.</param>
    /// <param name="stepMinutes">Length of an interval in minutes.</param>
    public static TimeAxis OfDates(DateTimeZone zone, LocalDate start, LocalDate end, int stepMinutes)
    {
        ArgumentNullException.ThrowIfNull(zone);
        Instant first = zone.AtStartOfDay(start).ToInstant();
        Instant last = zone.AtStartOfDay(end).ToInstant();
        return new TimeAxis(zone, first, stepMinutes, (int)((last - first).TotalMinutes / stepMinutes));
    }

    /// <summary>One calendar year on the local clock: 8,760 or 8,784 hours.</summary>
    public static TimeAxis OfYear(DateTimeZone zone, int year, int stepMinutes) =>
        OfDates(zone, new LocalDate(year, 1, 1), new LocalDate(year + 1, 1, 1), stepMinutes);

    /// <summary>Start of interval <paramref name="index"/>; <see cref="Count"/> gives the end of the span.</summary>
    public Instant StartOf(int index) => Start + Duration.FromMinutes((long)StepMinutes * index);

    /// <summary>Local date of an interval's start, as days since 1970-01-01.</summary>
    public int LocalDayOf(int index) => Math.DivRem(_localMinutes[index], MinutesPerDay, out int minute) - (minute < 0 ? 1 : 0);

    /// <summary>Local minute of the day of an interval's start, 0 to 1439.</summary>
    public int LocalMinuteOf(int index) => ((_localMinutes[index] % MinutesPerDay) + MinutesPerDay) % MinutesPerDay;

    /// <summary>Local date of an interval's start.</summary>
    public LocalDate LocalDateOf(int index) => DateOfDay(LocalDayOf(index));

    /// <summary>Interval's start with the offset that was in force.</summary>
    public OffsetDateTime OffsetStartOf(int index) => StartOf(index).InZone(Zone).ToOffsetDateTime();

    /// <summary>The date that lies so many days after 1970-01-01.</summary>
    public static LocalDate DateOfDay(int day) => new LocalDate(1970, 1, 1).PlusDays(day);

    /// <summary>Days from 1970-01-01 to a date.</summary>
    public static int DayOfDate(LocalDate date) => Period.DaysBetween(new LocalDate(1970, 1, 1), date);

    /// <summary>The same span in intervals of another length.</summary>
    /// <exception cref="ArgumentException">The span is not a whole number of such intervals.</exception>
    public TimeAxis WithStep(int stepMinutes)
    {
        int minutes = StepMinutes * Count;
        if (stepMinutes <= 0 || minutes % stepMinutes != 0)
            throw new ArgumentException($"{minutes} minutes are not a whole number of {stepMinutes}-minute intervals.", nameof(stepMinutes));
        return stepMinutes == StepMinutes ? this : new TimeAxis(Zone, Start, stepMinutes, minutes / stepMinutes);
    }

    /// <summary>True when both have the same intervals and the same zone.</summary>
    public bool IsSameAs(TimeAxis other) =>
        other is not null && (ReferenceEquals(this, other) ||
            (Start == other.Start && StepMinutes == other.StepMinutes && Count == other.Count && Zone.Id == other.Zone.Id));

    // Minutes of local time since 1970-01-01T00:00, one a start. Walks the zone's few offset changes instead of asking per interval.
    private static int[] WallClock(DateTimeZone zone, Instant start, int stepMinutes, int count)
    {
        var local = new int[count];
        long startSeconds = start.ToUnixTimeSeconds();
        int index = 0;
        while (index < count)
        {
            Instant at = start + Duration.FromMinutes((long)stepMinutes * index);
            NodaTime.TimeZones.ZoneInterval era = zone.GetZoneInterval(at);
            long until = count;
            if (era.HasEnd)
            {
                long seconds = era.End.ToUnixTimeSeconds() - startSeconds;
                until = Math.Min(count, (seconds + (stepMinutes * 60L) - 1) / (stepMinutes * 60L));
            }
            for (; index < until; index++)
                local[index] = (int)Math.Floor((startSeconds + (stepMinutes * 60L * index) + era.WallOffset.Seconds) / 60.0);
        }
        return local;
    }
}
