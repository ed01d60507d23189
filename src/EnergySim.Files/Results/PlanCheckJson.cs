using System.Text.Json;
using EnergySim.Studies.Plans;
using EnergySim.Tariffs;

namespace EnergySim.Files;

/// <summary>Writes what a tariff file was understood to say as one JSON document.</summary>
public static class PlanCheckJson
{
    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="check">The result.</param>
    public static void Write(Stream stream, PlanCheck check)
    {
        ArgumentNullException.ThrowIfNull(check);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("tariff", check.Tariff?.Name);
        json.WriteString("publisher", check.Tariff?.Publisher);
        json.WriteString("currency", check.Tariff?.Currency);
        json.WriteString("zone", check.Tariff?.Zone.Id);
        json.WriteList("findings", check.Findings, json.WriteStringValue);
        json.WriteList("versions", check.Versions, version => WriteVersion(json, version));
        json.WriteEndObject();
    }

    private static void WriteVersion(Utf8JsonWriter json, VersionReading version)
    {
        json.WriteStartObject();
        json.WriteDate("effective", version.Version.Effective);
        json.WriteList("pictures", version.Pictures, picture =>
        {
            json.WriteStartObject();
            json.WriteString("day", picture.Day.ToString().ToLowerInvariant());
            json.WriteList("rows", picture.Rows, row =>
            {
                json.WriteStartObject();
                json.WriteNumber("month", row.Month);
                json.WriteNumber("fromDay", row.FromDay);
                json.WriteNumber("toDay", row.ToDay);
                json.WriteString("season", row.Season);
                json.WriteList("periodByHalfHour", row.Periods, json.WriteStringValue);
                json.WriteEndObject();
            });
            json.WriteEndObject();
        });
        json.WriteList("prices", version.Prices, entry =>
        {
            json.WriteStartObject();
            json.WriteString("season", entry.Season);
            json.WriteString("period", entry.Period);
            json.WriteNumber("totalPerKwh", entry.Price.TotalPerKwh);
            json.WriteStartObject("partsPerKwh");
            foreach (PricePart part in entry.Price.Parts) json.WriteNumber(part.Part, part.PricePerKwh);
            json.WriteEndObject();
            json.WriteEndObject();
        });
        json.WriteList("sampleBills", version.SampleBills, sample =>
        {
            json.WriteStartObject();
            json.WriteString("season", sample.Season);
            json.WritePropertyName("bill");
            json.WriteBill(sample.Bill);
            json.WriteEndObject();
        });
        json.WriteEndObject();
    }
}
