using System.CommandLine;
using System.Reflection;
using System.Text;
using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Reports.Homeowner;
using EnergySim.Reports.Pdf;
using EnergySim.Studies.Findings;
using NodaTime.Text;

namespace EnergySim.Cli;

/// <summary><c>energysim report</c>: the homeowner's report with its pictures, figures, set-points and inputs, in one folder.</summary>
internal static class ReportVerb
{
    /// <summary>Name of the option that says another plan.</summary>
    public const string TariffOption = "tariff";

    public static Command Command(TextWriter output)
    {
        var home = CompareVerb.HomeArgument();
        var folder = new Option<string>("--out") { Description = "The folder; written whole or not at all.", DefaultValueFactory = _ => "report" };
        var tariff = new Option<string?>("--tariff") { Description = "A tariff file to use in place of the home's." };
        var dated = new Option<string?>("--dated") { Description = "A date to print on the report, such as 2026-03-14; left out: none, so that the same inputs give the same bytes on any day." };
        var json = new Option<bool>("--json") { Description = "Also print the figures as one JSON document." };
        var command = new Command(
            "report",
            "What a homeowner takes home: the report as PDF (Letter and A4) and as one HTML page, its pictures, every figure as JSON, the set-point sheets, and the input "
            + "files, so that anybody can make it again (energysim recompute).\n\nExample: energysim report profiles/demo-home.yaml --out report")
        {
            home, folder, tariff, dated, json,
        };
        command.SetAction(parsed => Run(
            parsed.GetValue(home) ?? Commands.DemoHome, parsed.GetValue(folder)!, parsed.GetValue(tariff), DateOf(parsed.GetValue(dated)), parsed.GetValue(json), output));
        return command;
    }

    /// <summary>Version of the program, as reports state it.</summary>
    public static string ProgramVersion =>
        typeof(ReportVerb).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "unknown";

    /// <summary>Reads and asks a home, and says how.</summary>
    public static (HomeFindings Findings, ReportManifest Manifest, InputSet Inputs) Ask(string path, string? tariff, string? dated)
    {
        HomeReading reading = HomeFile.Read(path, tariff);
        var inputs = new InputSet(reading.Inputs);
        string? plan = tariff is null ? null : inputs.Files.First(f => f.Path == Path.GetFullPath(tariff)).Name;
        var manifest = new ReportManifest
        {
            ProgramVersion = ProgramVersion,
            Options = plan is null ? [] : [(TariffOption, plan)],
            Inputs = inputs.Digests,
            Dated = dated,
        };
        return (FindingsStudy.Of(reading.Home, reading.Outage) with { Repairs = reading.Repairs }, manifest, inputs);
    }

    private static int Run(string path, string folder, string? tariff, string? dated, bool asJson, TextWriter output)
    {
        (HomeFindings findings, ReportManifest manifest, InputSet inputs) = Ask(path, tariff, dated);
        Task<HomeownerReport> told = Task.Run(() => HomeownerReport.Of(findings, manifest));
        IReadOnlyList<NamedChart> charts = ReportCharts.Of(findings);
        HomeownerReport report = told.GetAwaiter().GetResult();
        var files = new List<(string Path, Action<Stream> Write)>
        {
            ("report-letter.pdf", stream => ReportPdf.Write(report, stream, Paper.Letter)),
            ("report-a4.pdf", stream => ReportPdf.Write(report, stream, Paper.A4)),
            ("report.html", stream => ReportHtml.Write(report, stream)),
        };
        foreach (NamedChart chart in charts)
        {
            files.Add(($"charts/{chart.Name}.png", chart.WritePng));
            files.Add(($"charts/{chart.Name}.svg", chart.WriteSvg));
        }
        for (int i = 0; i < findings.Sheets.Count; i++)
        {
            using var text = new StringWriter { NewLine = "\n" };
            SheetText.Write(text, findings.Sheets[i]);
            byte[] bytes = Encoding.UTF8.GetBytes(text.ToString());
            files.Add((FormattableString.Invariant($"set-points-{i + 1}.txt"), stream => stream.Write(bytes)));
        }
        foreach ((string file, string name) in inputs.Files)
            files.Add(($"{ReportJson.InputFolder}/{name}", stream => { using FileStream from = File.OpenRead(file); from.CopyTo(stream); }));
        // Last: a folder with a document is complete.
        files.Add(("report.json", stream => ReportJson.Write(stream, findings, manifest)));
        WholeFolder.Write(folder, files);
        if (asJson) Output.WriteJson(output, stream => ReportJson.Write(stream, findings, manifest));
        else foreach ((string name, _) in files.Where(f => !f.Path.StartsWith(ReportJson.InputFolder, StringComparison.Ordinal))) output.WriteLine($"Written: {Path.Combine(folder, name)}");
        return Commands.Done;
    }

    private static string? DateOf(string? text) => text is null || LocalDatePattern.Iso.Parse(text) is { Success: true } ? text
        : throw new ArgumentException($"--dated: \"{text}\" is no date such as 2026-03-14.");
}
