using System.Text;
using System.Text.RegularExpressions;

namespace EnergySim.Reports.Pdf;

/// <summary>
/// Takes the clock and chance out of a PDF as the library writes it: dates become the PDF format's own first day, identifiers and names of font
/// parts are counted up. Each is replaced by as many bytes, so that the file's table of places still holds.
/// </summary>
internal static partial class StableBytes
{
    public static byte[] Of(byte[] pdf)
    {
        // Latin-1 keeps every byte as one character.
        string text = Encoding.Latin1.GetString(pdf);
        text = Dates().Replace(text, m => Same(m, "(D:20000101000000+00'00')"));
        text = XmpDates().Replace(text, m => m.Groups[1].Value + Same(m.Groups[2], "2000-01-01T00:00:00.0000000+00:00") + m.Groups[3].Value);
        text = Counted(text, FontParts(), number => string.Concat(Enumerable.Range(0, 6).Select(d => (char)('A' + (number / (int)Math.Pow(26, 5 - d) % 26)))));
        text = Counted(text, Identifiers(), number => number.ToString("X32", System.Globalization.CultureInfo.InvariantCulture));
        text = Counted(text, Uuids(), number => "00000000-0000-0000-0000-" + number.ToString("x12", System.Globalization.CultureInfo.InvariantCulture));
        return Encoding.Latin1.GetBytes(text);
    }

    // The same chance text becomes the same number wherever it stands.
    private static string Counted(string text, Regex found, Func<int, string> name)
    {
        var names = new Dictionary<string, string>(StringComparer.Ordinal);
        return found.Replace(text, m =>
        {
            Group chance = m.Groups[1];
            if (!names.TryGetValue(chance.Value, out string? stable)) names.Add(chance.Value, stable = name(names.Count + 1));
            int at = chance.Index - m.Index;
            return m.Value[..at] + stable + m.Value[(at + chance.Length)..];
        });
    }

    private static string Same(Capture old, string wanted) => wanted.Length >= old.Length ? old.Value.StartsWith('(') ? wanted[..(old.Length - 1)] + ")" : wanted[..old.Length]
        : wanted[..^1] + new string(' ', old.Length - wanted.Length) + wanted[^1];

    [GeneratedRegex(@"\(D:\d{14}[^)]*\)")]
    private static partial Regex Dates();

    [GeneratedRegex(@"(<xmp:\w+Date>)([^<]+)(</xmp)")]
    private static partial Regex XmpDates();

    [GeneratedRegex(@"/([A-Z]{6})\+")]
    private static partial Regex FontParts();

    [GeneratedRegex("<([0-9A-Fa-f]{32})>")]
    private static partial Regex Identifiers();

    [GeneratedRegex("uuid:([0-9a-fA-F]{8}-[0-9a-fA-F]{4}-[0-9a-fA-F]{4}-[0-9a-fA-F]{4}-[0-9a-fA-F]{12})")]
    private static partial Regex Uuids();
}
