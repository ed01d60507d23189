using EnergySim.Reports.Drawing;
using EnergySim.Reports.Fonts;
using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace EnergySim.Reports.Pdf;

/// <summary>Gives the PDF library the bundled font. Fonts of the machine are never asked.</summary>
internal sealed class PdfFonts : IFontResolver
{
    private const string Family = "EnergySim Sans", Regular = "regular", Bold = "bold";

    // The library holds one resolver for the whole process; a host that has set its own is asked for ours and must know it.
    static PdfFonts() => GlobalFontSettings.FontResolver ??= new PdfFonts();

    private PdfFonts()
    {
    }

    /// <summary>The font of a lettering, at its size in the units of the page.</summary>
    public static XFont Of(Lettering lettering) =>
        new(Family, lettering.SizePx, lettering.IsBold ? XFontStyleEx.Bold : XFontStyleEx.Regular, new XPdfFontOptions(PdfFontEncoding.Unicode));

    public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) => new(isBold ? Bold : Regular);

    public byte[]? GetFont(string faceName) => (faceName == Bold ? BundledFont.Bold : BundledFont.Regular).File;
}
