using System.Text;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Savings;
using EnergySim.Studies;

namespace EnergySim.Reports;

/// <summary>
/// The homeowner's picture of a comparison: every bill of the span as it is and with each offer, and what they come to. It shows the record's
/// figures and computes none. The same record and size give the same bytes.
/// </summary>
public static class SavingsChart
{
    /// <summary>Pixels of a PNG for each pixel of its <see cref="ChartSize"/>.</summary>
    public const int PngScale = 2;

    /// <summary>The picture, named <c>bills</c>.</summary>
    /// <param name="comparison">1–5 columns of 1–26 bills, the same billing periods in each.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    /// <exception cref="ArgumentException">The columns or bills are too many, none, or do not match.</exception>
    public static NamedChart Of(Comparison comparison, ChartSize? size = null) => new("bills", Layout(comparison, size));

    /// <summary>Writes the picture as PNG.</summary>
    /// <param name="comparison">1–5 columns of 1–26 bills, the same billing periods in each.</param>
    /// <param name="output">Where to; stays open.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    /// <exception cref="ArgumentException">The columns or bills are too many, none, or do not match.</exception>
    public static void WritePng(Comparison comparison, Stream output, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        SkiaPainter.WritePng(Layout(comparison, size), PngScale, output);
    }

    /// <summary>
    /// The picture as an SVG document with its letters embedded, a title, and a description that says every figure in words. Text stays text.
    /// </summary>
    /// <inheritdoc cref="WritePng"/>
    public static string Svg(Comparison comparison, ChartSize? size = null) => SvgPainter.Document(Layout(comparison, size));

    /// <summary>Writes what <see cref="Svg"/> gives, as UTF-8 without a byte order mark.</summary>
    /// <inheritdoc cref="WritePng"/>
    public static void WriteSvg(Comparison comparison, Stream output, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write(Encoding.UTF8.GetBytes(Svg(comparison, size)));
    }

    internal static Picture Layout(Comparison comparison, ChartSize? size) => SavingsLayout.Of(comparison, size ?? ChartSize.Laptop);
}
