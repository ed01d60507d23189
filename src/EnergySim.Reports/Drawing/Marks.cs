namespace EnergySim.Reports.Drawing;

/// <summary>Where text stands from its anchor.</summary>
internal enum Align
{
    Start,
    Middle,
    End,
}

/// <summary>What a text is for.</summary>
internal enum TextRole
{
    Title,
    Lead,
    ColumnName,
    ColumnAmount,
    ScaleTitle,
    Tick,
    BillDate,
    BillAmount,
    Footer,
}

/// <summary>One line of text.</summary>
internal sealed record TextMark
{
    public TextMark(TextRole role, string text, Lettering lettering, double anchorX, double topY, Align align = Align.Start)
    {
        (Role, Text, Lettering, AnchorX, Align) = (role, text, lettering, anchorX, align);
        double width = lettering.WidthPx(text);
        double left = align switch { Align.Start => anchorX, Align.Middle => anchorX - (width / 2), _ => anchorX - width };
        Box = new Box(left, topY, left + width, topY + lettering.HeightPx);
    }

    public TextRole Role { get; }

    public string Text { get; }

    public Lettering Lettering { get; }

    public double AnchorX { get; }

    public Align Align { get; }

    public Box Box { get; }

    public double BaselineY => Box.Top + Lettering.AscentPx;
}

/// <summary>A plain area.</summary>
internal sealed record AreaMark(Box Box, Colour Colour);

/// <summary>A level line.</summary>
internal sealed record LineMark(double Left, double Right, double Y, double WidthPx, Colour Colour);

/// <summary>A line through points, with round joints.</summary>
internal sealed record CurveMark(IReadOnlyList<(double X, double Y)> Points, double WidthPx, Colour Colour, bool IsDashed = false);

/// <summary>A filled and hatched area inside a line through points.</summary>
internal sealed record ShapeMark(IReadOnlyList<(double X, double Y)> Points, BarStyle Style);

/// <summary>A bar: one bill of one column.</summary>
internal sealed record BarMark(int Column, int Bill, Box Box, BarStyle Style);

/// <summary>The sample of a column's style beside its name.</summary>
internal sealed record SampleMark(int Column, Box Box, BarStyle Style);
