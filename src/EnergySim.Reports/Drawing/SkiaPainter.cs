using SkiaSharp;

namespace EnergySim.Reports.Drawing;

/// <summary>Paints into pixels.</summary>
internal sealed class SkiaPainter(SKCanvas canvas) : IPainter
{
    /// <summary>Writes a picture as PNG.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="scale">Pixels for each of its own.</param>
    /// <param name="output">Where to.</param>
    public static void WritePng(Picture picture, int scale, Stream output)
    {
        var info = new SKImageInfo(picture.Size.WidthPx * scale, picture.Size.HeightPx * scale, SKColorType.Rgba8888, SKAlphaType.Opaque);
        using var surface = SKSurface.Create(info);
        surface.Canvas.Scale(scale);
        picture.Paint(new SkiaPainter(surface.Canvas));
        using SKPixmap pixels = surface.PeekPixels();
        // Each row as its difference from the row above, which in flat pictures is mostly nothing, and so packs at once.
        using SKData png = pixels.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.Up, 1))!;
        png.SaveTo(output);
    }

    public void Area(AreaMark mark)
    {
        using SKPaint paint = Filled(mark.Colour);
        canvas.DrawRect(RectOf(mark.Box), paint);
    }

    public void Line(LineMark mark)
    {
        using SKPaint paint = Stroked(mark.Colour, mark.WidthPx);
        canvas.DrawLine((float)mark.Left, (float)mark.Y, (float)mark.Right, (float)mark.Y, paint);
    }

    public void Curve(CurveMark mark)
    {
        using SKPaint paint = Stroked(mark.Colour, mark.WidthPx);
        paint.StrokeJoin = SKStrokeJoin.Round;
        paint.StrokeCap = SKStrokeCap.Round;
        using SKPathEffect? dashes = mark.IsDashed ? SKPathEffect.CreateDash([(float)(2.5 * mark.WidthPx), (float)(2.5 * mark.WidthPx)], 0) : null;
        paint.PathEffect = dashes;
        using SKPath path = PathOf(mark.Points, close: false);
        canvas.DrawPath(path, paint);
    }

    public void Bar(Box box, BarStyle style)
    {
        Area(new AreaMark(box, style.Fill));
        if (HatchTile.Of(style.Hatch) is HatchTile tile)
        {
            using SKShader shader = ShaderOf(tile, style.HatchColour);
            using var pattern = new SKPaint { Shader = shader, IsAntialias = true };
            canvas.DrawRect(RectOf(box), pattern);
        }
        if (box.Width < 3 * Picture.EdgePx || box.Height < 2 * Picture.EdgePx) return;
        using SKPaint edge = Stroked(style.Edge, Picture.EdgePx);
        canvas.DrawRect(RectOf(box.Inset(Picture.EdgePx / 2)), edge);
    }

    public void Shape(ShapeMark mark)
    {
        using SKPath path = PathOf(mark.Points, close: true);
        using SKPaint fill = Filled(mark.Style.Fill);
        canvas.DrawPath(path, fill);
        if (HatchTile.Of(mark.Style.Hatch) is not HatchTile tile) return;
        using SKShader shader = ShaderOf(tile, mark.Style.HatchColour);
        using var pattern = new SKPaint { Shader = shader, IsAntialias = true };
        canvas.DrawPath(path, pattern);
    }

    public void Text(TextMark mark)
    {
        using SKPaint paint = Filled(mark.Lettering.Colour);
        mark.Lettering.Font.Draw(canvas, mark.Text, new SKPoint((float)mark.Box.Left, (float)mark.BaselineY), mark.Lettering.SizePx, paint);
    }

    private static SKPath PathOf(IReadOnlyList<(double X, double Y)> points, bool close)
    {
        var path = new SKPath();
        path.AddPoly([.. points.Select(p => new SKPoint((float)p.X, (float)p.Y))], close);
        return path;
    }

    private static SKShader ShaderOf(HatchTile tile, Colour colour)
    {
        var side = SKRect.Create((float)tile.SidePx, (float)tile.SidePx);
        using var recorder = new SKPictureRecorder();
        SKCanvas square = recorder.BeginRecording(side);
        using SKPaint stroke = Stroked(colour, tile.StrokePx);
        stroke.StrokeCap = SKStrokeCap.Round;
        foreach ((double x1, double y1, double x2, double y2) in tile.Strokes)
            square.DrawLine((float)x1, (float)y1, (float)x2, (float)y2, stroke);
        using SKPicture recorded = recorder.EndRecording();
        return recorded.ToShader(SKShaderTileMode.Repeat, SKShaderTileMode.Repeat, side);
    }

    private static SKPaint Filled(Colour colour) => new() { Color = ColourOf(colour), IsAntialias = true };

    private static SKPaint Stroked(Colour colour, double widthPx) =>
        new() { Color = ColourOf(colour), IsAntialias = true, Style = SKPaintStyle.Stroke, StrokeWidth = (float)widthPx };

    private static SKColor ColourOf(Colour colour) => new(colour.Red, colour.Green, colour.Blue);

    private static SKRect RectOf(Box box) => new((float)box.Left, (float)box.Top, (float)box.Right, (float)box.Bottom);
}
