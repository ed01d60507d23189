using System.Text.Json;

namespace EnergySim.Files;

/// <summary>Writes what a run of a sweep came to as one JSON document; the rows are in the table.</summary>
public static class SweepJson
{
    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="reading">The sweep.</param>
    /// <param name="summary">What it came to.</param>
    public static void Write(Stream stream, SweepReading reading, SweepSummary summary)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(summary);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("sweep", reading.Plan.Name);
        json.WriteString("planHash", reading.PlanHash);
        json.WriteList("homes", reading.Plan.Homes, json.WriteStringValue);
        json.WriteList("tariffs", reading.Plan.Tariffs, json.WriteStringValue);
        json.WriteList("inputs", reading.Plan.Inputs, input => json.WriteStringValue(input.Name));
        json.WriteNumber("variants", summary.Rows);
        json.WriteNumber("variantsRun", summary.Run);
        json.WriteNumber("variantsFound", summary.Found);
        json.WriteNumber("errors", summary.Errors);
        json.WriteNumber("seconds", Math.Round(summary.Seconds, 3));
        json.WriteBoolean("isStopped", summary.IsStopped);
        json.WriteString("table", summary.Table);
        json.WriteEndObject();
    }
}
