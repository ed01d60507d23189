using System.Text;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Wiring;
using EnergySim.Studies.WiringFit;

namespace EnergySim.Reports;

/// <summary>
/// The picture of an offer's ways to connect: what each costs over the years, in three parts, and how long it carries what it keeps running.
/// Ways that may not be are listed below with the reason. It shows the record's figures and computes none but their sums.
/// </summary>
public static class WiringChart
{
    /// <summary>Ways that one picture holds.</summary>
    public const int MostWays = 14;

    /// <summary>The picture, named <c>ways</c>.</summary>
    /// <param name="comparison">The comparison, for names and years.</param>
    /// <param name="offer">One of its offers, with 1–14 ways.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    /// <exception cref="ArgumentException">There are no ways, or too many.</exception>
    public static NamedChart Of(WiringComparison comparison, OfferWays offer, ChartSize? size = null) => new("ways", Layout(comparison, offer, size));

    /// <summary>Writes the picture as PNG.</summary>
    /// <param name="comparison">The comparison, for names and years.</param>
    /// <param name="offer">One of its offers, with 1–14 ways.</param>
    /// <param name="output">Where to; stays open.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    /// <exception cref="ArgumentException">There are no ways, or too many.</exception>
    public static void WritePng(WiringComparison comparison, OfferWays offer, Stream output, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        SkiaPainter.WritePng(Layout(comparison, offer, size), SavingsChart.PngScale, output);
    }

    /// <summary>Writes the picture as an SVG document with its letters embedded, a title, and every figure in words.</summary>
    /// <inheritdoc cref="WritePng"/>
    public static void WriteSvg(WiringComparison comparison, OfferWays offer, Stream output, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write(Encoding.UTF8.GetBytes(SvgPainter.Document(Layout(comparison, offer, size))));
    }

    internal static Picture Layout(WiringComparison comparison, OfferWays offer, ChartSize? size)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        ArgumentNullException.ThrowIfNull(offer);
        if (offer.Ways.Count is < 1 or > MostWays) throw new ArgumentException($"{offer.Ways.Count} ways; the picture holds 1–{MostWays}.", nameof(offer));
        return new WaysLayout(comparison, offer, size ?? ChartSize.Laptop).Lay();
    }
}
