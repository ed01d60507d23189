namespace EnergySim.Reports.Drawing;

/// <summary>A picture laid out: everything that is drawn and where. Painters put it on a ground and place nothing themselves.</summary>
internal sealed record Picture
{
    /// <summary>Width of a bar's edge, px.</summary>
    public const double EdgePx = 1;

    public required ChartSize Size { get; init; }

    public required string Title { get; init; }

    /// <summary>The figures in words.</summary>
    public required string Description { get; init; }

    /// <summary>Where the bars or curves stand.</summary>
    public required Box Field { get; init; }

    public required IReadOnlyList<AreaMark> Bands { get; init; }

    public required IReadOnlyList<LineMark> Guides { get; init; }

    public required LineMark ZeroLine { get; init; }

    public IReadOnlyList<ShapeMark> Shapes { get; init; } = [];

    public IReadOnlyList<BarMark> Bars { get; init; } = [];

    public IReadOnlyList<CurveMark> Curves { get; init; } = [];

    public IReadOnlyList<SampleMark> Samples { get; init; } = [];

    public required IReadOnlyList<TextMark> Texts { get; init; }

    /// <summary>Every style in it, each once.</summary>
    public IEnumerable<BarStyle> Styles => Samples.Select(s => s.Style).Concat(Shapes.Select(s => s.Style)).Concat(Bars.Select(b => b.Style)).Distinct();

    public Box Ground => new(0, 0, Size.WidthPx, Size.HeightPx);

    public void Paint(IPainter painter)
    {
        painter.Area(new AreaMark(Ground, Palette.Paper));
        foreach (AreaMark band in Bands) painter.Area(band);
        foreach (LineMark guide in Guides) painter.Line(guide);
        foreach (ShapeMark shape in Shapes) painter.Shape(shape);
        foreach (BarMark bar in Bars) painter.Bar(bar.Box, bar.Style);
        painter.Line(ZeroLine);
        foreach (CurveMark curve in Curves) painter.Curve(curve);
        foreach (SampleMark sample in Samples) painter.Bar(sample.Box, sample.Style);
        foreach (TextMark text in Texts) painter.Text(text);
    }
}
