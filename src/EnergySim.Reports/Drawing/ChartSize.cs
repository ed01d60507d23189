namespace EnergySim.Reports.Drawing;

/// <summary>
/// Size of a picture in the pixels of a page (CSS pixels, 96 an inch). A PNG has twice as many each way, for sharp screens and print.
/// </summary>
public sealed record ChartSize
{
    /// <param name="widthPx">Width, 280–4,000.</param>
    /// <param name="heightPx">Height, 400–3,000.</param>
    /// <exception cref="ArgumentOutOfRangeException">A side is out of its range.</exception>
    public ChartSize(int widthPx, int heightPx)
    {
        if (widthPx is < 280 or > 4000) throw new ArgumentOutOfRangeException(nameof(widthPx), widthPx, "A chart is 280–4,000 pixels wide.");
        if (heightPx is < 400 or > 3000) throw new ArgumentOutOfRangeException(nameof(heightPx), heightPx, "A chart is 400–3,000 pixels high.");
        WidthPx = widthPx;
        HeightPx = heightPx;
    }

    private ChartSize()
    {
    }

    /// <summary>A laptop's screen or a slide, 1200 × 675.</summary>
    public static ChartSize Laptop { get; } = new(1200, 675);

    /// <summary>A phone held upright, 420 × 560.</summary>
    public static ChartSize Phone { get; } = new(420, 560);

    /// <summary>The width of a printed page's text, 720 × 450: letters come out at 8–10 points.</summary>
    public static ChartSize Page { get; } = new(720, 450);

    /// <summary>Width, px.</summary>
    public int WidthPx { get; private init; }

    /// <summary>Height, px.</summary>
    public int HeightPx { get; private init; }

    /// <summary>True for a part of a page that says itself what would be said at a picture's foot.</summary>
    internal bool IsPart { get; private init; }

    /// <summary>A part of a page: it may be lower than a picture of its own, and has no foot.</summary>
    internal static ChartSize Part(double widthPx, double heightPx) => new() { WidthPx = (int)widthPx, HeightPx = (int)heightPx, IsPart = true };
}
