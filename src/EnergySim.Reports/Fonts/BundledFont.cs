using System.Diagnostics.CodeAnalysis;
using SkiaSharp;
using SkiaSharp.HarfBuzz;

namespace EnergySim.Reports.Fonts;

/// <summary>
/// One weight of the font inside this assembly. Fonts of the machine are never asked, so that text looks and measures alike everywhere.
/// </summary>
[SuppressMessage("Design", "CA1001", Justification = "Each weight lives as long as the process.")]
internal sealed class BundledFont
{
    /// <summary>Height of the letters above the base line and depth below it, in font sizes: the font's own 1854 and 434 of 2048.</summary>
    public const double AscentEm = 1854.0 / 2048, DescentEm = 434.0 / 2048;

    private readonly SKShaper _shaper;
    private readonly string _file;
    private readonly string _embeddedFile;

    private BundledFont(string weight)
    {
        _embeddedFile = $"ChartSans-{weight}.woff2";
        _file = $"LiberationSans-{weight}.ttf";
        using Stream stream = Open(_file);
        Typeface = SKTypeface.FromStream(stream) ?? throw new InvalidOperationException($"The bundled font of weight {weight} can not be read.");
        _shaper = new SKShaper(Typeface);
    }

    /// <summary>The regular weight.</summary>
    public static BundledFont Regular { get; } = new("Regular");

    /// <summary>The bold weight.</summary>
    public static BundledFont Bold { get; } = new("Bold");

    /// <summary>The font as the raster painter takes it.</summary>
    public SKTypeface Typeface { get; }

    /// <summary>The Latin part of the font as a WOFF2 file in base64, to be put into a document.</summary>
    public string EmbeddableBase64 => Convert.ToBase64String(Bytes(_embeddedFile));

    /// <summary>The whole font file.</summary>
    public byte[] File => Bytes(_file);

    /// <summary>Width of a line of text with its kerning, px.</summary>
    public double WidthPx(string text, double sizePx)
    {
        using SKFont font = OfSize(sizePx);
        return _shaper.Shape(text, font).Width;
    }

    /// <summary>Draws a line of text from its left end on its base line.</summary>
    public void Draw(SKCanvas canvas, string text, SKPoint at, double sizePx, SKPaint paint)
    {
        using SKFont font = OfSize(sizePx);
        canvas.DrawShapedText(_shaper, text, at.X, at.Y, SKTextAlign.Left, font, paint);
    }

    // Hinting would fit letters to the pixels of one size and make widths depend on it.
    private SKFont OfSize(double sizePx) =>
        new(Typeface, (float)sizePx) { Subpixel = true, LinearMetrics = true, Hinting = SKFontHinting.None, Edging = SKFontEdging.Antialias };

    private static byte[] Bytes(string file)
    {
        using Stream stream = Open(file);
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }

    private static Stream Open(string file) =>
        typeof(BundledFont).Assembly.GetManifestResourceStream($"Fonts/{file}")
            ?? throw new InvalidOperationException($"{file} is not in this assembly.");
}
