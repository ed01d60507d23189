namespace EnergySim.Files;

/// <summary>Text of home and tariff files.</summary>
public static class HomeText
{
    /// <summary>A value as YAML must have it: in quotes where its letters could mean something else.</summary>
    public static string Quoted(string value)
    {
        ArgumentNullException.ThrowIfNull(value);
        return YamlEdit.Quoted(value);
    }

    /// <summary>A file's text with its <c>zone</c> set; all else stays.</summary>
    /// <param name="text">A YAML mapping.</param>
    /// <param name="zone">IANA zone.</param>
    public static string WithZone(string text, string zone)
    {
        ArgumentNullException.ThrowIfNull(text);
        return YamlEdit.With(text, [(["zone"], zone)]);
    }
}
