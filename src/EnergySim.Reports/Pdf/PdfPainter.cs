using EnergySim.Reports.Drawing;
using PdfSharp.Drawing;

namespace EnergySim.Reports.Pdf;

/// <summary>Paints a picture into a page as lines, areas and text that stays text.</summary>
internal sealed class PdfPainter(XGraphics graphics) : IPainter
{
    private readonly Dictionary<Lettering, XFont> _fonts = [];

    public void Area(AreaMark mark) => graphics.DrawRectangle(BrushOf(mark.Colour), RectOf(mark.Box));

    public void Line(LineMark mark) => graphics.DrawLine(new XPen(ColourOf(mark.Colour), mark.WidthPx), mark.Left, mark.Y, mark.Right, mark.Y);

    public void Curve(CurveMark mark)
    {
        if (mark.Points.Count < 2) return;
        var pen = new XPen(ColourOf(mark.Colour), mark.WidthPx) { LineJoin = XLineJoin.Round, LineCap = XLineCap.Round };
        // Dashes are counted in widths of the line.
        if (mark.IsDashed) pen.DashPattern = [2.5, 2.5];
        graphics.DrawLines(pen, PointsOf(mark.Points));
    }

    public void Bar(Box box, BarStyle style)
    {
        Area(new AreaMark(box, style.Fill));
        Hatched(box, style, () => graphics.IntersectClip(RectOf(box)));
        if (box.Width < 3 * Picture.EdgePx || box.Height < 2 * Picture.EdgePx) return;
        graphics.DrawRectangle(new XPen(ColourOf(style.Edge), Picture.EdgePx), RectOf(box.Inset(Picture.EdgePx / 2)));
    }

    public void Shape(ShapeMark mark)
    {
        if (mark.Points.Count < 3) return;
        XPoint[] points = PointsOf(mark.Points);
        graphics.DrawPolygon(BrushOf(mark.Style.Fill), points, XFillMode.Winding);
        var around = new Box(mark.Points.Min(p => p.X), mark.Points.Min(p => p.Y), mark.Points.Max(p => p.X), mark.Points.Max(p => p.Y));
        Hatched(around, mark.Style, () =>
        {
            var path = new XGraphicsPath { FillMode = XFillMode.Winding };
            path.AddPolygon(points);
            graphics.IntersectClip(path);
        });
    }

    public void Text(TextMark mark)
    {
        if (mark.Text.Length == 0) return;
        if (!_fonts.TryGetValue(mark.Lettering, out XFont? font)) _fonts.Add(mark.Lettering, font = PdfFonts.Of(mark.Lettering));
        XStringFormat format = new()
        {
            LineAlignment = XLineAlignment.BaseLine,
            Alignment = mark.Align switch { Align.Start => XStringAlignment.Near, Align.Middle => XStringAlignment.Center, _ => XStringAlignment.Far },
        };
        graphics.DrawString(mark.Text, font, BrushOf(mark.Lettering.Colour), new XPoint(mark.AnchorX, mark.BaselineY), format);
    }

    // The strokes of every tile that the box touches, clipped. One by one: the library joins the lines of a path.
    private void Hatched(Box box, BarStyle style, Action clip)
    {
        if (HatchTile.Of(style.Hatch) is not HatchTile tile || box.Width <= 0 || box.Height <= 0) return;
        XGraphicsState state = graphics.Save();
        clip();
        var pen = new XPen(ColourOf(style.HatchColour), tile.StrokePx) { LineCap = XLineCap.Round };
        double side = tile.SidePx;
        for (double x = Math.Floor(box.Left / side) * side; x < box.Right; x += side)
        {
            for (double y = Math.Floor(box.Top / side) * side; y < box.Bottom; y += side)
            {
                foreach ((double x1, double y1, double x2, double y2) in tile.Strokes)
                {
                    // A stroke without length is a dot; readers leave out those of no length at all.
                    graphics.DrawLine(pen, x + x1, y + y1, x + x2 + (x1 == x2 && y1 == y2 ? 0.01 : 0), y + y2);
                }
            }
        }
        graphics.Restore(state);
    }

    private static XPoint[] PointsOf(IReadOnlyList<(double X, double Y)> points) => [.. points.Select(p => new XPoint(p.X, p.Y))];

    private static XRect RectOf(Box box) => new(box.Left, box.Top, Math.Max(0, box.Width), Math.Max(0, box.Height));

    private static XSolidBrush BrushOf(Colour colour) => new(ColourOf(colour));

    private static XColor ColourOf(Colour colour) => XColor.FromArgb(colour.Red, colour.Green, colour.Blue);
}
