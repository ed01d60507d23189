using EnergySim.Files;
using EnergySim.Tariffs;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace EnergySim.Web;

/// <summary>Homes and plans: what there is, what a home says of itself, its text.</summary>
internal static class LibraryApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/homes", (Library library) => library.With("home").Select(h => new NamedFile(h.Name, h.Title)).ToArray())
            .WithSummary("The homes of the library and the demo.");
        api.MapGet("/home", (string file, string? plan, OpenHomes homes) => Results.Ok(HomeSummary.Of(file, homes.Of(file, plan))))
            .WithSummary("What a home's files say, as far as the page's controls ask.").Produces<HomeSummary>().Produces<RefusedAnswer>(StatusCodes.Status422UnprocessableEntity);
        api.MapGet("/plans", (string file, OpenHomes homes, Plans plans) => plans.For(homes.Of(file, null).Reading.Home.Load.Axis.Zone.Id))
            .WithSummary("The plans of the library and the catalogue that are read on the clock of a home.");
        api.MapGet("/catalogue", (Plans plans) => plans.All()).WithSummary("Every plan of the library and the catalogue.");
        api.MapPost("/save", (SaveRequest request, Saving saving) => Results.Ok(saving.Save(request)))
            .WithSummary("Saves a home with what was chosen into the library.").Produces<SavedAnswer>().Produces<RefusedAnswer>(StatusCodes.Status422UnprocessableEntity);
        api.MapPost("/drops", async (IFormFileCollection files, Drops drops, CancellationToken cancel) => Results.Ok(await drops.Take(files, cancel).ConfigureAwait(false)))
            .DisableAntiforgery().WithSummary("Takes dropped files; a home among them can then be asked like any other.").Produces<DropAnswer>().Produces<RefusedAnswer>(StatusCodes.Status422UnprocessableEntity);
        api.MapPost("/meter", async (MeterRequest request, Drops drops, CancellationToken cancel) => Results.Ok(await drops.Meter(request.Files, request.Said ?? [], cancel).ConfigureAwait(false)))
            .WithSummary("Reads dropped meter files as the load of a house; what is unclear is asked.").Produces<MeterAnswer>().Produces<RefusedAnswer>(StatusCodes.Status422UnprocessableEntity);
        api.MapPost("/drafts", (DraftRequest request, Drafts drafts) => Results.Ok(drafts.Make(request)))
            .WithSummary("Begins a home from the form.").Produces<DropAnswer>().Produces<RefusedAnswer>(StatusCodes.Status422UnprocessableEntity);
    }
}

/// <summary>Meter files and how they are to be read.</summary>
/// <param name="Files">Their names, as they were dropped.</param>
/// <param name="Said">Options of `energysim import` without their dashes, and values: zone, clock, unit …</param>
internal sealed record MeterRequest(IReadOnlyList<string> Files, IReadOnlyList<KeyValuePair<string, string>>? Said);

/// <summary>A file and its title.</summary>
/// <param name="File">Its name, area first.</param>
/// <param name="Title">The name that it gives itself.</param>
internal sealed record NamedFile(string File, string Title);

/// <summary>The tariff files that can be read, each once.</summary>
internal sealed class Plans(Library library)
{
    private readonly Kept<PlanFile> _read = new(200);

    /// <summary>Those on the clock of a zone.</summary>
    public NamedFile[] For(string zone) => [.. library.With("periods").Select(Read).Where(p => p.Zone == zone).Select(p => new NamedFile(p.File, p.Title))];

    /// <summary>All that can be read.</summary>
    public NamedFile[] All() => [.. library.With("periods").Select(Read).Where(p => p.Zone.Length > 0).Select(p => new NamedFile(p.File, p.Title))];

    private PlanFile Read((string Name, string Title) file)
    {
        string path = library.PathOf(file.Name);
        return _read.Of($"{path}\n{File.GetLastWriteTimeUtc(path).Ticks}", () =>
        {
            try
            {
                Tariff tariff = TariffFile.Read(path);
                return new PlanFile(file.Name, tariff.Publisher.Length > 0 ? $"{tariff.Name} · {tariff.Publisher}" : tariff.Name, tariff.Zone.Id);
            }
            catch (ProblemsException)
            {
                // A plan that does not fit can not be chosen; its problems are told where a home names it.
                return new PlanFile(file.Name, file.Title, "");
            }
        });
    }

    private sealed record PlanFile(string File, string Title, string Zone);
}
