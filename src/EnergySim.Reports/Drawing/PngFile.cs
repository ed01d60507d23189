using System.Buffers.Binary;
using System.IO.Compression;

namespace EnergySim.Reports.Drawing;

/// <summary>
/// Packs opaque pixels as PNG (ISO/IEC 15948:2004): each row as its difference from the row above, which in flat pictures is mostly nothing and so
/// packs at once.
/// </summary>
internal static class PngFile
{
    private const byte TrueColour = 2, DifferenceFromAbove = 2, BytesPerPixel = 3, BytesPerSource = 4;
    private static readonly byte[] s_signature = [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0d, 0x0a, 0x1a, 0x0a];
    private static readonly uint[] s_crcs = [.. Enumerable.Range(0, 256).Select(n => CrcOf((uint)n))];

    /// <summary>Writes a picture.</summary>
    /// <param name="rgba">Rows of red, green, blue and a byte that is left out.</param>
    /// <param name="width">Pixels across.</param>
    /// <param name="height">Rows.</param>
    /// <param name="output">Where to.</param>
    public static void Write(ReadOnlySpan<byte> rgba, int width, int height, Stream output)
    {
        output.Write(s_signature);
        Span<byte> header = stackalloc byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, width);
        BinaryPrimitives.WriteInt32BigEndian(header[4..], height);
        (header[8], header[9]) = (8, TrueColour);
        header[10..].Clear();
        Chunk("IHDR"u8, header, output);
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.Fastest, leaveOpen: true)) Rows(rgba, width, height, zlib);
        Chunk("IDAT"u8, packed.GetBuffer().AsSpan(0, (int)packed.Length), output);
        Chunk("IEND"u8, [], output);
    }

    private static void Rows(ReadOnlySpan<byte> rgba, int width, int height, ZLibStream into)
    {
        var row = new byte[1 + (BytesPerPixel * width)];
        row[0] = DifferenceFromAbove;
        int length = BytesPerSource * width;
        ReadOnlySpan<byte> above = new byte[length];
        for (int y = 0; y < height; y++)
        {
            ReadOnlySpan<byte> here = rgba.Slice(y * length, length);
            if (here.SequenceEqual(above)) row.AsSpan(1).Clear();
            else Difference(here, above, row.AsSpan(1));
            into.Write(row);
            above = here;
        }
    }

    private static void Difference(ReadOnlySpan<byte> here, ReadOnlySpan<byte> above, Span<byte> into)
    {
        for (int from = 0, to = 0; from < here.Length; from += BytesPerSource, to += BytesPerPixel)
        {
            into[to] = (byte)(here[from] - above[from]);
            into[to + 1] = (byte)(here[from + 1] - above[from + 1]);
            into[to + 2] = (byte)(here[from + 2] - above[from + 2]);
        }
    }

    private static void Chunk(ReadOnlySpan<byte> kind, ReadOnlySpan<byte> data, Stream output)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
        output.Write(number);
        output.Write(kind);
        output.Write(data);
        BinaryPrimitives.WriteUInt32BigEndian(number, ~Crc(data, Crc(kind, uint.MaxValue)));
        output.Write(number);
    }

    // The standard's annex D.
    private static uint Crc(ReadOnlySpan<byte> data, uint crc)
    {
        foreach (byte one in data) crc = s_crcs[(crc ^ one) & 0xff] ^ (crc >> 8);
        return crc;
    }

    private static uint CrcOf(uint n)
    {
        for (int bit = 0; bit < 8; bit++) n = (n & 1) != 0 ? 0xedb88320 ^ (n >> 1) : n >> 1;
        return n;
    }
}
