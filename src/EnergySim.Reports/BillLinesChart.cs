using EnergySim.Reports.Drawing;
using EnergySim.Reports.Lines;
using EnergySim.Studies.Bills;

namespace EnergySim.Reports;

/// <summary>The bills of a span line by line, as it is and with one offer. It shows the record's figures and computes none but sums of small lines.</summary>
public static class BillLinesChart
{
    /// <summary>The picture, named <c>lines</c>.</summary>
    /// <param name="lines">The lines.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    public static NamedChart Of(OfferLines lines, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(lines);
        return new NamedChart("lines", new LinesLayout(lines, size ?? ChartSize.Laptop).Lay());
    }
}
