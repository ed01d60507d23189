using System.Globalization;
using EnergySim.Files;

namespace EnergySim.Cli;

/// <summary>Tells what was understood of a meter file.</summary>
internal static class ImportText
{
    public static void Write(TextWriter output, MeterData data, MeterLoadResult? load)
    {
        output.WriteLine(data.File);
        output.WriteLine($"  {Short(data)}");
        output.WriteLine();
        Findings(output, data.Findings);
        Part(output, "Done on the way", [.. data.Notes, .. load?.Notes ?? []]);
        Part(output, "Looks wrong, left as it is", data.Warnings);
        if (data.StepMinutes is not null) Resolution(output, data, MeterResolution.Of(data));
        if (load is null) return;
        output.WriteLine();
        string solar = load.Solar is null ? "" : string.Create(CultureInfo.InvariantCulture, $" = import {data.ImportKwh:N1} − export {data.ExportKwh:N1} + solar {load.Solar.EnergyKwh:N1}");
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Load: {load.Load.EnergyKwh:N1} kWh{solar}"));
    }

    public static void Write(TextWriter output, MeterQuestionsException asked)
    {
        Findings(output, asked.Findings);
        output.WriteLine($"{asked.File} can be read in more than one way:");
        foreach (MeterQuestion question in asked.Questions) output.WriteLine($"  {question}");
    }

    /// <summary>Says what was written, and how a home file names it.</summary>
    public static void Written(TextWriter output, string path, bool isNetted)
    {
        output.WriteLine($"Written: {path}");
        output.WriteLine($"In the home file: load: {{file: {Path.GetFileName(path)}, column: load_kw, unit: kW, stamp: start{(isNetted ? ", nettedInInterval: true" : "")}}}");
    }

    /// <summary>The reading in one line: clock, stamps, unit, step, what is missing, energy, confidence.</summary>
    public static string Short(MeterData data)
    {
        string? Of(string subject) => data.Findings.FirstOrDefault(f => f.Subject == subject)?.Answer;
        var parts = new List<string>();
        parts.Add(Of("clock") is string clock && clock.StartsWith("local", StringComparison.Ordinal) ? clock : Of("clock") ?? "UTC seconds");
        if (Of("stamps") is string stamps) parts.Add(stamps.StartsWith("start", StringComparison.Ordinal) ? "start-stamped" : stamps.StartsWith("end", StringComparison.Ordinal) ? "end-stamped" : stamps);
        string step = data.StepMinutes is int minutes ? string.Create(CultureInfo.InvariantCulture, $"{minutes} min") : "reading, days or longer";
        parts.Add($"{Of("unit") ?? "kWh"} per {step}");
        parts.Add(string.Create(CultureInfo.InvariantCulture, $"{data.Spans[0].Start.InZone(data.Zone):uuuu-MM-dd} to {data.Spans[^1].Start.InZone(data.Zone):uuuu-MM-dd}"));
        parts.Add(string.Create(CultureInfo.InvariantCulture, $"{data.Spans.Count:N0} intervals"));
        parts.Add(string.Create(CultureInfo.InvariantCulture, $"{data.MissingCount:N0} missing"));
        if (data.HasImport) parts.Add(string.Create(CultureInfo.InvariantCulture, $"import {data.ImportKwh:N1} kWh"));
        if (data.HasExport) parts.Add(string.Create(CultureInfo.InvariantCulture, $"export {data.ExportKwh:N1} kWh"));
        return string.Create(CultureInfo.InvariantCulture, $"{string.Join(", ", parts)} (confidence {data.Confidence:0.00})");
    }

    private static void Findings(TextWriter output, IReadOnlyList<MeterFinding> findings)
    {
        output.WriteLine("Understood");
        foreach (MeterFinding f in findings.Distinct())
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {f.Subject,-12} {f.Answer} · {f.Ground} · {f.Confidence:0.00}"));
        output.WriteLine();
    }

    private static void Part(TextWriter output, string title, IReadOnlyList<string> lines)
    {
        if (lines.Count == 0) return;
        output.WriteLine(title);
        foreach (string line in lines) output.WriteLine($"  {line}");
        output.WriteLine();
    }

    private static void Resolution(TextWriter output, MeterData data, MeterResolution resolution)
    {
        MeterResolutionRow own = resolution.Rows[0];
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"What averaging over {own.Minutes} minutes hides"));
        foreach (MeterResolutionRow row in resolution.Rows)
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"  {row.Minutes,3} min: highest import {row.PeakKw:0.00} kW, import {row.ImportKwh:N1} kWh{(data.HasExport ? string.Create(CultureInfo.InvariantCulture, $", export {row.ExportKwh:N1} kWh") : "")}"));
        output.WriteLine(resolution.PeakHiddenFraction is double peak
            ? string.Create(CultureInfo.InvariantCulture, $"  The true peak is about {peak:P0} above {own.PeakKw:0.00} kW; a demand charge on shorter intervals is a lower bound here.")
            : "  How much higher the true peak is, these data can not show; a demand charge on shorter intervals is a lower bound here.");
        if (!data.HasExport) return;
        output.WriteLine(!data.IsNetted
            ? "  Import and export were counted apart, so nothing was netted inside the intervals by the meter."
            : resolution.NettedKwh is double netted
            ? string.Create(CultureInfo.InvariantCulture, $"  Import and export were netted inside each interval: both are about {netted:N1} kWh too low where a tariff counts them apart.")
            : "  Import and export were netted inside each interval: both are too low where a tariff counts them apart; by how much, intervals this long can not show.");
    }
}
