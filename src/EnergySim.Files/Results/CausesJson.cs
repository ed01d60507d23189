using System.Text.Json;
using EnergySim.Studies.Causes;

namespace EnergySim.Files;

/// <summary>Writes why each offer saves as one JSON document.</summary>
public static class CausesJson
{
    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="currency">ISO 4217 code.</param>
    /// <param name="offers">The causes of each offer.</param>
    public static void Write(Stream stream, string currency, IReadOnlyList<SavingCauses> offers)
    {
        ArgumentNullException.ThrowIfNull(offers);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("currency", currency);
        json.WriteList("offers", offers, offer =>
        {
            json.WriteStartObject();
            json.WriteString("name", offer.Name);
            json.WriteNumber("annualSaving", offer.Saving);
            WriteCauses(json, offer);
            json.WriteEndObject();
        });
        json.WriteEndObject();
    }

    internal static void WriteCauses(Utf8JsonWriter json, SavingCauses offer)
    {
        json.WriteStartObject("causes");
        foreach (SavingCause cause in offer.Causes) json.WriteNumber(JsonNamingPolicy.CamelCase.ConvertName(cause.Cause.ToString()), cause.Amount);
        json.WriteEndObject();
    }
}
