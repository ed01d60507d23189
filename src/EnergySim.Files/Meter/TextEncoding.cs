using System.Text;

namespace EnergySim.Files;

/// <summary>Finds out how a text is encoded.</summary>
internal static class TextEncoding
{
    /// <summary>The encoding of a text that begins so, the length of its byte-order mark, and the ground.</summary>
    public static (Encoding Encoding, int BomBytes, string Ground) Of(ReadOnlySpan<byte> head)
    {
        if (head.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF])) return (new UTF8Encoding(false), 3, "byte-order mark");
        if (head.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE, 0, 0])) return (new UTF32Encoding(false, false), 4, "byte-order mark");
        if (head.StartsWith((ReadOnlySpan<byte>)[0, 0, 0xFE, 0xFF])) return (new UTF32Encoding(true, false), 4, "byte-order mark");
        if (head.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE])) return (new UnicodeEncoding(false, false), 2, "byte-order mark");
        if (head.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF])) return (new UnicodeEncoding(true, false), 2, "byte-order mark");
        // Of plain text in UTF-16, every other byte is zero.
        int even = 0, odd = 0;
        for (int i = 0; i < head.Length; i++)
            if (head[i] == 0) _ = i % 2 == 0 ? even++ : odd++;
        if (odd > head.Length * 0.4 && even < head.Length * 0.05) return (new UnicodeEncoding(false, false), 0, "every other byte is zero");
        if (even > head.Length * 0.4 && odd < head.Length * 0.05) return (new UnicodeEncoding(true, false), 0, "every other byte is zero");
        return (new UTF8Encoding(false), 0, "it is valid UTF-8");
    }

    public static bool IsUtf8(ReadOnlySpan<byte> bytes) => System.Text.Unicode.Utf8.IsValid(bytes);

    /// <summary>An encoding by name, Windows code pages included; null = unknown.</summary>
    public static Encoding? Named(string name)
    {
        try
        {
            return CodePagesEncodingProvider.Instance.GetEncoding(name) ?? Encoding.GetEncoding(name);
        }
        catch (ArgumentException)
        {
            return null;
        }
    }
}
