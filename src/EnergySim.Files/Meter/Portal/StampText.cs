namespace EnergySim.Files;

/// <summary>Reads dates and times as people and programs write them, without being told how.</summary>
internal ref struct StampText
{
    private static readonly string[] s_months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
    private readonly ReadOnlySpan<char> _text;
    private int _at;
    private StampParts _parts;
    private int _monthName, _loose1, _loose2;

    private StampText(ReadOnlySpan<char> text)
    {
        _text = text;
        (_loose1, _loose2) = (-1, -1);
    }

    /// <summary>Reads a stamp; false when the text is none.</summary>
    public static bool TryRead(ReadOnlySpan<char> text, out StampParts parts)
    {
        parts = default;
        if (text.IsEmpty || text.Length > 60) return false;
        var reader = new StampText(text);
        if (!reader.Read()) return false;
        parts = reader._parts;
        return parts.HasDate || parts.HasTime;
    }

    private bool Read()
    {
        while (_at < _text.Length)
        {
            char c = _text[_at];
            if (c is ' ' or ',' or '\u00A0' or '\u202F') _at++;
            else if (char.IsAsciiDigit(c))
            {
                if (!Number()) return false;
            }
            else if (char.IsLetter(c))
            {
                if (!Word()) return false;
            }
            // What follows is the end of a range, or an offset.
            else if (c is '+' or '-' or '−' or '–' or '/' && _parts.HasTime)
            {
                if (c is '+' or '-' or '−' && _parts.HasDate && Offset(c)) continue;
                if (c is '+') return false;
                _parts.IsRange = _text[_at..].IndexOfAnyInRange('0', '9') >= 0;
                break;
            }
            else if (c == '.' && _monthName > 0) _at++;
            else return false;
        }
        return _monthName == 0 || NamedDate();
    }

    private bool Number()
    {
        int from = _at, value = Digits();
        int length = _at - from;
        char next = _at < _text.Length ? _text[_at] : '\0';
        bool isPointed = next == '.' && _parts.HasDate && _text.Length - _at is 3 or 6;
        if ((next == ':' || isPointed) && length <= 2 && !_parts.HasTime) return Time(value);
        if (next is '-' or '/' or '.' && !_parts.HasDate && _monthName == 0 && length <= 4 && Date(value, length)) return true;
        if (!_parts.HasDate && length is 8 or 12 or 14) return Compact(from, length);
        if (_at < _text.Length && !_parts.HasTime && length <= 2 && IsHalf(_text[_at..].TrimStart(' ')))
        {
            _parts.HasTime = true;
            return Hour(value, 0);
        }
        if (next == '-' && _monthName == 0 && length <= 2) _at++;
        if (_loose1 < 0) _loose1 = value;
        else if (_loose2 < 0) _loose2 = value;
        else return false;
        return length <= 4;
    }

    private int Digits()
    {
        int value = 0, from = _at;
        while (_at < _text.Length && char.IsAsciiDigit(_text[_at]))
        {
            if (_at - from < 9) value = (value * 10) + (_text[_at] - '0');
            _at++;
        }
        return value;
    }

    private bool Date(int first, int length)
    {
        int back = _at;
        char sign = _text[_at++];
        if (_at < _text.Length && char.IsLetter(_text[_at]))
        {
            _loose1 = first;
            if (Word() && _monthName > 0 && _at < _text.Length && _text[_at] == sign) return ++_at > 0;
            return _monthName > 0;
        }
        int from = _at, second = Digits();
        if (_at == from || _at - from > 2) return Undo(back);
        bool more = _at < _text.Length && _text[_at] == sign;
        int third = 0, thirdLength = 0;
        if (more)
        {
            int at3 = ++_at;
            third = Digits();
            thirdLength = _at - at3;
        }
        if (length == 4 && more && thirdLength is 1 or 2) SetDate(first, second, third, isOpen: false);
        else if (length <= 2 && thirdLength is 4 or 2)
        {
            int year = thirdLength == 2 ? 2000 + third : third;
            // Points between day, month and year: day first (common practice).
            if (sign == '.') SetDate(year, second, first, isOpen: false);
            else SetDate(year, first, second, isOpen: true);
        }
        else if (length <= 2 && !more && sign == '/')
        {
            SetDate(0, first, second, isOpen: true);
            _parts.HasYear = false;
        }
        else return Undo(back);
        return true;
    }

    private bool Undo(int at)
    {
        _at = at;
        return false;
    }

    private void SetDate(int year, int first, int second, bool isOpen)
    {
        (_parts.Year, _parts.First, _parts.Second) = (year, first, second);
        (_parts.HasDate, _parts.HasYear, _parts.IsOrderOpen) = (true, true, isOpen);
    }

    private bool Compact(int from, int length)
    {
        static int Of(ReadOnlySpan<char> digits)
        {
            int value = 0;
            foreach (char c in digits) value = (value * 10) + (c - '0');
            return value;
        }
        ReadOnlySpan<char> text = _text[from..];
        int year = Of(text[..4]);
        if (year is < 1950 or > 2150) return false;
        SetDate(year, Of(text[4..6]), Of(text[6..8]), isOpen: false);
        if (length == 8) return _parts.First is >= 1 and <= 12 && _parts.Second is >= 1 and <= 31;
        _parts.HasTime = true;
        return Hour(Of(text[8..10]), Of(text[10..12]));
    }

    private bool Time(int hour)
    {
        _at++;
        int from = _at, minute = Digits(), second = 0;
        if (_at - from != 2) return false;
        if (_at < _text.Length && _text[_at] is ':' or '.' && _text.Length - _at >= 3 && second == 0 && char.IsAsciiDigit(_text[_at + 1]))
        {
            from = ++_at;
            second = Digits();
            if (_at - from != 2) return false;
            if (_at < _text.Length && _text[_at] is '.' or ',')
            {
                _at++;
                Digits();
            }
        }
        _parts.HasTime = true;
        // An interval that ends at 00:14:59 ends at 00:15.
        return second < 60 && Hour(hour, minute + (second == 59 ? 1 : 0));
    }

    private bool Hour(int hour, int minute)
    {
        ReadOnlySpan<char> rest = _text[_at..].TrimStart(' ');
        if (IsHalf(rest))
        {
            if (hour is < 1 or > 12) return false;
            hour = (hour % 12) + (rest[0] is 'p' or 'P' ? 12 : 0);
            _at = _text.Length - rest.Length + HalfLength(rest);
        }
        _parts.MinuteOfDay = (hour * 60) + minute;
        return hour <= 24 && minute <= 60 && _parts.MinuteOfDay <= 1440;
    }

    private static bool IsHalf(ReadOnlySpan<char> text) => text.Length > 0 && text[0] is 'a' or 'A' or 'p' or 'P' && HalfLength(text) > 0;

    // am, a.m., a. m.
    private static int HalfLength(ReadOnlySpan<char> text)
    {
        int at = 1;
        while (at < text.Length && text[at] is '.' or ' ') at++;
        if (at >= text.Length || text[at] is not ('m' or 'M')) return 0;
        at++;
        if (at < text.Length && text[at] == '.') at++;
        return at < text.Length && char.IsLetter(text[at]) ? 0 : at;
    }

    private bool Word()
    {
        int from = _at;
        while (_at < _text.Length && char.IsLetter(_text[_at])) _at++;
        ReadOnlySpan<char> word = _text[from.._at];
        if (word is "T" or "t" && _parts.HasDate) return true;
        if (word is "at" or "um" or "uhr" or "Uhr" or "kl") return true;
        if (word is "to" && _parts.HasTime)
        {
            _at = _text.Length;
            return _parts.IsRange = true;
        }
        if (ZoneSign.OffsetMinutesOf(word) is int offset && _parts.HasTime)
        {
            _parts.OffsetMinutes = offset;
            return true;
        }
        if (word.Length < 3) return false;
        for (int m = 0; m < s_months.Length; m++)
            if (word.StartsWith(s_months[m], StringComparison.OrdinalIgnoreCase) && _monthName == 0 && !_parts.HasDate)
            {
                _monthName = m + 1;
                return true;
            }
        return IsWeekday(word);
    }

    private static bool IsWeekday(ReadOnlySpan<char> word)
    {
        foreach (string day in (ReadOnlySpan<string>)["mon", "tue", "wed", "thu", "fri", "sat", "sun"])
            if (word.StartsWith(day, StringComparison.OrdinalIgnoreCase) && word.Length <= 9) return true;
        return false;
    }

    private bool NamedDate()
    {
        if (_loose1 < 0 || _parts.HasDate) return false;
        bool hasYear = _loose2 >= 0;
        int day = _loose1, year = _loose2;
        if (day > 31) (day, year) = (year, day);
        if (hasYear && year < 100) year += 2000;
        SetDate(year, _monthName, day, isOpen: false);
        _parts.HasYear = hasYear;
        return day is >= 1 and <= 31;
    }

    private bool Offset(char sign)
    {
        int back = _at++, from = _at, hours = Digits(), length = _at - from, minutes = 0;
        if (length == 4) (hours, minutes) = (hours / 100, hours % 100);
        else if (length != 2) return Undo(back);
        else if (_at < _text.Length && _text[_at] == ':')
        {
            _at++;
            minutes = Digits();
        }
        if (hours > 18 || minutes > 59) return Undo(back);
        _parts.OffsetMinutes = (sign == '+' ? 1 : -1) * ((hours * 60) + minutes);
        return true;
    }
}
