using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace EnergySim.Files;

/// <summary>Opens a file of unknown kind: unpacks gzip and zip within bounds, finds the encoding, and tells what is inside. Nothing else is opened.</summary>
internal sealed partial class MeterSource
{
    private const int HeadBytes = 4096;

    // A table of 10 years of minutes is about 200 MB. XML is read as a stream, and may be larger.
    private const long MostTableBytes = 256L << 20, MostUnpackedXmlBytes = 2L << 30;

    // Readings pack to a tenth or a fiftieth of their size; what unpacks to more than this was made to fill memories.
    private const long MostPackingRatio = 200, LeastUnpackedBytes = 16L << 20;

    private readonly string _file;
    private readonly byte[] _head;
    private readonly int _bomBytes;

    private MeterSource(string file, byte[] head, Packing packing)
    {
        (_file, _head, Packing) = (file, head, packing);
        (Encoding, _bomBytes, EncodingGround) = TextEncoding.Of(head);
        IsXml = false;
    }

    /// <summary>True when the file is XML.</summary>
    public bool IsXml { get; private set; }

    public Encoding Encoding { get; private set; }

    /// <summary>How the encoding is known.</summary>
    public string EncodingGround { get; private set; }

    public Packing Packing { get; }

    /// <summary>Looks at the beginning of a file.</summary>
    /// <exception cref="ProblemsException">The file is missing, or of a kind that holds no readings.</exception>
    public static MeterSource Open(string file)
    {
        byte[] head = HeadOf(file, Packing.None);
        Packing packing = Unpacking.Of(head);
        if (packing != Packing.None) head = HeadOf(file, packing);
        var source = new MeterSource(file, head, packing);
        if (source.RefusalOf() is string rule) throw Problem(file, rule);
        return source;
    }

    /// <summary>The file as a stream of text; of an XML file in its own encoding.</summary>
    public TextReader XmlText()
    {
        Encoding encoding = Encoding;
        string start = Encoding.Latin1.GetString(_head, 0, Math.Min(_head.Length, 200));
        if (_bomBytes == 0 && DeclaredEncoding().Match(start) is { Success: true } declared)
        {
            string name = declared.Groups[1].Value;
            encoding = TextEncoding.Named(name) ?? throw Problem(_file, $"the file declares the encoding \"{SafeText.Of(name)}\", which is not known");
        }
        return new StreamReader(Unpacking.Open(_file, Packing, Bound(MostUnpackedXmlBytes)), encoding, detectEncodingFromByteOrderMarks: true, bufferSize: 1 << 16);
    }

    /// <summary>The whole text of a table.</summary>
    public string TableText()
    {
        if (new FileInfo(_file).Length > MostTableBytes) throw Problem(_file, TooLarge(MostTableBytes));
        using var memory = new MemoryStream();
        using (Stream stream = Unpacking.Open(_file, Packing, Bound(MostTableBytes))) stream.CopyTo(memory);
        ReadOnlySpan<byte> bytes = memory.GetBuffer().AsSpan(0, (int)memory.Length);
        if (_bomBytes == 0 && Encoding is UTF8Encoding && !TextEncoding.IsUtf8(bytes))
            (Encoding, EncodingGround) = (TextEncoding.Named("windows-1252")!, "it is not valid UTF-8");
        return Encoding.GetString(bytes[_bomBytes..]);
    }

    private long Bound(long most) => Packing != Packing.None ? Math.Min(most, Math.Max(LeastUnpackedBytes, new FileInfo(_file).Length * MostPackingRatio)) : most;

    internal static string TooLarge(long bytes) => string.Create(CultureInfo.InvariantCulture, $"the file holds more than {bytes >> 20:N0} MB; no meter file is that large");

    private string? RefusalOf()
    {
        ReadOnlySpan<byte> head = _head;
        if (head.IsEmpty) return "the file is empty";
        if (head.StartsWith((ReadOnlySpan<byte>)[0xD0, 0xCF, 0x11, 0xE0])) return "the file is a spreadsheet of the old kind; save it as CSV";
        if (head.StartsWith("%PDF"u8)) return "the file is a PDF; ask the portal for the data as CSV or XML";
        if (Unpacking.Of(head) != Packing.None) return "the file is packed twice; unpack it first";
        string start = Encoding.GetString(head[_bomBytes..]).TrimStart();
        if (start.Length == 0) return "the file is empty";
        if (Html().IsMatch(start)) return "the file is a web page, not data: the portal's session had probably ended; sign in again and export once more";
        IsXml = start[0] == '<';
        return start[0] is '{' or '[' ? "the file is JSON; ask the portal for the data as CSV or XML" : null;
    }

    private static byte[] HeadOf(string file, Packing packing)
    {
        try
        {
            using Stream stream = Unpacking.Open(file, packing, long.MaxValue);
            var head = new byte[HeadBytes];
            return head[..stream.ReadAtLeast(head, HeadBytes, throwOnEndOfStream: false)];
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw Problem(file, "there is no such file");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw Problem(file, "the file can not be read");
        }
    }

    private static ProblemsException Problem(string file, string rule) => new([new Problem { File = file, Rule = rule }]);

    [GeneratedRegex("<\\?xml[^>]*encoding\\s*=\\s*[\"']([A-Za-z0-9._-]+)[\"']")]
    private static partial Regex DeclaredEncoding();

    [GeneratedRegex(@"\A(<\?xml[^>]*>\s*)?(<!--.*?-->\s*)*<(!doctype\s+html|html)", RegexOptions.IgnoreCase | RegexOptions.Singleline)]
    private static partial Regex Html();
}
