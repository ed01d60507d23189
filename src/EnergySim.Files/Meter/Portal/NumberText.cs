using System.Globalization;

namespace EnergySim.Files;

/// <summary>Reads numbers with one decimal mark and perhaps marks between thousands.</summary>
internal readonly struct NumberText(bool decimalComma)
{
    private const int MostLength = 40;

    public bool IsDecimalComma => decimalComma;

    /// <summary>True for the signs that people put where a number is missing.</summary>
    public static bool IsMissing(ReadOnlySpan<char> text) =>
        text.IsEmpty || text is "-" or "--" or "---" or "–" or "." or "n/a" or "N/A" or "NA" or "#N/A" or "null" or "NULL" or "NaN" or "nan" or "None" or "?" or "*";

    /// <summary>Reads a number; a unit behind it is allowed.</summary>
    public bool TryRead(ReadOnlySpan<char> text, out double value)
    {
        value = 0;
        int end = text.Length;
        // A unit behind the number, such as "0.5 kWh".
        while (end > 0 && char.IsAsciiLetter(text[end - 1])) end--;
        if (end < text.Length && UnitWord.Of(text[end..]) is null) return false;
        text = text[..end].TrimEnd();
        if (text.IsEmpty || text.Length > MostLength) return false;
        // Common case: nothing to turn.
        if (!decimalComma && text.IndexOfAny(",' \u00A0\u202F") < 0)
            return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
        Span<char> plain = stackalloc char[MostLength];
        int length = 0;
        char mark = decimalComma ? ',' : '.', thousands = decimalComma ? '.' : ',';
        foreach (char c in text)
        {
            if (c == mark) plain[length++] = '.';
            else if (c != thousands && c is not (' ' or '\'' or '\u00A0' or '\u202F')) plain[length++] = c;
        }
        return double.TryParse(plain[..length], NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
    }

    /// <summary>True when a text could be a number with some mark.</summary>
    public static bool LooksNumeric(ReadOnlySpan<char> text)
    {
        bool any = false;
        int end = text.Length;
        while (end > 0 && char.IsAsciiLetter(text[end - 1])) end--;
        if (end < text.Length && UnitWord.Of(text[end..]) is not null) text = text[..end].TrimEnd();
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (char.IsAsciiDigit(c)) any = true;
            else if (c is '-' or '+' && (i == 0 || text[i - 1] is 'e' or 'E')) continue;
            else if (c is 'e' or 'E' && any && i + 1 < text.Length) continue;
            else if (c is not ('.' or ',' or ' ' or '\'' or '\u00A0' or '\u202F')) return false;
        }
        return any;
    }
}

/// <summary>Words for units of energy and power.</summary>
internal static class UnitWord
{
    public static MeterUnit? Of(ReadOnlySpan<char> word)
    {
        Span<char> lower = stackalloc char[8];
        if (word.Length is 0 or > 8) return null;
        word.ToLowerInvariant(lower);
        return lower[..word.Length] switch
        {
            "wh" => MeterUnit.Wh,
            "kwh" or "kwhr" or "kwhrs" or "kwhs" => MeterUnit.KWh,
            "mwh" => MeterUnit.MWh,
            "w" or "watt" or "watts" => MeterUnit.W,
            "kw" => MeterUnit.KW,
            _ => null,
        };
    }

    /// <summary>The unit named somewhere in a text; null = none, or two.</summary>
    public static MeterUnit? In(string text)
    {
        MeterUnit? found = null;
        int from = -1;
        for (int i = 0; i <= text.Length; i++)
        {
            bool isLetter = i < text.Length && char.IsAsciiLetter(text[i]);
            if (isLetter && from < 0) from = i;
            if (isLetter || from < 0) continue;
            if (Of(text.AsSpan(from, i - from)) is MeterUnit unit)
            {
                if (found is not null && found != unit) return null;
                found = unit;
            }
            from = -1;
        }
        return found;
    }

    public static string Text(MeterUnit unit) => unit switch
    {
        MeterUnit.Wh => "Wh",
        MeterUnit.KWh => "kWh",
        MeterUnit.MWh => "MWh",
        MeterUnit.W => "W",
        _ => "kW",
    };

    /// <summary>kWh of one unit over so many minutes.</summary>
    public static double Kwh(MeterUnit unit, double minutes) => unit switch
    {
        MeterUnit.Wh => 0.001,
        MeterUnit.KWh => 1,
        MeterUnit.MWh => 1000,
        MeterUnit.W => minutes / 60000,
        _ => minutes / 60,
    };
}
