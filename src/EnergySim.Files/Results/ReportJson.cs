using System.Text.Json;
using EnergySim.Studies.Causes;
using EnergySim.Studies.Days;
using EnergySim.Studies.Findings;

namespace EnergySim.Files;

/// <summary>Writes all of a report's figures, exact, as one JSON document, with what is needed to make them again.</summary>
public static class ReportJson
{
    /// <summary>Key of what the report was made from; all other keys hold figures.</summary>
    public const string Manifest = "manifest";

    /// <summary>Folder beside the document in which the input files lie.</summary>
    public const string InputFolder = "inputs";

    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="findings">What the studies found.</param>
    /// <param name="manifest">How it was made.</param>
    public static void Write(Stream stream, HomeFindings findings, ReportManifest manifest)
    {
        ArgumentNullException.ThrowIfNull(findings);
        ArgumentNullException.ThrowIfNull(manifest);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        WriteManifest(json, manifest);
        json.WriteNumber("days", findings.Days);
        Part(json, "comparison", s => ComparisonJson.Write(s, findings.Comparison));
        json.WriteList("causes", findings.Causes, causes => WriteCauses(json, causes));
        json.WriteList("ordinaryDays", findings.OrdinaryDays, day => WriteDay(json, day));
        json.WritePropertyName("meanDay");
        WriteDay(json, findings.MeanDay);
        Part(json, "outages", s => OutageJson.Write(s, findings.Outages, findings.Reserve));
        if (findings.Wiring is { } wiring) Part(json, "wiring", s => WiringJson.Write(s, wiring));
        else json.WriteNull("wiring");
        if (findings.Lifetime is { } lifetime) Part(json, "lifetime", s => LifetimeJson.Write(s, lifetime));
        else json.WriteNull("lifetime");
        if (findings.WhyNoLifetime.Length > 0) json.WriteString("whyNoLifetime", findings.WhyNoLifetime);
        json.WriteEndObject();
    }

    private static void WriteManifest(Utf8JsonWriter json, ReportManifest manifest)
    {
        json.WriteStartObject(Manifest);
        json.WriteString("programVersion", manifest.ProgramVersion);
        json.WriteString("dated", manifest.Dated);
        json.WriteStartObject("options");
        foreach ((string name, string value) in manifest.Options) json.WriteString(name, value);
        json.WriteEndObject();
        json.WriteList("inputs", manifest.Inputs, input =>
        {
            json.WriteStartObject();
            json.WriteString("path", input.Name);
            json.WriteString("sha256", input.Sha256);
            json.WriteEndObject();
        });
        json.WriteEndObject();
    }

    private static void WriteCauses(Utf8JsonWriter json, SavingCauses causes)
    {
        json.WriteStartObject();
        json.WriteString("offer", causes.Name);
        json.WriteNumber("saving", causes.Saving);
        foreach (SavingCause cause in causes.Causes) json.WriteNumber(JsonNamingPolicy.CamelCase.ConvertName(cause.Cause.ToString()), cause.Amount);
        json.WriteEndObject();
    }

    private static void WriteDay(Utf8JsonWriter json, DayFlows day)
    {
        json.WriteStartObject();
        if (day.Date is { } date) json.WriteDate("date", date);
        else json.WriteNull("date");
        json.WriteString("column", day.Column);
        json.WriteNumber("dayCount", day.DayCount);
        Kwh("useKwh", day.UseKwh);
        Kwh("sunToHomeKwh", day.SunToHomeKwh);
        Kwh("batteryToHomeKwh", day.BatteryToHomeKwh);
        Kwh("gridToHomeKwh", day.GridToHomeKwh);
        Kwh("intoBatteryKwh", day.IntoBatteryKwh);
        Kwh("soldKwh", day.SoldKwh);
        json.WriteEndObject();

        void Kwh(string name, double kwh) => json.WriteNumber(name, Math.Round(kwh, 6));
    }

    // Each result's document as it is written alone, numbers digit by digit.
    private static void Part(Utf8JsonWriter json, string name, Action<Stream> write)
    {
        using var stream = new MemoryStream();
        write(stream);
        stream.Position = 0;
        using JsonDocument part = JsonDocument.Parse(stream);
        json.WritePropertyName(name);
        part.RootElement.WriteTo(json);
    }
}
