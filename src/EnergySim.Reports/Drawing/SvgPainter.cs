using System.Globalization;
using System.Text;
using System.Xml;
using EnergySim.Reports.Fonts;

namespace EnergySim.Reports.Drawing;

/// <summary>Writes an SVG document.</summary>
internal sealed class SvgPainter : IPainter
{
    private const string Namespace = "http://www.w3.org/2000/svg";
    private const string Family = "EnergySim Chart Sans";

    // The family names of the fallback are of fonts as wide as ours, then any.
    private const string Families = $"'{Family}', 'Liberation Sans', Arial, Helvetica, sans-serif";
    private const string Alone = "chart";

    private readonly XmlWriter _xml;
    private readonly string _prefix;

    private SvgPainter(XmlWriter xml, string prefix) => (_xml, _prefix) = (xml, prefix);

    /// <summary>What a page of pictures needs in its style, once.</summary>
    public static string FontFaces => FontFace(BundledFont.Regular, "normal") + FontFace(BundledFont.Bold, "bold");

    /// <summary>The families of letters, ours first.</summary>
    public static string FontFamilies => Families;

    private string TitleId => _prefix + "-title";

    private string DescriptionId => _prefix + "-description";

    /// <summary>A picture as a document of its own.</summary>
    public static string Document(Picture picture) => Told(painter => painter.Write(picture, isAlone: true), Alone);

    /// <summary>A picture as a part of a page that has <see cref="FontFaces"/>: its names begin with a prefix, so that several stand beside each other.</summary>
    public static string Part(Picture picture, string prefix) => Told(painter => painter.Write(picture, isAlone: false), prefix);

    private static string Told(Action<SvgPainter> write, string prefix)
    {
        var text = new StringBuilder();
        var settings = new XmlWriterSettings { OmitXmlDeclaration = true, Indent = true, IndentChars = " ", NewLineChars = "\n" };
        using (var xml = XmlWriter.Create(text, settings)) write(new SvgPainter(xml, prefix));
        return text.Append('\n').ToString();
    }

    public void Area(AreaMark mark)
    {
        Open("rect");
        Rectangle(mark.Box);
        Attribute("fill", mark.Colour.Hex);
        _xml.WriteEndElement();
    }

    public void Line(LineMark mark)
    {
        Open("line");
        Attribute("x1", mark.Left);
        Attribute("x2", mark.Right);
        Attribute("y1", mark.Y);
        Attribute("y2", mark.Y);
        Attribute("stroke", mark.Colour.Hex);
        Attribute("stroke-width", mark.WidthPx);
        _xml.WriteEndElement();
    }

    public void Curve(CurveMark mark)
    {
        Open("polyline");
        Attribute("points", Points(mark.Points));
        Attribute("fill", "none");
        Attribute("stroke", mark.Colour.Hex);
        Attribute("stroke-width", mark.WidthPx);
        Attribute("stroke-linejoin", "round");
        Attribute("stroke-linecap", "round");
        if (mark.IsDashed) Attribute("stroke-dasharray", string.Create(CultureInfo.InvariantCulture, $"{2.5 * mark.WidthPx:0.##} {2.5 * mark.WidthPx:0.##}"));
        _xml.WriteEndElement();
    }

    public void Bar(Box box, BarStyle style)
    {
        Area(new AreaMark(box, style.Fill));
        if (style.Hatch != Hatch.None)
        {
            Open("rect");
            Rectangle(box);
            Attribute("fill", $"url(#{PatternId(style)})");
            _xml.WriteEndElement();
        }
        if (box.Width < 3 * Picture.EdgePx || box.Height < 2 * Picture.EdgePx) return;
        Open("rect");
        Rectangle(box.Inset(Picture.EdgePx / 2));
        Attribute("fill", "none");
        Attribute("stroke", style.Edge.Hex);
        Attribute("stroke-width", Picture.EdgePx);
        _xml.WriteEndElement();
    }

    public void Shape(ShapeMark mark)
    {
        foreach (string fill in mark.Style.Hatch == Hatch.None ? (string[])[mark.Style.Fill.Hex] : [mark.Style.Fill.Hex, $"url(#{PatternId(mark.Style)})"])
        {
            Open("polygon");
            Attribute("points", Points(mark.Points));
            Attribute("fill", fill);
            _xml.WriteEndElement();
        }
    }

