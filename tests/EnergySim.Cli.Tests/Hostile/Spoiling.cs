using System.Text;
using CsCheck;

namespace EnergySim.Cli.Tests.Hostile;

/// <summary>Ways to spoil a file: by bytes, by lines, and by the values that stand in it.</summary>
internal static class Spoiling
{
    private static readonly string[] s_values =
    [
        "", "0", "-0", "-1", "1e308", "-1e308", "1e400", "NaN", "Infinity", "-Infinity", "0.00000000000000000001", "99999999999999999999", "2147483648", "1,5", "1.5.5",
        "null", "~", "true", "yes", "[]", "{}", "[[1, 2], [3]]", "{a: {b: 1}}", "\"", "'", "&a", "*a", "!!int x", "|", ">", "<", "- -", ": :", "#", "%", "\t", "@",
        "2025-02-30", "2025-03-09T02:30", "0000-00-00", "9999-12-31T23:59", "24:00", "25:00", "00:00-00:00", "Europe/Nowhere", "America/New_York", "110 %", "-5 %", "𝟙", "١٢", "\u202e", "\u0000", "é",
        "../../../etc/passwd", "/dev/null", "/dev/zero", ".", "nul", "http://localhost/x", new string('9', 400), new string('x', 20_000),
    ];

    /// <summary>One to three spoilings, one after another.</summary>
    public static Gen<byte[]> Of(byte[] whole) => One.Array[1, 3].Select(steps => steps.Aggregate(whole, (bytes, step) => step(bytes)));

    private static Gen<Func<byte[], byte[]>> One => Gen.Frequency<Func<byte[], byte[]>>((2, Bytes), (5, Lines), (8, Values));

    private static Gen<Func<byte[], byte[]>> Bytes { get; } = Gen.Select(Gen.Int[0, 4], Gen.Double[0, 1], Gen.Double[0, 1], Gen.Byte).Select((kind, at, length, value) => (Func<byte[], byte[]>)(b =>
    {
        if (b.Length == 0) return [value];
        int from = (int)(at * (b.Length - 1)), count = Math.Min(b.Length - from, 1 + (int)(length * length * length * b.Length));
        return kind switch
        {
            0 => [.. b[..from], value, .. b[(from + 1)..]],
            1 => b[..from],
            2 => [.. b[..from], .. b[(from + count)..]],
            3 => [.. b[..from], .. b[from..(from + count)], .. b[from..]],
            _ => [.. b[..from], 0xFF, 0xFE, 0xC3, .. b[from..]],
        };
    }));

    private static Gen<Func<byte[], byte[]>> Lines { get; } = Gen.Select(Gen.Int[0, 5], Gen.Double[0, 1], Gen.Double[0, 1]).Select((kind, at, other) => (Func<byte[], byte[]>)(b =>
    {
        List<string> lines = [.. Encoding.UTF8.GetString(b).Split('\n')];
        int a = (int)(at * (lines.Count - 1)), o = (int)(other * (lines.Count - 1));
        switch (kind)
        {
            case 0: lines.RemoveAt(a); break;
            case 1: lines.Insert(a, lines[o]); break;
            case 2: (lines[a], lines[o]) = (lines[o], lines[a]); break;
            case 3: lines[a] = "  " + lines[a]; break;
            case 4: lines[a] = lines[a].TrimStart(); break;
            default: lines.RemoveRange(a, Math.Min(o, lines.Count - a)); break;
        }
        return Encoding.UTF8.GetBytes(string.Join('\n', lines));
    }));

    private static Gen<Func<byte[], byte[]>> Values { get; } = Gen.Select(Gen.Int[0, s_values.Length - 1].Select(i => s_values[i]), Gen.Double[0, 1], Gen.Double[0, 1], Gen.Int[0, 3]).Select((value, at, other, kind) => (Func<byte[], byte[]>)(b =>
    {
        string text = Encoding.UTF8.GetString(b);
        List<(int From, int To)> words = [.. Words(text)];
        if (words.Count == 0) return Encoding.UTF8.GetBytes(value);
        (int From, int To) word = words[(int)(at * (words.Count - 1))], donor = words[(int)(other * (words.Count - 1))];
        string put = kind switch { 0 => text[donor.From..donor.To], 1 => "-" + text[word.From..word.To], _ => value };
        return Encoding.UTF8.GetBytes(text[..word.From] + put + text[word.To..]);
    }));

    /// <summary>The runs of characters between separators.</summary>
    private static IEnumerable<(int From, int To)> Words(string text)
    {
        int from = -1;
        for (int i = 0; i <= text.Length; i++)
        {
            bool inside = i < text.Length && !" \n\r\t,;:{}[]<>\"'=".Contains(text[i], StringComparison.Ordinal);
            if (inside && from < 0) from = i;
            if (inside || from < 0) continue;
            yield return (from, i);
            from = -1;
        }
    }
}
