
namespace EnergySim.Reports.Drawing;

/// <summary>What stands around a field of curves or cells.</summary>
internal sealed record PlotWords
{
    public required string Title { get; init; }

    /// <summary>What the picture shows, in a line or two.</summary>
    public required string Lead { get; init; }

    /// <summary>Names beside samples of their style.</summary>
    public IReadOnlyList<LegendLine> Legend { get; init; } = [];

    /// <summary>What the vertical scale is; empty = there is none.</summary>
    public required string Up { get; init; }

    /// <summary>What the horizontal scale is; empty = there is none.</summary>
    public required string Along { get; init; }

    /// <summary>Small print, a sentence each.</summary>
    public required IReadOnlyList<string> Footer { get; init; }
}

/// <summary>A name beside a sample of its curve, or of its area.</summary>
internal sealed record LegendLine(string Name, BarStyle Style, bool IsDashed = false, bool IsArea = false);

/// <summary>Lays title, legend, scales and small print around a field, and collects what is drawn in it.</summary>
internal sealed class PlotFrame
{
    private readonly ChartSize _size;
    private readonly PlotWords _words;
    private readonly int _alongLines;
    private readonly List<AreaMark> _areas = [];
    private readonly List<LineMark> _guides = [];
    private readonly List<CurveMark> _curves = [];
    private readonly List<ShapeMark> _shapes = [];
    private readonly List<BarMark> _bars = [];
    private readonly List<SampleMark> _samples = [];
    private readonly List<TextMark> _texts = [];

    /// <param name="size">Size of the picture.</param>
    /// <param name="words">Its words.</param>
    /// <param name="upLabels">Labels of the vertical scale, for their width.</param>
    /// <param name="alongLines">Lines that the labels of the horizontal scale take.</param>
    /// <param name="rowsBelow">Height kept free between field and horizontal scale, px.</param>
    public PlotFrame(ChartSize size, PlotWords words, IReadOnlyList<string> upLabels, int alongLines = 1, double rowsBelow = 0)
    {
        (_size, _words, _alongLines) = (size, words, alongLines);
        Sheet = new Sheet(size);
        double margin = Sheet.MarginPx, right = size.WidthPx - margin;
        double top = margin * 0.8;
        foreach (string line in Sheet.Title.Wrap(words.Title.Split(' '), " ", right - margin, 2))
        {
            Text(TextRole.Title, line, Sheet.Title, margin, top);
            top = _texts[^1].Box.Bottom;
        }
        top += 0.2 * Sheet.Name.SizePx;
        foreach (string line in Sheet.Lead.Wrap(words.Lead.Split(' '), " ", right - margin, Sheet.IsNarrow ? 3 : 2))
        {
            Text(TextRole.Lead, line, Sheet.Lead, margin, top);
            top = _texts[^1].Box.Bottom;
        }
        top = Legend(top + (0.35 * Sheet.Name.SizePx), right);
        double fieldTop = top + (0.4 * Sheet.Name.SizePx);
        if (words.Up.Length > 0)
        {
            Text(TextRole.ScaleTitle, Sheet.Scale.Shorten(words.Up, right - margin), Sheet.Scale, margin, fieldTop);
            fieldTop = _texts[^1].Box.Bottom;
        }
        double gutter = upLabels.Max(Sheet.Scale.WidthPx) + (0.6 * Sheet.Scale.SizePx);
        double bottom = Foot() - (0.6 * Sheet.Footer.SizePx) - (words.Along.Length > 0 ? 1.2 * Sheet.Scale.SizePx : 0);
        if (words.Along.Length > 0) Text(TextRole.ScaleTitle, Sheet.Scale.Shorten(words.Along, right - margin - gutter), Sheet.Scale, right, bottom, Align.End);
        AlongBottom = bottom - (0.2 * Sheet.Scale.SizePx);
        double fieldBottom = AlongBottom - (alongLines * 1.2 * Sheet.Date.SizePx) - (0.35 * Sheet.Date.SizePx) - rowsBelow;
        Field = new Box(margin + gutter, fieldTop + (0.7 * Sheet.Scale.SizePx), right, fieldBottom);
        RowsTop = fieldBottom;
    }

    public Sheet Sheet { get; }

    /// <summary>Where curves and cells are.</summary>
    public Box Field { get; }

    /// <summary>Upper edge of the room kept free below the field.</summary>
    public double RowsTop { get; }

    private double AlongBottom { get; }

    /// <summary>Height of the line of zero; null = the field's lower edge.</summary>
    public double? ZeroY { get; set; }

    public void Area(Box box, Colour colour) => _areas.Add(new AreaMark(box, colour));

    public void Shape(IReadOnlyList<(double X, double Y)> points, BarStyle style) => _shapes.Add(new ShapeMark(points, style));

    public void Bar(BarMark bar) => _bars.Add(bar);

