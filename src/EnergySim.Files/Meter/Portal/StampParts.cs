using NodaTime;

namespace EnergySim.Files;

/// <summary>The parts of a stamp as they stand. Dates whose day and month could change places are kept open.</summary>
internal struct StampParts
{
    public int Year, First, Second, MinuteOfDay;
    public int? OffsetMinutes;
    public bool HasDate, HasTime, HasYear, IsOrderOpen;

    /// <summary>True where the text goes on to a second time: the first is the start.</summary>
    public bool IsRange;

    /// <summary>Minutes since 1970-01-01 00:00 on its own clock; null where it is no day of the calendar.</summary>
    public readonly long? Minute(bool dayFirst, int? year)
    {
        int y = HasYear ? Year : year ?? 0;
        (int month, int day) = IsOrderOpen && dayFirst ? (Second, First) : (First, Second);
        if (y is < 1900 or > 2200 || month is < 1 or > 12 || day < 1 || day > CalendarSystem.Iso.GetDaysInMonth(y, month)) return null;
        return (DaysTo(y, month, day) * 1440L) + MinuteOfDay;
    }

    // Days from 1970-01-01 of the Gregorian calendar, by counting March as the first month.
    private static int DaysTo(int year, int month, int day)
    {
        if (month <= 2) year--;
        int era = year / 400, yearOfEra = year - (era * 400);
        int dayOfYear = (((153 * (month + (month > 2 ? -3 : 9))) + 2) / 5) + day - 1;
        return (era * 146097) + (yearOfEra * 365) + (yearOfEra / 4) - (yearOfEra / 100) + dayOfYear - 719468;
    }
}
