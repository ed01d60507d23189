using Microsoft.AspNetCore.OpenApi;

namespace EnergySim.Web;

/// <summary>What the API says of itself.</summary>
internal static class ApiDocument
{
    public static void Configure(OpenApiOptions options) => options.AddDocumentTransformer((document, _, _) =>
    {
        document.Info.Title = "EnergySim, the kitchen-table page";
        document.Info.Version = "v1";
        document.Info.Description =
            "Results are the JSON documents that the command line prints with --json: units in names, money in the stated currency, unknown = null. "
            + "A request that does not fit is answered 422 with {\"problems\": [sentence, …]}, the sentences of the command line. "
            + $"Every request that is not a GET carries the header {Guard.KeyHeader}, whose value GET /api/v1/session gives.";
        document.Servers?.Clear();
        return Task.CompletedTask;
    });
}
