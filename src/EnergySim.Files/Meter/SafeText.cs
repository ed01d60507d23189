using System.Text;

namespace EnergySim.Files;

/// <summary>Text out of a foreign file, made safe to print and to write into a table.</summary>
public static class SafeText
{
    private const int Most = 60;

    /// <summary>The text without control signs, at most 60 letters, and with an apostrophe before it where a spreadsheet would take it for a formula.</summary>
    /// <param name="text">The text as it stands in the file.</param>
    public static string Of(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var safe = new StringBuilder();
        foreach (char c in text.Trim())
        {
            if (safe.Length == Most)
            {
                safe.Append('…');
                break;
            }
            if (!char.IsControl(c)) safe.Append(c);
        }
        // A sign before a number is no formula.
        bool isFormula = safe.Length > 0 && (safe[0] is '=' or '@' || (safe[0] is '+' or '-' && (safe.Length == 1 || !char.IsAsciiDigit(safe[1]))));
        return isFormula ? "'" + safe : safe.ToString();
    }
}
