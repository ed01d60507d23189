using System.Text.Encodings.Web;
using System.Text.Json;
using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Studies;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>Writes a comparison as one JSON document. Numbers are numbers, dates ISO 8601, energies kWh, money in the stated currency.</summary>
public static class ComparisonJson
{
    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="comparison">The result.</param>
    public static void Write(Stream stream, Comparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        json.WriteStartObject();
        json.WriteString("home", comparison.Home);
        json.WriteString("tariff", comparison.Tariff);
        json.WriteString("currency", comparison.Currency);
        json.WriteNumber("stepMinutes", comparison.StepMinutes);
        json.WriteString("from", LocalDatePattern.Iso.Format(comparison.From));
        json.WriteString("to", LocalDatePattern.Iso.Format(comparison.To));
        json.WriteStartArray("notes");
        foreach (string note in comparison.Notes) json.WriteStringValue(note);
        json.WriteEndArray();
        json.WriteStartArray("columns");
        foreach (ComparisonColumn column in comparison.Columns) WriteColumn(json, column);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteColumn(Utf8JsonWriter json, ComparisonColumn column)
    {
        json.WriteStartObject();
        json.WriteString("name", column.Name);
        json.WriteNumber("batteryUnits", column.BatteryUnits);
        if (column.Price is decimal price) json.WriteNumber("price", price);
        else json.WriteNull("price");
        json.WriteNumber("annualBill", column.AnnualBill);
        json.WriteNumber("annualSaving", column.AnnualSaving);
        json.WriteNumber("addedSaving", column.AddedSaving);
        Kwh(json, "importKwh", column.Sums.Kwh(LedgerColumn.ImportKw));
        Kwh(json, "exportKwh", column.Sums.Kwh(LedgerColumn.ExportKw));
        Kwh(json, "loadKwh", column.Sums.Kwh(LedgerColumn.LoadKw));
        Kwh(json, "standbyKwh", column.Sums.Kwh(LedgerColumn.StandbyKw));
        Kwh(json, "solarKwh", column.SolarKwh);
        Kwh(json, "curtailedKwh", column.CurtailedKwh);
        json.WriteNumber("ownSupplyFraction", Math.Round(column.OwnSupplyFraction, 6));
        json.WriteNumber("equivalentFullCycles", Math.Round(column.EquivalentFullCycles, 4));
        Kwh(json, "overloadKwh", column.Sums.Kwh(LedgerColumn.OverloadKw));
        Kwh(json, "storedStartKwh", column.Sums.StartKwh);
        Kwh(json, "storedEndKwh", column.Sums.EndKwh);
        json.WriteStartObject("limitHours");
        foreach ((Limit limit, double hours) in column.LimitHours) json.WriteNumber(Limits.NameOf(limit), hours);
        json.WriteEndObject();
        json.WriteStartArray("months");
        foreach (Bill bill in column.Bills.Bills) WriteBill(json, bill);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteBill(Utf8JsonWriter json, Bill bill)
    {
        json.WriteStartObject();
        json.WriteString("from", LocalDatePattern.Iso.Format(bill.From));
        json.WriteString("to", LocalDatePattern.Iso.Format(bill.To));
        json.WriteNumber("bill", bill.Total);
        json.WriteStartArray("lines");
        foreach (BillLine line in bill.Lines)
        {
            json.WriteStartObject();
            json.WriteString("kind", line.Kind);
            json.WriteString("name", line.Name);
            json.WriteNumber("quantity", line.Quantity);
            json.WriteString("unit", line.Unit);
            json.WriteNumber("unitPrice", line.UnitPrice);
            json.WriteNumber("amount", line.Amount);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    // Six decimals: beyond the rounding of the sums themselves.
    private static void Kwh(Utf8JsonWriter json, string name, double kwh) => json.WriteNumber(name, Math.Round(kwh, 6));
}