    public void Text(TextMark mark)
    {
        Open("text");
        Attribute("x", mark.AnchorX);
        Attribute("y", mark.BaselineY);
        Attribute("font-size", mark.Lettering.SizePx);
        if (mark.Lettering.IsBold) Attribute("font-weight", "bold");
        if (mark.Align != Align.Start) Attribute("text-anchor", mark.Align == Align.Middle ? "middle" : "end");
        Attribute("fill", mark.Lettering.Colour.Hex);
        _xml.WriteString(mark.Text);
        _xml.WriteEndElement();
    }

    private void Write(Picture picture, bool isAlone)
    {
        Open("svg");
        Attribute("width", picture.Size.WidthPx);
        Attribute("height", picture.Size.HeightPx);
        Attribute("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {picture.Size.WidthPx} {picture.Size.HeightPx}"));
        Attribute("role", "img");
        Attribute("aria-labelledby", $"{TitleId} {DescriptionId}");
        Attribute("font-family", Families);
        // Otherwise some viewers round each letter's width to pixels and lines grow by a few per cent.
        Attribute("text-rendering", "geometricPrecision");
        Worded("title", TitleId, picture.Title);
        Worded("desc", DescriptionId, picture.Description);
        if (isAlone)
        {
            _xml.WriteComment(" Embedded letters: part of a font under the SIL Open Font License 1.1; its notice is inside the font. ");
            Open("style");
            _xml.WriteString(FontFaces);
            _xml.WriteEndElement();
        }
        Open("defs");
        foreach (BarStyle style in picture.Styles) Pattern(style);
        _xml.WriteEndElement();
        picture.Paint(this);
        _xml.WriteEndElement();
    }

    private static string FontFace(BundledFont font, string weight) =>
        $"\n@font-face {{ font-family: '{Family}'; font-weight: {weight}; src: url(data:font/woff2;base64,{font.EmbeddableBase64}) format('woff2'); }}\n";

    private void Pattern(BarStyle style)
    {
        if (HatchTile.Of(style.Hatch) is not HatchTile tile) return;
        Open("pattern");
        Attribute("id", PatternId(style));
        Attribute("width", tile.SidePx);
        Attribute("height", tile.SidePx);
        Attribute("patternUnits", "userSpaceOnUse");
        Attribute("stroke", style.HatchColour.Hex);
        Attribute("stroke-width", tile.StrokePx);
        Attribute("stroke-linecap", "round");
        foreach ((double x1, double y1, double x2, double y2) in tile.Strokes)
        {
            Open("path");
            Attribute("d", string.Create(CultureInfo.InvariantCulture, $"M{x1} {y1}L{x2} {y2}"));
            _xml.WriteEndElement();
        }
        _xml.WriteEndElement();
    }

    // Two styles may share a hatch in colours of their own.
    private string PatternId(BarStyle style) => (_prefix == Alone ? "" : _prefix + "-") + $"hatch-{style.Hatch switch
    {
        Hatch.RisingLines => "rising",
        Hatch.FallingLines => "falling",
        Hatch.Dots => "dots",
        Hatch.UprightLines => "upright",
        _ => "level",
    }}-{style.HatchColour.Hex[1..]}";

    private static string Points(IReadOnlyList<(double X, double Y)> points) =>
        string.Join(' ', points.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.X:0.##},{p.Y:0.##}")));

    private void Worded(string element, string id, string words)
    {
        Open(element);
        Attribute("id", id);
        _xml.WriteString(words);
        _xml.WriteEndElement();
    }

    private void Open(string element) => _xml.WriteStartElement(element, Namespace);

    private void Rectangle(Box box)
    {
        Attribute("x", box.Left);
        Attribute("y", box.Top);
        Attribute("width", box.Width);
        Attribute("height", box.Height);
    }

    private void Attribute(string name, double px) => Attribute(name, px.ToString("0.###", CultureInfo.InvariantCulture));

    private void Attribute(string name, string value) => _xml.WriteAttributeString(name, value);
}
