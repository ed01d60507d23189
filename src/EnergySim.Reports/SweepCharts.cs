using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Reports.Sweeps;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Reports;

/// <summary>Pictures of what matters in a sweep: they show the record's figures and compute none.</summary>
public static class SweepCharts
{
    /// <summary>Homes and tariffs of which pictures are made; a street of thousands has its table.</summary>
    private const int MostPlaces = 6;

    /// <summary>Tornado, indices, dependences and contour of every output, as far as they are there.</summary>
    /// <param name="matters">The result.</param>
    /// <param name="size">Size; null = <see cref="ChartSize.Laptop"/>.</param>
    public static IReadOnlyList<NamedChart> Of(WhatMatters matters, ChartSize? size = null)
    {
        ArgumentNullException.ThrowIfNull(matters);
        ChartSize of = size ?? ChartSize.Laptop;
        var charts = new List<NamedChart>();
        string[] places = [.. matters.Outputs.Select(o => o.Place).Distinct().Take(MostPlaces)];
        foreach (OutputMatters output in matters.Outputs)
        {
            int place = Array.IndexOf(places, output.Place);
            if (place < 0) continue;
            string name = PathName.Of(output.Column.Name) + (places.Length == 1 ? "" : string.Create(CultureInfo.InvariantCulture, $"-{place + 1}"));
            if (output.Tornado is not null) charts.Add(new NamedChart($"tornado-{name}", TornadoChart.Of(output, of)));
            if (output.Indices is not null) charts.Add(new NamedChart($"indices-{name}", IndicesChart.Of(output, of)));
            if (output.Contour is not null) charts.Add(new NamedChart($"contour-{name}", ContourChart.Of(output, of)));
            else charts.AddRange(output.Dependences.Select(d => new NamedChart($"by-{PathName.Of(d.Input)}-{name}", DependenceChart.Of(output, d, of))));
        }
        return charts;
    }
}
