using EnergySim.Reports.Drawing;
using EnergySim.Reports.Outages;
using EnergySim.Studies.Outages;

namespace EnergySim.Reports;

/// <summary>Pictures of outages: they show the records' figures and compute none.</summary>
public static class OutageCharts
{
    /// <summary>
    /// Stored energy through the outage told in detail; how many starts last how long; for each offer what half the starts last by month and hour,
    /// and, where the frontier is given, money against hours.
    /// </summary>
    /// <param name="result">1–4 offers.</param>
    /// <param name="frontier">The reserve's frontier of the same home; null = without.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    /// <exception cref="ArgumentException">There are too many offers to be told apart.</exception>
    public static IReadOnlyList<NamedChart> Of(OutageResult result, ReserveFrontier? frontier = null, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        return [.. Layouts(result, frontier, size ?? ChartSize.Laptop).Select(lay => lay())];
    }

    /// <summary>What lays each of them out.</summary>
    internal static IReadOnlyList<Func<NamedChart>> Layouts(OutageResult result, ReserveFrontier? frontier, ChartSize of)
    {
        IReadOnlyList<BarStyle> styles = Palette.OfferStyles([.. result.Offers.Select(o => o.BatteryUnits)]);
        var charts = new List<Func<NamedChart>>
        {
            () => new("stored-energy", StoredEnergyChart.Of(result.Home, [.. result.Offers.Select(o => (o.Name, o.Named))], Footers.Of(result), styles, of)),
            () => new("lasting", LastingChart.Of(result, styles, of)),
        };
        foreach (int i in Enumerable.Range(0, result.Offers.Count)) charts.Add(() => new NamedChart(Numbered("starts", i), StartsChart.Of(result, i, of)));
        if (frontier is not null)
            foreach (int i in Enumerable.Range(0, frontier.Offers.Count)) charts.Add(() => new NamedChart(Numbered("reserve", i), FrontierChart.Of(frontier, i, styles[i], of)));
        return charts;
    }

    /// <summary>Stored energy through the named outage alone.</summary>
    /// <param name="home">The home's name.</param>
    /// <param name="offers">1–4 offers in the same outage.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    /// <exception cref="ArgumentException">There is no offer, or too many to be told apart.</exception>
    public static NamedChart Stored(string home, IReadOnlyList<OfferInOutage> offers, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(home);
        ArgumentNullException.ThrowIfNull(offers);
        if (offers.Count == 0) throw new ArgumentException("There is no offer in the outage.", nameof(offers));
        IReadOnlyList<BarStyle> styles = Palette.OfferStyles([.. offers.Select(o => o.BatteryUnits)]);
        return new NamedChart("stored-energy", StoredEnergyChart.Of(home, [.. offers.Select(o => (o.Offer, o.Named))], [Footers.Caution], styles, size ?? ChartSize.Laptop));
    }

    private static string Numbered(string name, int index) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{name}-offer-{index + 1}");
}
