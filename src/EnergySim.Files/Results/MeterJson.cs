using System.Text.Encodings.Web;
using System.Text.Json;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>Writes what was understood of a meter file as one JSON document. Energies kWh, power kW, times ISO 8601.</summary>
public static class MeterJson
{
    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="data">The data.</param>
    /// <param name="load">The load that was worked out of them; null = none.</param>
    /// <param name="written">The file that was written; null = none.</param>
    public static void Write(Stream stream, MeterData data, MeterLoadResult? load, string? written)
    {
        ArgumentNullException.ThrowIfNull(data);
        using Utf8JsonWriter json = Open(stream);
        json.WriteStartObject();
        json.WriteString("file", data.File);
        json.WriteString("zone", data.Zone.Id);
        json.WriteString("from", InstantPattern.General.Format(data.Spans[0].Start));
        json.WriteString("to", InstantPattern.General.Format(data.Spans[^1].End));
        if (data.StepMinutes is int step) json.WriteNumber("stepMinutes", step);
        else json.WriteNull("stepMinutes");
        json.WriteNumber("intervals", data.Spans.Count);
        json.WriteNumber("missing", data.MissingCount);
        json.WriteNumber("estimated", data.EstimatedCount);
        json.WriteNumber("importKwh", Math.Round(data.ImportKwh, 6));
        if (data.HasExport) json.WriteNumber("exportKwh", Math.Round(data.ExportKwh, 6));
        else json.WriteNull("exportKwh");
        json.WriteBoolean("nettedInsideIntervals", data.IsNetted);
        json.WriteNumber("confidence", data.Confidence);
        Findings(json, data.Findings);
        Texts(json, "notes", [.. data.Notes, .. load?.Notes ?? []]);
        Texts(json, "warnings", data.Warnings);
        if (load is not null) json.WriteNumber("loadKwh", Math.Round(load.Load.EnergyKwh, 6));
        if (load?.Solar is not null) json.WriteNumber("solarKwh", Math.Round(load.Solar.EnergyKwh, 6));
        if (written is not null) json.WriteString("written", written);
        if (data.StepMinutes is not null) Resolution(json, MeterResolution.Of(data));
        json.WriteEndObject();
    }

    /// <summary>Writes the questions that a file leaves open.</summary>
    public static void Write(Stream stream, MeterQuestionsException asked)
    {
        ArgumentNullException.ThrowIfNull(asked);
        using Utf8JsonWriter json = Open(stream);
        json.WriteStartObject();
        json.WriteString("file", asked.File);
        Findings(json, asked.Findings);
        json.WriteStartArray("questions");
        foreach (MeterQuestion question in asked.Questions)
        {
            json.WriteStartObject();
            json.WriteString("option", question.Option);
            json.WriteString("text", question.Text);
            Texts(json, "choices", question.Choices);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static Utf8JsonWriter Open(Stream stream) =>
        new(stream, new JsonWriterOptions { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });

    private static void Findings(Utf8JsonWriter json, IReadOnlyList<MeterFinding> findings)
    {
        json.WriteStartArray("findings");
        foreach (MeterFinding finding in findings)
        {
            json.WriteStartObject();
            json.WriteString("subject", finding.Subject);
            json.WriteString("answer", finding.Answer);
            json.WriteString("ground", finding.Ground);
            json.WriteNumber("confidence", finding.Confidence);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Resolution(Utf8JsonWriter json, MeterResolution resolution)
    {
        json.WriteStartArray("resolution");
        foreach (MeterResolutionRow row in resolution.Rows)
        {
            json.WriteStartObject();
            json.WriteNumber("minutes", row.Minutes);
            json.WriteNumber("peakKw", Math.Round(row.PeakKw, 6));
            json.WriteNumber("importKwh", Math.Round(row.ImportKwh, 6));
            json.WriteNumber("exportKwh", Math.Round(row.ExportKwh, 6));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        if (resolution.PeakHiddenFraction is double peak) json.WriteNumber("peakHiddenFraction", Math.Round(peak, 6));
        else json.WriteNull("peakHiddenFraction");
        if (resolution.NettedKwh is double netted) json.WriteNumber("nettedKwh", Math.Round(netted, 6));
        else json.WriteNull("nettedKwh");
    }

    private static void Texts(Utf8JsonWriter json, string name, IReadOnlyList<string> texts)
    {
        json.WriteStartArray(name);
        foreach (string text in texts) json.WriteStringValue(text);
        json.WriteEndArray();
    }
}
