using System.Globalization;
using EnergySim.Studies.WiringFit;

namespace EnergySim.Files;

/// <summary>Prints the set-point sheet: a block a set-point, with room to write down what was read.</summary>
public static class SheetText
{
    /// <summary>Prints a sheet.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="sheet">The sheet.</param>
    public static void Write(TextWriter output, SetPointSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(sheet);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Set-point sheet · {sheet.Home} · {sheet.Offer} · {sheet.Way} · {sheet.Volts:0.##} V"));
        output.WriteLine($"{char.ToUpperInvariant(sheet.Why[0])}{sheet.Why[1..]}.");
        foreach (string caution in sheet.Cautions) output.WriteLine($"! {caution}");
        foreach (SheetLine line in sheet.Lines)
        {
            output.WriteLine();
            output.WriteLine($"[ ] {line.Name}: {Setting(line)}");
            foreach (string part in Wrapped($"test: {line.Test}", 108)) output.WriteLine($"    {part}");
            output.WriteLine("    read: ____________   at: ____________   by: ____________");
        }
    }

    private static string Setting(SheetLine line)
    {
        string[] parts =
        [
            line.Amps is double amps ? double.IsPositiveInfinity(amps) ? "no limit" : string.Create(CultureInfo.InvariantCulture, $"{amps:0.#} A") : "",
            line.Kw is double kw && !double.IsPositiveInfinity(kw) ? string.Create(CultureInfo.InvariantCulture, $"{kw:0.##} kW") : "",
            line.Setting ?? "",
        ];
        return string.Join(" · ", parts.Where(p => p.Length > 0));
    }

    private static IEnumerable<string> Wrapped(string text, int width)
    {
        string line = "";
        foreach (string word in text.Split(' '))
        {
            if (line.Length > 0 && line.Length + 1 + word.Length > width)
            {
                yield return line;
                line = "";
            }
            line += (line.Length > 0 ? " " : "") + word;
        }
        yield return line;
    }
}
