using System.Text;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Weeks;
using EnergySim.Studies.Control;

namespace EnergySim.Reports;

/// <summary>A week of set-points: a row a day with what is wanted hour by hour, and what is stored below it. It shows the record's figures and computes none.</summary>
public static class WeekChart
{
    /// <summary>Writes the picture as PNG.</summary>
    /// <param name="week">The week.</param>
    /// <param name="output">Where to; stays open.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    public static void WritePng(WantedWeek week, Stream output, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        SkiaPainter.WritePng(Layout(week, size), SavingsChart.PngScale, output);
    }

    /// <summary>Writes the picture as SVG with its letters embedded and its figures in words.</summary>
    /// <inheritdoc cref="WritePng"/>
    public static void WriteSvg(WantedWeek week, Stream output, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write(Encoding.UTF8.GetBytes(SvgPainter.Document(Layout(week, size))));
    }

    internal static Picture Layout(WantedWeek week, ChartSize? size)
    {
        ArgumentNullException.ThrowIfNull(week);
        return new WeekLayout(week, size ?? ChartSize.Laptop).Lay();
    }
}
