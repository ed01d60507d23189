using System.Globalization;
using System.Xml;

namespace EnergySim.Files;

/// <summary>The small reading that ESPI files need: children by name, short texts, whole numbers.</summary>
internal sealed class EspiXml(XmlReader xml, string file, ProblemList problems)
{
    private const int MostText = 128;
    private readonly char[] _text = new char[MostText];

    /// <summary>Walks the child elements by name; the caller may read the one that it is given.</summary>
    public ChildWalk Children() => new(xml);

    /// <summary>The text of the element, cut at 128 letters; leaves the reader on its end.</summary>
    public string Text() => new(Read());

    public int? Whole32(string field) => Whole64(field) is long value && value is >= int.MinValue and <= int.MaxValue ? (int)value : null;

    public long? Whole64(string field)
    {
        int line = Line;
        ReadOnlySpan<char> text = Read();
        if (text.IsEmpty) return null;
        if (long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long value)) return value;
        bool isDigits = !text.TrimStart("-+").ContainsAnyExceptInRange('0', '9');
        Report(line, field, new string(text), isDigits ? "is larger than any meter counts (64 bits)" : "is not a whole number");
        return null;
    }

    public uint Rule()
    {
        return uint.TryParse(Read(), NumberStyles.HexNumber, CultureInfo.InvariantCulture, out uint rule) ? rule : uint.MaxValue;
    }

    /// <summary>Line of the node that the reader stands on; 0 = not known.</summary>
    public int Line => (xml as IXmlLineInfo)?.LineNumber ?? 0;

    public void Report(int line, string field, string? value, string rule) =>
        problems.Add(new Problem { File = file, Line = line > 0 ? line : null, Field = field, Value = value, Rule = rule });

    private ReadOnlySpan<char> Read()
    {
        if (xml.IsEmptyElement) return [];
        int length = 0, depth = xml.Depth;
        while (xml.Read() && xml.Depth > depth)
            while (xml.NodeType is XmlNodeType.Text or XmlNodeType.CDATA && length < MostText)
            {
                int read = xml.ReadValueChunk(_text, length, MostText - length);
                if (read == 0) break;
                length += read;
            }
        return _text.AsSpan(0, length).Trim();
    }

    /// <summary>The child elements of the element that the reader stands on, without an object for each of a million.</summary>
    public struct ChildWalk(XmlReader xml)
    {
        private readonly int _depth = xml.IsEmptyElement ? int.MaxValue : xml.Depth;

        public readonly string Current => xml.LocalName;

        public readonly ChildWalk GetEnumerator() => this;

        public readonly bool MoveNext()
        {
            if (_depth == int.MaxValue) return false;
            while (xml.Read() && xml.Depth > _depth)
                if (xml.NodeType == XmlNodeType.Element && xml.Depth == _depth + 1) return true;
            return false;
        }
    }
}
