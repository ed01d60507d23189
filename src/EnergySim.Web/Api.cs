using EnergySim.Files;
using EnergySim.Studies.Causes;
using EnergySim.Studies.Days;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.Outages;
using EnergySim.Studies.Visit;
using EnergySim.Studies.WiringFit;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace EnergySim.Web;

/// <summary>The API, version 1: answers about a home with what is tried out on it.</summary>
internal static class Api
{
    private const string Json = "application/json";

    public static void Map(WebApplication app)
    {
        RouteGroupBuilder api = app.MapGroup("/api/v1");
        app.MapOpenApi("/api/{documentName}/openapi.json");
        api.MapGet("/session", (Guard guard) => new SessionAnswer(guard.Key, typeof(Api).Assembly.GetName().Version!.ToString(3)))
            .WithSummary("The key that requests other than GET carry.");
        MapAnswers(api);
        LibraryApi.Map(api);
        ChartApi.Map(api);
        DownloadApi.Map(api);
        JobApi.Map(api);
    }

    private static void MapAnswers(RouteGroupBuilder api)
    {
        api.MapPost("/answer", (VisitRequest request, OpenHomes homes) => Document(stream => VisitJson.Write(stream, homes.Answer(request))))
            .Describes("What moves at once: the comparison, the named outage, and how the ways to connect stand to the rules.");
        api.MapPost("/compare", (VisitRequest request, OpenHomes homes) => Document(stream => ComparisonJson.Write(stream, homes.Answer(request).Comparison)))
            .Describes("The columns side by side, as `energysim compare --json` prints them.");
        api.MapPost("/outage", (VisitRequest request, OpenHomes homes, Heavy heavy, HttpContext context) => heavy.Document("outage", request, stream =>
        {
            (_, VisitHome visit) = homes.Visit(request);
            OutageJson.Write(stream, OutageStudy.Of(visit.Home, visit.Terms, visit.Connected));
        }, context.RequestAborted)).Describes("Every start of the year and one outage in detail, as `energysim outage --json` prints them.");
        api.MapPost("/wiring", (VisitRequest request, OpenHomes homes, Heavy heavy, HttpContext context) => heavy.Document("wiring", request, stream =>
        {
            (_, VisitHome visit) = homes.Visit(request);
            WiringJson.Write(stream, WiringFitStudy.Of(visit.Home));
        }, context.RequestAborted)).Describes("The ways to connect with rules, prices and runs, as `energysim wiring --json` prints them.");
        api.MapPost("/lifetime", (VisitRequest request, OpenHomes homes, Heavy heavy, HttpContext context) => heavy.Document("lifetime", request, stream =>
        {
            (_, VisitHome visit) = homes.Visit(request);
            LifetimeJson.Write(stream, LifetimeStudy.Of(visit.Home, visit.Terms));
        }, context.RequestAborted)).Describes("What the offers come to over the years with their bands, as `energysim lifetime --json` prints it.");
        api.MapPost("/causes", (VisitRequest request, OpenHomes homes, Heavy heavy, HttpContext context) => heavy.Document("causes", request, stream =>
        {
            (_, VisitHome visit) = homes.Visit(request);
            CausesJson.Write(stream, visit.Home.Tariff.Currency, [.. visit.Home.Offers.SelectMany((_, i) => CauseStudy.Of(visit.With(i)))]);
        }, context.RequestAborted)).Describes("Why each offer saves: causes that sum to its saving to the cent.");
        api.MapPost("/day", (DayRequest request, OpenHomes homes) =>
        {
            (OpenHome open, VisitHome visit) = homes.Visit(request);
            DayFlows day = visit.Day(open.Calendar, request.Column, DayRequest.DateOf(request.Date));
            return Document(stream => DayJson.Write(stream, day));
        }).Describes("One day of one column, hour by hour: what flowed where, and the limits that bound.");
    }

    /// <summary>A result's document.</summary>
    public static IResult Document(Action<Stream> write)
    {
        using var stream = new MemoryStream();
        write(stream);
        return Results.Bytes(stream.ToArray(), Json);
    }

    /// <summary>Says of an endpoint what it gives and how it refuses.</summary>
    public static void Describes(this RouteHandlerBuilder endpoint, string summary, string type = Json) => endpoint
        .WithSummary(summary).Produces(StatusCodes.Status200OK, contentType: type).Produces<RefusedAnswer>(StatusCodes.Status422UnprocessableEntity);
}

/// <summary>The session.</summary>
/// <param name="Key">The key that requests other than GET carry.</param>
/// <param name="Version">The program's version.</param>
internal sealed record SessionAnswer(string Key, string Version);

/// <summary>Why a request was refused, a sentence each.</summary>
internal sealed record RefusedAnswer(IReadOnlyList<string> Problems);

/// <summary>A day of a column of a home.</summary>
internal sealed record DayRequest : VisitRequest
{
    /// <summary>0 = as it is, then the offers.</summary>
    public required int Column { get; init; }

    /// <summary>The day, <c>2025-07-14</c>.</summary>
    public required string Date { get; init; }

    /// <exception cref="ArgumentException">It is no date.</exception>
    public static NodaTime.LocalDate DateOf(string text)
    {
        NodaTime.Text.ParseResult<NodaTime.LocalDate> date = NodaTime.Text.LocalDatePattern.Iso.Parse(text);
        return date.Success ? date.Value : throw new ArgumentException($"date: \"{text}\" is no date such as 2025-07-14.");
    }
}
