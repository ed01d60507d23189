using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Savings;
using EnergySim.Studies;
using EnergySim.Studies.Days;
using EnergySim.Studies.Findings;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.Outages;
using EnergySim.Studies.WiringFit;

namespace EnergySim.Reports;

/// <summary>Every picture that findings give, each with a name that suits a file.</summary>
public static class ReportCharts
{
    /// <summary>The pictures. Where there are more offers than a picture tells apart, the first are shown.</summary>
    /// <param name="findings">What the studies found.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Page"/>.</param>
    public static IReadOnlyList<NamedChart> Of(HomeFindings findings, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(findings);
        ChartSize of = size ?? ChartSize.Page;
        int drawn = Math.Min(findings.Comparison.Columns.Count, Palette.MostColumns) - 1;
        Comparison comparison = findings.Comparison with { Columns = [.. findings.Comparison.Columns.Take(drawn + 1)] };
        // Each is laid out when all are known to be wanted: side by side.
        var charts = new List<Func<NamedChart>>();
        if (comparison.Columns[0].Bills.Bills.Count <= SavingsLayout.MostBills) charts.Add(() => SavingsChart.Of(comparison, of));
        foreach (int i in Enumerable.Range(0, drawn))
        {
            if (findings.Causes[i].Causes.Count > 0) charts.Add(() => Named("causes", i + 1, CausesChart.Of(findings.Comparison, i + 1, findings.Causes[i], of)));
            charts.Add(() => Named("lines", i + 1, BillLinesChart.Of(findings.BillLines[i], of)));
        }
        foreach (DayFlows day in findings.OrdinaryDays)
            charts.Add(() => new NamedChart(string.Create(CultureInfo.InvariantCulture, $"day-{day.Date!.Value:uuuu-MM-dd}"), DayChart.Of(day, of).Picture));
        charts.Add(() => DayChart.Of(findings.MeanDay, of));
        Months(findings, drawn, of, charts);
        OutageResult outages = findings.Outages with { Offers = [.. findings.Outages.Offers.Take(drawn)] };
        charts.AddRange(OutageCharts.Layouts(outages, findings.Reserve with { Offers = [.. findings.Reserve.Offers.Take(drawn)] }, of));
        if (findings.Lifetime is LifetimeResult years && years.Offers.Take(drawn).Any(o => o.Indicators is not null))
        {
            LifetimeResult shown = years with { Offers = [.. years.Offers.Take(drawn)] };
            charts.Add(() => LifetimeCharts.CashOf(shown, of));
            charts.Add(() => LifetimeCharts.BandOf(shown, of));
        }
        if (findings.Wiring is WiringComparison ways)
            foreach (int i in Enumerable.Range(0, drawn))
                if (ways.Offers[i].Ways.Count is > 0 and <= WiringChart.MostWays) charts.Add(() => Named("ways", i + 1, WiringChart.Of(ways, ways.Offers[i], of)));
        Task<NamedChart>[] laid = [.. charts.Select(Task.Run)];
        return [.. laid.Select(chart => chart.GetAwaiter().GetResult())];
    }

    // Use, sun and price are the same for all columns; what is bought and stored is each column's own.
    private static void Months(HomeFindings findings, int drawn, ChartSize size, List<Func<NamedChart>> charts)
    {
        MonthHours first = findings.ByMonthAndHour[0];
        charts.Add(() => MonthChart.Of(first, MonthFigure.Use, size));
        charts.Add(() => MonthChart.Of(first, MonthFigure.Price, size));
        if (findings.Sun is { } sun) charts.Add(() => SolarChart.Of(sun, size));
        foreach (int c in Enumerable.Range(0, drawn + 1))
        {
            MonthHours months = findings.ByMonthAndHour[c];
            charts.Add(() => c == 0 ? MonthChart.Of(months, MonthFigure.Bought, size) : Named(MonthChart.NameOf(MonthFigure.Bought), c, MonthChart.Of(months, MonthFigure.Bought, size)));
            if (months.HighestKwh > 0) charts.Add(() => Named(MonthChart.NameOf(MonthFigure.Stored), c, MonthChart.Of(months, MonthFigure.Stored, size)));
        }
    }

    private static NamedChart Named(string name, int offer, NamedChart chart) => new(string.Create(CultureInfo.InvariantCulture, $"{name}-offer-{offer}"), chart.Picture);
}
