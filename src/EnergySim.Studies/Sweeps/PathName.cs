using System.Text;

namespace EnergySim.Studies.Sweeps;

/// <summary>How a name is written as a segment of a path: small letters and figures, hyphens for all else.</summary>
public static class PathName
{
    /// <summary>The segment of a name: <c>Two batteries</c> is <c>two-batteries</c>.</summary>
    public static string Of(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        var text = new StringBuilder();
        foreach (char c in name.ToLowerInvariant())
            if (char.IsLetterOrDigit(c)) text.Append(c);
            else if (text.Length > 0 && text[^1] != '-') text.Append('-');
        return text.ToString().TrimEnd('-');
    }
}
