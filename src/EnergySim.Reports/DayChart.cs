using EnergySim.Reports.Days;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Days;

namespace EnergySim.Reports;

/// <summary>
/// One day of a home, or the mean of many: above zero what serves it (sun, battery, grid), below zero what fills the battery and what is sold; under
/// that what is stored and what a kWh costs. It shows the record's figures and computes none.
/// </summary>
public static class DayChart
{
    /// <summary>The picture, named <c>day</c> or <c>average-day</c>.</summary>
    /// <param name="day">The day.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    public static NamedChart Of(DayFlows day, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(day);
        return new NamedChart(day.Date is null ? "average-day" : "day", new DayLayout(day, size ?? ChartSize.Laptop).Lay());
    }
}
