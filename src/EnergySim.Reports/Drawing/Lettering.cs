using System.Globalization;
using System.Text;
using System.Xml;
using EnergySim.Reports.Fonts;

namespace EnergySim.Reports.Drawing;

/// <summary>Size, weight and colour of text.</summary>
internal sealed record Lettering(double SizePx, bool IsBold, Colour Colour)
{
    private const string Ellipsis = "…";

    public BundledFont Font => IsBold ? BundledFont.Bold : BundledFont.Regular;

    public double AscentPx => BundledFont.AscentEm * SizePx;

    public double HeightPx => (BundledFont.AscentEm + BundledFont.DescentEm) * SizePx;

    public double WidthPx(string text) => Font.WidthPx(text, SizePx);

    /// <summary>Text from outside on one line: runs of white space become one space, and what a document can not hold is left out.</summary>
    public static string Clean(string text)
    {
        var clean = new StringBuilder(text.Length);
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (Rune.IsWhiteSpace(rune)) { if (clean.Length > 0 && clean[^1] != ' ') clean.Append(' '); }
            else if (!Rune.IsControl(rune) && rune != Rune.ReplacementChar && (rune.Value > 0xffff || XmlConvert.IsXmlChar((char)rune.Value))) clean.Append(rune);
        }
        return clean.ToString().TrimEnd();
    }

    /// <summary>The text, or as much of its beginning as fits with an ellipsis behind it.</summary>
    public string Shorten(string text, double widthPx)
    {
        if (WidthPx(text) <= widthPx) return text;
        int[] starts = StringInfo.ParseCombiningCharacters(text);
        int low = 0, high = starts.Length - 1;
        while (low < high)
        {
            int middle = (low + high + 1) / 2;
            if (WidthPx(Cut(middle)) <= widthPx) low = middle;
            else high = middle - 1;
        }
        return Cut(low);

        string Cut(int elements) => text[..starts[elements]].TrimEnd() + Ellipsis;
    }

    /// <summary>The pieces put on as few lines as they fit on, in order; what does not fit on the last line is shortened.</summary>
    /// <param name="pieces">Words, or phrases that should not be broken.</param>
    /// <param name="joint">What stands between two pieces of a line.</param>
    /// <param name="widthPx">Width of a line.</param>
    /// <param name="mostLines">Lines there are.</param>
    public IReadOnlyList<string> Wrap(IReadOnlyList<string> pieces, string joint, double widthPx, int mostLines)
    {
        var lines = new List<string>();
        foreach (string piece in pieces)
        {
            string longer = lines.Count == 0 ? piece : lines[^1] + joint + piece;
            bool fits = lines.Count > 0 && WidthPx(longer) <= widthPx;
            if (lines.Count == 0 || (!fits && lines.Count < mostLines)) lines.Add(piece);
            else lines[^1] = longer;
        }
        return [.. lines.Select(line => Shorten(line, widthPx))];
    }
}
