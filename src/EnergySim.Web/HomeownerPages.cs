using System.Reflection;
using System.Text.Json;
using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Reports.Homeowner;
using EnergySim.Reports.Pdf;
using EnergySim.Studies.Findings;
using EnergySim.Studies.Visit;

namespace EnergySim.Web;

/// <summary>The homeowner's report of a home as it is tried out: the one that <c>energysim report</c> writes, with what was tried out named in it.</summary>
internal static class HomeownerPages
{
    private const string TariffOption = "tariff";

    /// <summary>The parts of the work.</summary>
    /// <param name="open">The home.</param>
    /// <param name="visit">The home as chosen.</param>
    /// <param name="request">What was chosen.</param>
    /// <exception cref="ArgumentException">A way to connect is chosen, which the report takes from the offers.</exception>
    public static JobParts PartsOf(OpenHome open, VisitHome visit, VisitRequest request)
    {
        if (visit.Connected is not null) throw new ArgumentException("The report tells the offers as they state their connection: set \"connected by\" back first.");
        var inputs = new InputSet(open.Reading.Inputs);
        HomeFindings? findings = null;
        return new JobParts(
            [
                ("the year, outages, the panel and the years to come", () => findings = FindingsStudy.Of(visit.Home, TermsOf(open, visit, request)) with { Repairs = open.Reading.Repairs }),
            ],
            stream => ReportPdf.Write(HomeownerReport.Of(findings!, new ReportManifest { ProgramVersion = Version, Options = OptionsOf(request, inputs), Inputs = inputs.Digests }), stream, Paper.Letter))
        {
            Type = "application/pdf",
        };
    }

    private static string Version => typeof(HomeownerPages).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "unknown";

    // The start that the page shows where nobody named one is the report's own finding, and not a choice.
    private static Studies.Outages.OutageTerms TermsOf(OpenHome open, VisitHome visit, VisitRequest request) =>
        request.Choices.OutageStart is null ? visit.Terms with { NamedStart = open.Reading.Outage.NamedStart } : visit.Terms;

    private static List<(string Name, string Value)> OptionsOf(VisitRequest request, InputSet inputs)
    {
        var options = new List<(string, string)>();
        if (request.Plan is string plan) options.Add((TariffOption, inputs.Files.First(f => f.Path.EndsWith(Path.GetFileName(plan), StringComparison.Ordinal)).Name));
        using JsonDocument choices = JsonSerializer.SerializeToDocument(request.Choices, JsonSerializerOptions.Web);
        options.AddRange(choices.RootElement.EnumerateObject().Where(c => c.Value.ValueKind != JsonValueKind.Null).Select(c => (c.Name, c.Value.ToString())));
        return options;
    }
}
