using System.Globalization;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Reads dates whose year, month, day, hour and minute stand in fields of their own.</summary>
internal static class DateParts
{
    private static readonly string[] s_names = ["year", "month", "day", "hour", "minute"];

    /// <summary>A part of a date, which some files write as a decimal number.</summary>
    public static bool Number(WeatherTable table, int line, int part, ReadOnlySpan<char> text, out int number)
    {
        if (int.TryParse(text, NumberStyles.Integer, CultureInfo.InvariantCulture, out number)) return true;
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double real) && real == Math.Floor(real) && Math.Abs(real) < 1e6)
        {
            number = (int)real;
            return true;
        }
        table.Report(line, s_names[part], text.ToString(), "is not a whole number");
        return false;
    }

    /// <summary>Minutes from 1970-01-01 to a date's midnight; null, with a problem, when there is no such date.</summary>
    public static long? Minute(WeatherTable table, int line, int year, int month, int day)
    {
        if (year is >= 1 and <= 9998 && month is >= 1 and <= 12 && day >= 1 && day <= CalendarSystem.Iso.GetDaysInMonth(year, month))
            return 1440L * Time.TimeAxis.DayOfDate(new LocalDate(year, month, day));
        table.Report(line, "date", string.Create(CultureInfo.InvariantCulture, $"{year}-{month}-{day}"), "is no day of the calendar");
        return null;
    }
}
