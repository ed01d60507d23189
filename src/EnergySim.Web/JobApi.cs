using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace EnergySim.Web;

/// <summary>Long work: begun, watched, cancelled, fetched.</summary>
internal static class JobApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapPost("/jobs", (JobRequest request, Jobs jobs) => Results.Accepted(value: jobs.Begin(request)))
            .WithSummary("Begins long work.").Produces<JobState>(StatusCodes.Status202Accepted).Produces<RefusedAnswer>(StatusCodes.Status422UnprocessableEntity);
        api.MapGet("/jobs/{id}", (string id, Jobs jobs) => jobs.Of(id).State()).WithSummary("How far it is.");
        api.MapDelete("/jobs/{id}", (string id, Jobs jobs) => jobs.Of(id).Cancel()).WithSummary("Cancels it.");
        api.MapGet("/jobs/{id}/result", (string id, Jobs jobs) => jobs.Of(id).Result()).WithSummary("What it came to.").Produces<RefusedAnswer>(StatusCodes.Status409Conflict);
    }
}
