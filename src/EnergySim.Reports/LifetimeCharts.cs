using System.Text;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Lifetimes;
using EnergySim.Studies.Lifetime;

namespace EnergySim.Reports;

/// <summary>
/// The pictures of years to come: the cash of each offer year by year with the band at its end, and what each cause does to the present value.
/// Both carry the assumptions of the record's <see cref="Disclosure"/>; they show its figures and compute none.
/// </summary>
public static class LifetimeCharts
{
    /// <summary>The cash of all offers that state a price, named <c>cash</c>.</summary>
    /// <param name="result">1–4 offers, at least one with a price.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    /// <exception cref="ArgumentException">No offer states a price, or they are too many to tell apart.</exception>
    public static NamedChart CashOf(LifetimeResult result, ChartSize? size = null) => new("cash", Cash(result, size));

    /// <summary>What each cause does to the present value, named <c>band</c>.</summary>
    /// <inheritdoc cref="CashOf"/>
    public static NamedChart BandOf(LifetimeResult result, ChartSize? size = null) => new("band", Band(result, size));

    /// <summary>Writes the cash of all offers that state a price, as PNG.</summary>
    /// <param name="result">1–4 offers, at least one with a price.</param>
    /// <param name="output">Where to; stays open.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    /// <exception cref="ArgumentException">No offer states a price, or they are too many to tell apart.</exception>
    public static void WriteCashPng(LifetimeResult result, Stream output, ChartSize? size = null) => WritePng(Cash(result, size), output);

    /// <summary>Writes the same as an SVG document.</summary>
    /// <inheritdoc cref="WriteCashPng"/>
    public static void WriteCashSvg(LifetimeResult result, Stream output, ChartSize? size = null) => WriteSvg(Cash(result, size), output);

    /// <summary>Writes what each cause does to the present value, as PNG.</summary>
    /// <inheritdoc cref="WriteCashPng"/>
    public static void WriteBandPng(LifetimeResult result, Stream output, ChartSize? size = null) => WritePng(Band(result, size), output);

    /// <summary>Writes the same as an SVG document.</summary>
    /// <inheritdoc cref="WriteCashPng"/>
    public static void WriteBandSvg(LifetimeResult result, Stream output, ChartSize? size = null) => WriteSvg(Band(result, size), output);

    internal static Picture Cash(LifetimeResult result, ChartSize? size) => new CashLayout(new LifetimeFrame(result, size ?? ChartSize.Laptop)).Lay();

    internal static Picture Band(LifetimeResult result, ChartSize? size) => new BandLayout(new LifetimeFrame(result, size ?? ChartSize.Laptop)).Lay();

    private static void WritePng(Picture picture, Stream output)
    {
        ArgumentNullException.ThrowIfNull(output);
        SkiaPainter.WritePng(picture, SavingsChart.PngScale, output);
    }

    private static void WriteSvg(Picture picture, Stream output)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write(Encoding.UTF8.GetBytes(SvgPainter.Document(picture)));
    }
}
