using EnergySim.Reports;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Visit;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace EnergySim.Web;

/// <summary>The pictures that follow the sliders, as parts of the page or as files.</summary>
internal static class ChartApi
{
    public static void Map(RouteGroupBuilder api) => api.MapPost("/chart", (ChartRequest request, OpenHomes homes) =>
    {
        VisitAnswer answer = homes.Answer(request);
        var size = new ChartSize(request.WidthPx, request.HeightPx);
        using var stream = new MemoryStream();
        switch (request.Chart)
        {
            case ChartKind.Savings when request.Form == ChartForm.Png: SavingsChart.WritePng(answer.Comparison, stream, size); break;
            case ChartKind.Savings: Svg(stream, request, SavingsChart.Svg(answer.Comparison, size)); break;
            case ChartKind.StoredEnergy when request.Form == ChartForm.Png: Stored(answer, size).WritePng(stream); break;
            default: Svg(stream, request, Stored(answer, size).Svg); break;
        }
        return Results.Bytes(stream.ToArray(), request.Form == ChartForm.Png ? "image/png" : "image/svg+xml");
    }).Describes("A picture: each month's bill, or what is stored through the named outage.", "image/svg+xml");

    private static NamedChart Stored(VisitAnswer answer, ChartSize size) => OutageCharts.Stored(answer.Comparison.Home, answer.Outage, size);

    private static void Svg(Stream stream, ChartRequest request, string document) =>
        stream.Write(request.Form == ChartForm.Part ? ChartPart.BytesOf(document, request.Chart.ToString()) : System.Text.Encoding.UTF8.GetBytes(document));
}

/// <summary>Which picture.</summary>
internal enum ChartKind
{
    /// <summary>Each bill as it is and with each offer.</summary>
    Savings,

    /// <summary>What is stored through the named outage.</summary>
    StoredEnergy,
}

/// <summary>In which form.</summary>
internal enum ChartForm
{
    /// <summary>SVG that is put into the page: letters come from the page.</summary>
    Part,

    /// <summary>An SVG document of its own.</summary>
    Svg,

    /// <summary>PNG, two pixels for each of the size.</summary>
    Png,
}

/// <summary>A picture of a home.</summary>
internal sealed record ChartRequest : VisitRequest
{
    /// <summary>Which.</summary>
    public required ChartKind Chart { get; init; }

    /// <summary>In which form.</summary>
    public ChartForm Form { get; init; }

    /// <summary>Width, px, 280–4,000.</summary>
    public int WidthPx { get; init; } = 1200;

    /// <summary>Height, px, 400–3,000.</summary>
    public int HeightPx { get; init; } = 675;
}
