using System.Globalization;

namespace EnergySim.Files;

/// <summary>Stamps that are counts: seconds or milliseconds since 1970-01-01 UTC, or a spreadsheet's days since 1899-12-30.</summary>
internal static class CountedStamp
{
    private const double DaysTo1970 = 25569;

    /// <summary>True when a cell may be one: a date between 2000 and 2100.</summary>
    public static bool Is(ReadOnlySpan<char> cell) => TryRead(cell, out _, out _);

    /// <summary>Reads one: minutes since 1970-01-01, and whether they are of UTC.</summary>
    public static bool TryRead(ReadOnlySpan<char> cell, out long minute, out bool isUtc)
    {
        (minute, isUtc) = (0, false);
        if (cell.Length is < 5 or > 20 || !double.TryParse(cell, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value)) return false;
        if (value is >= 946684800e3 and < 4102444800e3) value /= 1000;
        if (value is >= 946684800 and < 4102444800)
        {
            (minute, isUtc) = ((long)Math.Floor(value / 60), true);
            return true;
        }
        if (value is < 36526 or >= 73051) return false;
        minute = (long)Math.Round((value - DaysTo1970) * 1440);
        return true;
    }
}
