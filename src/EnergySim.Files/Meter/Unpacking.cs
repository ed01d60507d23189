using System.IO.Compression;

namespace EnergySim.Files;

/// <summary>Opens files, packed or not, as a stream of what is inside. Nothing is written to disk.</summary>
internal static class Unpacking
{
    // The list of members is read before anything else; one of a larger archive could fill the memory by itself.
    private const long MostZipBytes = 64L << 20;

    private static readonly string[] s_endings = [".csv", ".txt", ".tsv", ".xml"];

    /// <summary>How a file that begins like this is packed.</summary>
    public static Packing Of(ReadOnlySpan<byte> head) =>
        head.StartsWith((ReadOnlySpan<byte>)[0x1F, 0x8B]) ? Packing.Gzip : head.StartsWith("PK"u8) ? Packing.Zip : Packing.None;

    /// <summary>What is inside, up to a bound.</summary>
    /// <exception cref="ProblemsException">A zip archive holds no table, or several.</exception>
    public static BoundedStream Open(string file, Packing packing, long most)
    {
        var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16, FileOptions.SequentialScan);
        return packing switch
        {
            Packing.Gzip => new BoundedStream(new GZipStream(stream, CompressionMode.Decompress), most, file),
            Packing.Zip => Member(stream, most, file),
            _ => new BoundedStream(stream, most, file),
        };
    }

    private static BoundedStream Member(FileStream stream, long most, string file)
    {
        try
        {
            if (stream.Length > MostZipBytes) throw Problem(file, $"the zip archive is larger than {MostZipBytes >> 20} MB; unpack it first");
            var zip = new ZipArchive(stream, ZipArchiveMode.Read);
            if (zip.GetEntry("[Content_Types].xml") is not null) throw Problem(file, "the file is a spreadsheet, whatever its name says; save the sheet as CSV");
            ZipArchiveEntry[] tables = [.. zip.Entries.Where(IsTable)];
            if (tables.Length == 0) throw Problem(file, "the zip archive holds no CSV or XML file");
            if (tables.Length > 1)
                throw Problem(file, $"the zip archive holds {tables.Length} tables ({string.Join(", ", tables.Take(5).Select(t => SafeText.Of(t.Name)))}{(tables.Length > 5 ? ", …" : "")}); unpack it and name the one that is wanted");
            if (tables[0].IsEncrypted) throw Problem(file, "the zip archive is locked with a password; unpack it first");
            return new BoundedStream(tables[0].Open(), most, file, zip);
        }
        catch (InvalidDataException)
        {
            stream.Dispose();
            throw Problem(file, "the file is a damaged zip archive or a spreadsheet, whatever its name says; unpack it, or save the sheet as CSV");
        }
        catch (ProblemsException)
        {
            stream.Dispose();
            throw;
        }
    }

    // What some computers add beside a file has a name that begins with a dot.
    private static bool IsTable(ZipArchiveEntry entry) =>
        !entry.Name.StartsWith('.') && s_endings.Any(e => entry.Name.EndsWith(e, StringComparison.OrdinalIgnoreCase));

    private static ProblemsException Problem(string file, string rule) => new([new Problem { File = file, Rule = rule }]);
}
