using System.Text;
using EnergySim.Files;
using EnergySim.Studies;
using EnergySim.Studies.Visit;
using EnergySim.Studies.WiringFit;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace EnergySim.Web;

/// <summary>What is taken home: every flow of a column, the sheet for the programmer.</summary>
internal static class DownloadApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapPost("/ledger", (ColumnRequest request, OpenHomes homes) =>
        {
            (OpenHome open, VisitHome visit) = homes.Visit(request);
            if (request.Column < 0 || request.Column > visit.Home.Offers.Count) throw new ArgumentException($"There is no column {request.Column}.");
            Installation installed = request.Column == 0
                ? Installation.Of(visit.Home with { Offers = [] }, open.Calendar)[0] : Installation.Of(visit.With(request.Column - 1), open.Calendar)[1];
            using var stream = new MemoryStream();
            LedgerCsv.Write(stream, installed.Run.Ledger());
            return Results.Bytes(stream.ToArray(), "text/csv; charset=utf-8");
        }).Describes("Every flow of every interval of a column, as `energysim compare --ledger` writes it.", "text/csv");
        api.MapPost("/sheet", (ColumnRequest request, OpenHomes homes) =>
        {
            (_, VisitHome visit) = homes.Visit(request);
            if (request.Column < 1 || request.Column > visit.Home.Offers.Count) throw new ArgumentException($"There is no offer {request.Column}.");
            WiringComparison ways = WiringFitStudy.Of(visit.Home with { Offers = [visit.Home.Offers[request.Column - 1]] });
            SetPointSheet sheet = SetPointSheet.Of(visit.Home, ways, ways.Offers[0], request.Choices.Way);
            using var text = new StringWriter { NewLine = "\n" };
            SheetText.Write(text, sheet);
            return request.AsJson ? Api.Document(stream => WiringJson.WriteSheet(stream, sheet)) : Results.Bytes(Encoding.UTF8.GetBytes(text.ToString()), "text/plain; charset=utf-8");
        }).Describes("The set-point sheet of an offer, as `energysim wiring --sheet` prints it.", "text/plain");
    }
}

/// <summary>A column of a home.</summary>
internal sealed record ColumnRequest : VisitRequest
{
    /// <summary>0 = as it is, then the offers.</summary>
    public required int Column { get; init; }

    /// <summary>True = the sheet as JSON.</summary>
    public bool AsJson { get; init; }
}
