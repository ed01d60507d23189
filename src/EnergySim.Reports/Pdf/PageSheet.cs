using EnergySim.Reports.Drawing;

namespace EnergySim.Reports.Pdf;

/// <summary>Size, margins and lettering of a printed page, points.</summary>
internal sealed record PageSheet(double WidthPt, double HeightPt)
{
    public const double MarginPt = 46, GapPt = 9;

    public static double LeftPt => MarginPt;

    public double RightPt => WidthPt - MarginPt;

    public double TextPt => WidthPt - (2 * MarginPt);

    /// <summary>Lower edge of what a page holds; below it stands the foot.</summary>
    public double BottomPt => HeightPt - MarginPt + 6;

    public static Lettering Title { get; } = new(22, true, Palette.Ink);

    public static Lettering Subtitle { get; } = new(9.5, false, Palette.QuietInk);

    public static Lettering PageTitle { get; } = new(15, true, Palette.Ink);

    public static Lettering Heading { get; } = new(11, true, Palette.Ink);

    public static Lettering Lead { get; } = new(13, false, Palette.Ink);

    public static Lettering Plain { get; } = new(10, false, Palette.Ink);

    public static Lettering Bold { get; } = new(10, true, Palette.Ink);

    public static Lettering Small { get; } = new(8, false, Palette.QuietInk);

    public static Lettering Figure { get; } = new(25, true, Palette.Ink);
}
