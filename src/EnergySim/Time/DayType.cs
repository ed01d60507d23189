using NodaTime;

namespace EnergySim.Time;

/// <summary>What kind of day a tariff sees.</summary>
public enum DayType
{
    /// <summary>Monday to Friday, unless a holiday.</summary>
    Weekday,

    /// <summary>Saturday and Sunday, unless a holiday.</summary>
    Weekend,

    /// <summary>A day named by the tariff's own holiday rules.</summary>
    Holiday,

    /// <summary>A day on which the utility has called an event.</summary>
    Event,
}

/// <summary>A month and a day of any year, as seasons and fixed holidays are written; 29 February is allowed.</summary>
/// <param name="Month">1 to 12.</param>
/// <param name="Day">1 to 31.</param>
public readonly record struct MonthDay(int Month, int Day)
{
    /// <summary>The same day as a number that orders days within a year.</summary>
    public int Order => (Month * 100) + Day;

    /// <summary>The month-day of a date.</summary>
    public static MonthDay Of(LocalDate date) => new(date.Month, date.Day);

    /// <summary>Reads <c>MM-DD</c>; false if it is no day of a leap year.</summary>
    public static bool TryParse(string? text, out MonthDay value)
    {
        value = default;
        if (text is not { Length: 5 } || text[2] != '-' || !TwoDigits(text, 0, out int month) || !TwoDigits(text, 3, out int day)) return false;
        if (month is < 1 or > 12 || day < 1 || day > CalendarSystem.Iso.GetDaysInMonth(2024, month)) return false;
        value = new MonthDay(month, day);
        return true;
    }

    /// <inheritdoc/>
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Month:00}-{Day:00}");

    private static bool TwoDigits(string text, int at, out int value)
    {
        value = ((text[at] - '0') * 10) + (text[at + 1] - '0');
        return char.IsAsciiDigit(text[at]) && char.IsAsciiDigit(text[at + 1]);
    }
}

/// <summary>Part of the year from one month-day to another, both included; it may run over the turn of the year.</summary>
/// <param name="Name">The tariff's word for it.</param>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
public sealed record Season(string Name, MonthDay From, MonthDay To)
{
    /// <summary>True when the day lies in the season.</summary>
    public bool Contains(MonthDay day) => From.Order <= To.Order
        ? day.Order >= From.Order && day.Order <= To.Order
        : day.Order >= From.Order || day.Order <= To.Order;
}

/// <summary>
/// A window of the local clock, the start included and the end not. It may cross midnight; equal ends mean the whole day.
/// An interval is inside when its start is.
/// </summary>
/// <param name="FromMinute">Minute of the day at which it begins, 0 to 1439.</param>
/// <param name="ToMinute">Minute of the day at which it ends, 0 to 1440.</param>
public readonly record struct ClockWindow(int FromMinute, int ToMinute)
{
    /// <summary>The whole day.</summary>
    public static ClockWindow WholeDay => new(0, 1440);

    /// <summary>True when the minute of the day lies in the window.</summary>
    public bool Contains(int minute)
    {
        int to = ToMinute % 1440;
        return FromMinute < to ? minute >= FromMinute && minute < to : minute >= FromMinute || minute < to;
    }

    /// <summary>Reads <c>HH:MM</c> (24:00 allowed) as a minute of the day.</summary>
    public static bool TryParseMinute(string? text, out int minute)
    {
        minute = 0;
        if (text is not { Length: 5 } || text[2] != ':') return false;
        foreach (int at in (ReadOnlySpan<int>)[0, 1, 3, 4])
            if (!char.IsAsciiDigit(text[at])) return false;
        int hours = ((text[0] - '0') * 10) + (text[1] - '0');
        int minutes = ((text[3] - '0') * 10) + (text[4] - '0');
        minute = (hours * 60) + minutes;
        return minutes < 60 && minute <= 1440;
    }

    /// <inheritdoc/>
    public override string ToString() =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{FromMinute / 60:00}:{FromMinute % 60:00}–{ToMinute / 60:00}:{ToMinute % 60:00}");
}
