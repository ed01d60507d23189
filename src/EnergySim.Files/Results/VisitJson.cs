using System.Text.Json;
using EnergySim.Studies.Outages;
using EnergySim.Studies.Visit;

namespace EnergySim.Files;

/// <summary>Writes what moves at once at the table: the comparison as <see cref="ComparisonJson"/> has it, the named outage, and how the ways stand.</summary>
public static class VisitJson
{
    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="answer">The answer.</param>
    public static void Write(Stream stream, VisitAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteStartObject("comparison");
        ComparisonJson.WriteContent(json, answer.Comparison);
        json.WriteEndObject();
        json.WriteStartObject("outage");
        json.WriteBoolean("keepsNothing", answer.Visit.KeepsNothing);
        OutageJson.WriteTerms(json, answer.Visit.Terms);
        json.WriteList("offers", answer.Outage, offer => WriteOffer(json, offer));
        json.WriteEndObject();
        json.WriteList("fits", answer.Visit.Fits, fits => WriteFits(json, fits));
        json.WriteList("notes", answer.Visit.Notes, json.WriteStringValue);
        json.WriteEndObject();
    }

    private static void WriteOffer(Utf8JsonWriter json, OfferInOutage offer)
    {
        json.WriteStartObject();
        json.WriteString("name", offer.Offer);
        json.WriteNumber("batteryUnits", offer.BatteryUnits);
        OutageJsonParts.WriteNamed(json, offer.Named);
        OutageJsonParts.WriteVerdicts(json, offer.Verdicts);
        json.WriteEndObject();
    }

    private static void WriteFits(Utf8JsonWriter json, OfferFits fits)
    {
        json.WriteStartObject();
        json.WriteString("offer", fits.Offer);
        json.WriteNumber("codeEdition", fits.Edition.Year);
        json.WriteString("firstWay", fits.First?.Way.Name);
        json.WriteList("ways", fits.Ways, way =>
        {
            json.WriteStartObject();
            WiringJson.WriteFit(json, way);
            json.WriteEndObject();
        });
        json.WriteEndObject();
    }
}
