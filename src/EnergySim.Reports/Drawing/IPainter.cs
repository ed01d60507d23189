namespace EnergySim.Reports.Drawing;

/// <summary>Puts marks on a ground, in the order in which they are given.</summary>
internal interface IPainter
{
    void Area(AreaMark mark);

    void Line(LineMark mark);

    void Curve(CurveMark mark);

    /// <summary>A filled, edged and hatched rectangle.</summary>
    void Bar(Box box, BarStyle style);

    /// <summary>A filled and hatched area.</summary>
    void Shape(ShapeMark mark);

    void Text(TextMark mark);
}