    /// <summary>A curve in an offer's style: its edge's colour around its fill's, so that it is told apart in grey.</summary>
    public void Curve(IReadOnlyList<(double X, double Y)> points, BarStyle style, bool isDashed = false, bool isThin = false)
    {
        double width = (Sheet.IsNarrow ? 3.5 : 0.3 * Sheet.Name.SizePx) * (isThin ? 0.7 : 1);
        if (isDashed)
        {
            _curves.Add(new CurveMark(points, width * 0.5, style.Edge, IsDashed: true));
            return;
        }
        _curves.Add(new CurveMark(points, width, style.Edge));
        _curves.Add(new CurveMark(points, width * 0.5, style.Fill));
    }

    /// <summary>A round point.</summary>
    public void Dot((double X, double Y) at, double diameterPx, Colour fill, Colour edge)
    {
        // A line without length and with round ends is a dot; some painters leave out those of no length at all.
        (double, double)[] points = [at, (at.X + 0.01, at.Y)];
        _curves.Add(new CurveMark(points, diameterPx, edge));
        _curves.Add(new CurveMark(points, diameterPx - 2, fill));
    }

    /// <summary>A thin line from one side of the field to the other with its label on the vertical scale.</summary>
    public void Up(double y, string label, bool withGuide = true)
    {
        if (withGuide) _guides.Add(new LineMark(Field.Left, Field.Right, y, 1, Palette.Guide));
        Text(TextRole.Tick, label, Sheet.Scale, Field.Left - (0.6 * Sheet.Scale.SizePx), y - (0.6 * Sheet.Scale.SizePx), Align.End);
    }

    /// <summary>A label on the horizontal scale, centred as far as the picture's edges let it.</summary>
    public void Along(double x, params IReadOnlyList<string> lines)
    {
        double line = 1.2 * Sheet.Date.SizePx, top = AlongBottom - (_alongLines * line), half = lines.Max(Sheet.Date.WidthPx) / 2, edge = 0.3 * Sheet.MarginPx;
        x = Math.Clamp(x, edge + half, _size.WidthPx - edge - half);
        for (int l = 0; l < lines.Count; l++) Text(TextRole.BillDate, lines[l], Sheet.Date, x, top + (l * line), Align.Middle);
    }

    /// <summary>An upright thin line of any length, over what is drawn.</summary>
    public void Thin(double x, double top, double bottom, Colour colour) => _curves.Add(new CurveMark([(x, top), (x, bottom)], 1, colour));

    /// <summary>An upright thin line through the field.</summary>
    public void Upright(double x) => _areas.Add(new AreaMark(new Box(x - 0.5, Field.Top, x + 0.5, Field.Bottom), Palette.Guide));

    public void Text(TextRole role, string text, Lettering lettering, double x, double top, Align align = Align.Start) =>
        _texts.Add(new TextMark(role, text, lettering, x, top, align));

    /// <param name="description">The figures in words.</param>
    /// <param name="zeroLine">The line that stands out; null = that of zero.</param>
    public Picture Picture(string description, LineMark? zeroLine = null) => new()
    {
        Size = _size,
        Title = _words.Title,
        Description = description,
        Field = Field,
        Bands = _areas,
        Guides = _guides,
        ZeroLine = zeroLine ?? new LineMark(Field.Left, Field.Right, ZeroY ?? Field.Bottom, 1.5, Palette.Ink),
        Shapes = _shapes,
        Bars = _bars,
        Samples = _samples,
        Curves = _curves,
        Texts = _texts,
    };

    private double Legend(double top, double right)
    {
        if (_words.Legend.Count == 0) return top - (0.35 * Sheet.Name.SizePx);
        double em = Sheet.Name.SizePx, x = Sheet.MarginPx, y = top;
        foreach (LegendLine one in _words.Legend)
        {
            string text = Sheet.Name.Shorten(one.Name, right - Sheet.MarginPx - (2.4 * em));
            double width = (2.4 * em) + Sheet.Name.WidthPx(text);
            if (x > Sheet.MarginPx && x + width > right) (x, y) = (Sheet.MarginPx, y + (1.5 * em));
            double middle = y + (0.5 * Sheet.Name.HeightPx);
            if (one.IsArea) _samples.Add(new SampleMark(_samples.Count, new Box(x + (0.5 * em), middle - (0.43 * em), x + (1.8 * em), middle + (0.43 * em)), one.Style));
            else Curve([(x + 2, middle), (x + (1.8 * em), middle)], one.Style, one.IsDashed);
            Text(TextRole.ColumnName, text, Sheet.Name, x + (2.4 * em), y);
            x += width + (1.5 * em);
        }
        return y + Sheet.Name.HeightPx;
    }

    // Lays from the bottom up; gives the top.
    private double Foot()
    {
        double width = _size.WidthPx - (2 * Sheet.MarginPx), line = 1.3 * Sheet.Footer.SizePx;
        string[] lines = _size.IsPart ? [] : [.. _words.Footer.SelectMany(f => Sheet.Footer.Wrap(f.Split(' '), " ", width, Sheet.IsNarrow ? 3 : 2))];
        double top = _size.HeightPx - (0.7 * Sheet.MarginPx) - (line * lines.Length);
        for (int i = 0; i < lines.Length; i++) Text(TextRole.Footer, lines[i], Sheet.Footer, Sheet.MarginPx, top + (i * line));
        return top;
    }
}
