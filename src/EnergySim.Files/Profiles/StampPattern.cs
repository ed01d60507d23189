using NodaTime;

namespace EnergySim.Files;

/// <summary>A stamp as written: minutes since 1970-01-01 00:00 on its own clock, and its offset from UTC where it carries one.</summary>
internal readonly record struct Stamp(long Minute, int? OffsetMinutes);

/// <summary>Reads stamps as <see cref="ProfileColumn.Pattern"/> says.</summary>
internal sealed class StampPattern
{
    private const string Iso = "YYYY-MM-DD HH:mm";
    private readonly string _pattern;
    private readonly bool _isIso;
    private readonly int? _year;

    /// <param name="pattern">The pattern, a valid one; null = ISO 8601.</param>
    /// <param name="year">The year of stamps that carry none.</param>
    public StampPattern(string? pattern, int? year)
    {
        _isIso = pattern is null;
        _pattern = pattern ?? Iso;
        HasYear = _pattern.Contains("YYYY", StringComparison.Ordinal);
        _year = year;
    }

    public bool HasYear { get; }

    /// <summary>What is wrong with a pattern, or null.</summary>
    public static string? FaultOf(string pattern)
    {
        bool Has(char token) => pattern.Contains(token, StringComparison.Ordinal);
        if (!Has('M') || !Has('D')) return "names no month (MM) or no day (DD)";
        if (Has('Y') && !pattern.Contains("YYYY", StringComparison.Ordinal)) return "names the year with other than four digits (YYYY)";
        return Has('H') ? null : "names no hour (HH)";
    }

    /// <summary>Reads a stamp without blanks around it.</summary>
    /// <param name="text">The text.</param>
    /// <param name="stamp">The stamp.</param>
    /// <returns>What is wrong with it, or null.</returns>
    public string? Read(ReadOnlySpan<char> text, out Stamp stamp)
    {
        stamp = default;
        int at = 0, year = _year ?? 0, month = 0, day = 0, hour = 0, minute = 0;
        int? offset = null;
        for (int p = 0; p < _pattern.Length;)
        {
            char token = _pattern[p];
            int width = RunOf(token, p);
            bool read = token switch
            {
                'Y' when width == 4 => Digits(text, ref at, 4, 4, out year),
                'M' when width <= 2 => Digits(text, ref at, width, 2, out month),
                'D' when width <= 2 => Digits(text, ref at, width, 2, out day),
                'H' when width <= 2 => Digits(text, ref at, width, 2, out hour),
                'm' when width == 2 => Digits(text, ref at, 2, 2, out minute),
                's' when width == 2 => Zeros(text, ref at),
                'Z' => OffsetAt(text, ref at, out offset),
                ' ' => _isIso ? IsoSeparator(text, ref at) : Blanks(text, ref at),
                _ => Literal(text, ref at, token, ref width),
            };
            if (!read) return Fault();
            p += width;
        }
        if (_isIso && !IsoTail(text, ref at, out offset)) return Fault();
        if (at != text.Length) return Fault();
        if (year is < 1 or > 9998 || month is < 1 or > 12 || day < 1 || day > CalendarSystem.Iso.GetDaysInMonth(year, month))
            return "is no day of the calendar";
        if (minute > 59 || hour > 24 || (hour == 24 && minute > 0)) return "is no time of the day";
        stamp = new Stamp((DaysTo(year, month, day) * 1440L) + (hour * 60) + minute, offset);
        return null;
    }

    private string Fault() => _isIso
        ? "is not a stamp such as 2025-01-31 00:15 or 2025-01-31T00:15:00Z"
        : $"is not a stamp written {_pattern}";

    private int RunOf(char token, int from)
    {
        int to = from + 1;
        while (to < _pattern.Length && _pattern[to] == token) to++;
        return to - from;
    }

    private static bool Digits(ReadOnlySpan<char> text, ref int at, int least, int most, out int value)
    {
        value = 0;
        int from = at;
        while (at < text.Length && at - from < most && char.IsAsciiDigit(text[at])) value = (value * 10) + (text[at++] - '0');
        return at - from >= least;
    }

    private static bool Zeros(ReadOnlySpan<char> text, ref int at) => Digits(text, ref at, 2, 2, out int seconds) && seconds == 0;

    private static bool Blanks(ReadOnlySpan<char> text, ref int at)
    {
        int from = at;
        while (at < text.Length && text[at] == ' ') at++;
        return at > from;
    }

    private static bool IsoSeparator(ReadOnlySpan<char> text, ref int at) => at < text.Length && text[at++] is ' ' or 'T';

    private static bool Literal(ReadOnlySpan<char> text, ref int at, char token, ref int width)
    {
        width = 1;
        return at < text.Length && text[at++] == token;
    }

    // Seconds and offset are optional in ISO 8601.
    private static bool IsoTail(ReadOnlySpan<char> text, ref int at, out int? offset)
    {
        offset = null;
        if (at < text.Length && text[at] == ':')
        {
            at++;
            if (!Zeros(text, ref at)) return false;
            if (at < text.Length && text[at] == '.')
            {
                int from = ++at;
                while (at < text.Length && text[at] == '0') at++;
                if (at == from) return false;
            }
        }
        return at == text.Length || OffsetAt(text, ref at, out offset);
    }

    private static bool OffsetAt(ReadOnlySpan<char> text, ref int at, out int? offset)
    {
        offset = null;
        if (at >= text.Length) return false;
        char sign = text[at++];
        if (sign == 'Z')
        {
            offset = 0;
            return true;
        }
        if (sign is not ('+' or '-') || !Digits(text, ref at, 2, 2, out int hours)) return false;
        bool more = at < text.Length && text[at] == ':';
        if (more) at++;
        int minutes = 0;
        if ((more || (at < text.Length && char.IsAsciiDigit(text[at]))) && !Digits(text, ref at, 2, 2, out minutes)) return false;
        if (hours > 18 || minutes > 59) return false;
        offset = (sign == '-' ? -1 : 1) * ((hours * 60) + minutes);
        return true;
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
