using System.Text.Json;
using EnergySim.Solar;
using EnergySim.Studies.Solar;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>Writes a solar yield as one JSON document. Months run January first, hours 0 to 23 on the local clock; unknown is null.</summary>
public static class SolarJson
{
    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="solar">The yield.</param>
    public static void Write(Stream stream, SolarYield solar)
    {
        ArgumentNullException.ThrowIfNull(solar);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("home", solar.Home);
        json.WriteString("from", LocalDatePattern.Iso.Format(solar.From));
        json.WriteString("to", LocalDatePattern.Iso.Format(solar.To));
        json.WriteString("measure", solar.IsDc ? "dc" : "ac");
        Value(json, "ratedKw", solar.RatedKw);
        Value(json, "kwh", solar.Kwh);
        Value(json, "kwhPerKw", solar.RatedKw is double rated ? solar.Kwh / rated : null);
        Values(json, "kwhByMonth", solar.KwhByMonth);
        json.WriteStartArray("planes");
        foreach (PlaneYield plane in solar.Planes) WritePlane(json, plane);
        json.WriteEndArray();
        json.WriteStartArray("meanKwByMonthAndHour");
        foreach (IReadOnlyList<double>? month in solar.KwByMonthAndHour)
        {
            if (month is null) json.WriteNullValue();
            else Array(json, month);
        }
        json.WriteEndArray();
        json.WriteStartArray("uses");
        foreach (SolarUse use in solar.Uses)
        {
            json.WriteStartObject();
            json.WriteString("name", use.Name);
            Value(json, "clippedKwh", use.ClippedKwh);
            Value(json, "curtailedDcKwh", use.CurtailedDcKwh);
            Value(json, "curtailedAcKwh", use.CurtailedAcKwh);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WritePropertyName("darkSpells");
        if (solar.DarkSpells is DarkSpells spells) DarkSpellsJson.Write(json, spells, solar.SpellOdds);
        else json.WriteNullValue();
        json.WriteStartArray("notes");
        foreach (string note in solar.Notes) json.WriteStringValue(note);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WritePlane(Utf8JsonWriter json, PlaneYield plane)
    {
        json.WriteStartObject();
        json.WriteString("name", plane.Name);
        Value(json, "tiltDegrees", plane.Plane?.TiltDegrees);
        Value(json, "azimuthDegrees", plane.Plane?.AzimuthDegrees);
        Value(json, "ratedKw", plane.Plane?.RatedKw);
        Value(json, "kwh", plane.Kwh);
        Value(json, "kwhPerKw", plane.KwhPerKw);
        Values(json, "kwhByMonth", plane.KwhByMonth);
        Values(json, "incidentKwhPerM2ByMonth", plane.IncidentKwhPerM2ByMonth);
        json.WriteEndObject();
    }

    private static void Values(Utf8JsonWriter json, string name, IReadOnlyList<double> values)
    {
        json.WritePropertyName(name);
        Array(json, values);
    }

    private static void Array(Utf8JsonWriter json, IReadOnlyList<double> values)
    {
        json.WriteStartArray();
        foreach (double value in values) json.WriteNumberValue(Math.Round(value, 4));
        json.WriteEndArray();
    }

    private static void Value(Utf8JsonWriter json, string name, double? value)
    {
        if (value is double known) json.WriteNumber(name, Math.Round(known, 4));
        else json.WriteNull(name);
    }
}
