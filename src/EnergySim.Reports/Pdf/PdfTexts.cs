using EnergySim.Reports.Drawing;

namespace EnergySim.Reports.Pdf;

/// <summary>Breaks text into lines that fit.</summary>
internal static class PdfTexts
{
    // The PDF library sets letters without kerning, which may be wider than our measure by so much.
    private const double Spare = 1.015;

    /// <summary>As many lines as it takes; a word wider than the line is cut into pieces.</summary>
    public static IReadOnlyList<string> Lines(string text, Lettering lettering, double widthPt)
    {
        var lines = new List<string>();
        string line = "";
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(w => Pieces(w, lettering, widthPt)))
        {
            string longer = line.Length == 0 ? word : line + " " + word;
            if (line.Length > 0 && !Fits(longer, lettering, widthPt))
            {
                lines.Add(line);
                longer = word;
            }
            line = longer;
        }
        if (line.Length > 0 || lines.Count == 0) lines.Add(line);
        return lines;
    }

    public static double LineHeight(Lettering lettering) => 1.32 * lettering.SizePx;

    private static bool Fits(string text, Lettering lettering, double widthPt) => lettering.WidthPx(text) * Spare <= widthPt;

    private static IEnumerable<string> Pieces(string word, Lettering lettering, double widthPt)
    {
        while (!Fits(word, lettering, widthPt) && word.Length > 1)
        {
            int fits = word.Length - 1;
            while (fits > 1 && !Fits(word[..fits], lettering, widthPt)) fits--;
            if (char.IsHighSurrogate(word[fits - 1])) fits++;
            yield return word[..fits];
            word = word[fits..];
        }
        yield return word;
    }
}
