using EnergySim.Time;

namespace EnergySim.Files;

/// <summary>Values that several kinds of file hold.</summary>
internal sealed partial class YamlMap
{
    public double? Number(string key, Bounds bounds) => Text(key)?.Number(bounds);

    public double? Share(string key) => Text(key)?.Share(Bounds.Share);

    public decimal? Money(string key, bool negative = true) => Text(key)?.Money(negative);

    public bool Flag(string key, bool otherwise) => Text(key)?.Flag() ?? otherwise;

    /// <summary>A text of any content.</summary>
    public string Word(string key, string otherwise = "") => Text(key)?.Value ?? otherwise;

    /// <summary>A text that may not be empty.</summary>
    public string Name(string key)
    {
        if (Text(key) is not YamlText text) return "";
        if (string.IsNullOrWhiteSpace(text.Value)) text.Report("is empty");
        return text.Value.Trim();
    }

    /// <summary>A list of numbers.</summary>
    public IReadOnlyList<double> Numbers(string key, Bounds bounds) => [.. Texts(key).Select(t => t.Number(bounds) ?? 0)];

    /// <summary>The window between the keys <c>from</c> and <c>to</c>; both absent = the whole day.</summary>
    public ClockWindow Window()
    {
        if (!Has("from") && !Has("to")) return ClockWindow.WholeDay;
        if (!Has("from") || !Has("to"))
        {
            ReportHere("from and to come together");
            return ClockWindow.WholeDay;
        }
        if (Text("from")?.Minute() is not int from || Text("to")?.Minute() is not int to) return ClockWindow.WholeDay;
        if (from == 1440) Report("from", "is no start of a window; write 00:00");
        else if (from == to) ReportHere("from and to are the same; leave both out for the whole day");
        else return new ClockWindow(from, to);
        return ClockWindow.WholeDay;
    }

    /// <summary>Exactly one of two keys must be there.</summary>
    public bool OneOf(string a, string b)
    {
        if (Has(a) != Has(b)) return true;
        ReportHere(Has(a) ? $"{a} and {b} exclude each other" : $"{a} or {b} is missing");
        return false;
    }
}
