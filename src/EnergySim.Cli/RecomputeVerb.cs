using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using EnergySim.Files;
using EnergySim.Studies.Findings;

namespace EnergySim.Cli;

/// <summary><c>energysim recompute</c>: makes a report's figures again from its inputs and says whether they are equal.</summary>
internal static class RecomputeVerb
{
    private const int MostTold = 20;

    public static Command Command(TextWriter output)
    {
        var report = new Argument<string>("REPORT") { Description = "The report's JSON document." };
        var home = new Option<string?>("--home") { Description = "The home file, where it does not lie in the folder \"inputs\" beside the report." };
        var json = new Option<bool>("--json") { Description = "The result as one JSON document." };
        var command = new Command(
            "recompute",
            "Makes every figure of a report again from the inputs that it names and says \"equal\", or which figure differs (exit code 1).\n\nExample: energysim recompute report/report.json")
        {
            report, home, json,
        };
        command.SetAction(parsed => Run(parsed.GetValue(report)!, parsed.GetValue(home), parsed.GetValue(json), output));
        return command;
    }

    private static int Run(string path, string? home, bool asJson, TextWriter output)
    {
        ReportFile told = ReportFile.Read(path);
        string inputs = Path.Combine(Path.GetDirectoryName(path) ?? "", ReportJson.InputFolder);
        string homePath = home ?? Path.Combine(inputs, told.Manifest.Inputs[0].Name);
        string? tariff = told.Manifest.Options.FirstOrDefault(o => o.Name == ReportVerb.TariffOption).Value;
        (HomeFindings findings, ReportManifest manifest, _) = ReportVerb.Ask(homePath, tariff is null ? null : Path.Combine(inputs, tariff), told.Manifest.Dated);
        string[] changed = [.. told.Manifest.Inputs.Where(i => !manifest.Inputs.Any(now => now.Sha256 == i.Sha256)).Select(i => i.Name)];
        IReadOnlyList<FigureDifference> differences = told.DifferencesTo(ReportFile.Of(stream => ReportJson.Write(stream, findings, manifest)), out int figures);
        if (asJson) Output.WriteJson(output, stream => WriteJson(stream, changed, differences, figures));
        else WriteText(output, told.Manifest.ProgramVersion, changed, differences, figures);
        return changed.Length == 0 && differences.Count == 0 ? Commands.Done : Commands.Finding;
    }

    private static void WriteText(TextWriter output, string version, string[] changed, IReadOnlyList<FigureDifference> differences, int figures)
    {
        if (version != ReportVerb.ProgramVersion) output.WriteLine($"Made by version {version}; this is {ReportVerb.ProgramVersion}.");
        foreach (string name in changed) output.WriteLine($"Not the report's input: {name} (another SHA-256).");
        foreach (FigureDifference one in differences.Take(MostTold)) output.WriteLine($"Differs: {one.Figure}: {one.Report ?? "nothing"} in the report, {one.Now ?? "nothing"} now.");
        if (differences.Count > MostTold) output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"… and {differences.Count - MostTold} more."));
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{(differences.Count == 0 ? "Equal" : "Not equal")}: {figures:#,0} figures compared, {differences.Count:#,0} differ{(changed.Length > 0 ? $", {changed.Length} of the inputs changed" : "")}."));
    }

    private static void WriteJson(Stream stream, string[] changed, IReadOnlyList<FigureDifference> differences, int figures)
    {
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteBoolean("equal", differences.Count == 0 && changed.Length == 0);
        json.WriteNumber("figures", figures);
        json.WriteStartArray("changedInputs");
        foreach (string name in changed) json.WriteStringValue(name);
        json.WriteEndArray();
        json.WriteStartArray("differences");
        foreach (FigureDifference one in differences)
        {
            json.WriteStartObject();
            json.WriteString("figure", one.Figure);
            json.WriteString("report", one.Report);
            json.WriteString("now", one.Now);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }
}
