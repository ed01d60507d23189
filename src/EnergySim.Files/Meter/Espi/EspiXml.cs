using System.Globalization;
using System.Xml;

namespace EnergySim.Files;

/// <summary>The small reading that ESPI files need: children by name, short texts, whole numbers.</summary>
internal sealed class EspiXml(XmlReader xml, string file, ProblemList problems)
{
    private const int MostText = 128;
    private readonly char[] _text = new char[MostText];

    /// <summary>Walks the child elements by name; the caller may read the one that it is given.</summary>
    public IEnumerable<string> Children()
    {
        if (xml.IsEmptyElement) yield break;
        int depth = xml.Depth;
        while (xml.Read() && xml.Depth > depth)
            if (xml.NodeType == XmlNodeType.Element && xml.Depth == depth + 1) yield return xml.LocalName;
    }

    /// <summary>The text of the element, cut at 128 letters; leaves the reader on its end.</summary>
    public string Text()
    {
        if (xml.IsEmptyElement) return "";
        int length = 0, depth = xml.Depth;
        while (xml.Read() && xml.Depth > depth)
            while (xml.NodeType is XmlNodeType.Text or XmlNodeType.CDATA && length < MostText)
            {
                int read = xml.ReadValueChunk(_text, length, MostText - length);
                if (read == 0) break;
                length += read;
            }
        return new string(_text, 0, length).Trim();
    }

    public int? Whole32(string field) => Whole64(field) is long value && value is >= int.MinValue and <= int.MaxValue ? (int)value : null;

    public long? Whole64(string field)
    {
        int line = Line;
        string text = Text();
        if (text.Length == 0) return null;
        if (long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long value)) return value;
        bool isDigits = text.TrimStart('-', '+').All(char.IsAsciiDigit);
        Report(line, field, text, isDigits ? "is larger than any meter counts (64 bits)" : "is not a whole number");
        return null;
    }

    public uint Rule()
    {
        string text = Text();
        return uint.TryParse(text, NumberStyles.HexNumber, CultureInfo.InvariantCulture, out uint rule) ? rule : uint.MaxValue;
    }

    /// <summary>Line of the node that the reader stands on; 0 = not known.</summary>
    public int Line => (xml as IXmlLineInfo)?.LineNumber ?? 0;

    public void Report(int line, string field, string? value, string rule) =>
        problems.Add(new Problem { File = file, Line = line > 0 ? line : null, Field = field, Value = value, Rule = rule });
}
