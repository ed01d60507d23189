namespace EnergySim.Reports.Drawing;

/// <summary>Margins and lettering for a size of picture.</summary>
internal sealed record Sheet
{
    // Below this the picture is a phone's, held at half an arm's length.
    private const int NarrowPx = 560;

    public Sheet(ChartSize size)
    {
        IsNarrow = size.WidthPx < NarrowPx;
        double scale = IsNarrow ? 1 : Math.Clamp(Math.Min(size.WidthPx / 1000.0, size.HeightPx / 600.0), 0.85, 3);
        MarginPx = IsNarrow ? 14 : 28 * scale;
        Title = new Lettering(IsNarrow ? 19 : 25 * scale, true, Palette.Ink);
        Name = new Lettering(IsNarrow ? 13.5 : 15.5 * scale, false, Palette.Ink);
        Amount = Name with { IsBold = true };
        Lead = Name with { Colour = Palette.QuietInk };
        Scale = new Lettering(IsNarrow ? 12 : 13.5 * scale, false, Palette.QuietInk);
        Date = Scale with { Colour = Palette.Ink };
        BillAmount = new Lettering(IsNarrow ? 11 : 11.5 * scale, false, Palette.Ink);
        Footer = new Lettering(IsNarrow ? 11 : 12 * scale, false, Palette.QuietInk);
    }

    public bool IsNarrow { get; }

    public double MarginPx { get; }

    public Lettering Title { get; }

    public Lettering Lead { get; }

    public Lettering Name { get; }

    public Lettering Amount { get; }

    public Lettering Scale { get; }

    public Lettering Date { get; }

    public Lettering BillAmount { get; }

    public Lettering Footer { get; }
}
