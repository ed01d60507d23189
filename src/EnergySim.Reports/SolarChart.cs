using System.Text;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Solar;
using EnergySim.Studies.Solar;

namespace EnergySim.Reports;

/// <summary>The sun on a home's roof by month and hour of the day: a field of shades with the mean power in each. It shows the record's figures and computes none.</summary>
public static class SolarChart
{
    /// <summary>Writes the picture as PNG.</summary>
    /// <param name="solar">The yield.</param>
    /// <param name="output">Where to; stays open.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    public static void WritePng(SolarYield solar, Stream output, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        SkiaPainter.WritePng(Layout(solar, size), SavingsChart.PngScale, output);
    }

    /// <summary>Writes the picture as SVG with its letters embedded and its figures in words.</summary>
    /// <inheritdoc cref="WritePng"/>
    public static void WriteSvg(SolarYield solar, Stream output, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write(Encoding.UTF8.GetBytes(SvgPainter.Document(Layout(solar, size))));
    }

    internal static Picture Layout(SolarYield solar, ChartSize? size)
    {
        ArgumentNullException.ThrowIfNull(solar);
        return new SolarLayout(solar, size ?? ChartSize.Laptop).Lay();
    }
}
