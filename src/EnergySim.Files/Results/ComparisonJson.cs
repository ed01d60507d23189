using System.Text.Json;
using EnergySim.Engine;
using EnergySim.Studies;

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
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        WriteContent(json, comparison);
        json.WriteEndObject();
    }

    internal static void WriteContent(Utf8JsonWriter json, Comparison comparison)
    {
        json.WriteString("home", comparison.Home);
        json.WriteString("tariff", comparison.Tariff);
        json.WriteString("currency", comparison.Currency);
        json.WriteNumber("stepMinutes", comparison.StepMinutes);
        json.WriteDate("from", comparison.From);
        json.WriteDate("to", comparison.To);
        json.WriteList("notes", comparison.Notes, json.WriteStringValue);
        json.WriteList("columns", comparison.Columns, column => WriteColumn(json, column));
    }

    private static void WriteColumn(Utf8JsonWriter json, ComparisonColumn column)
    {
        json.WriteStartObject();
        json.WriteString("name", column.Name);
        json.WriteNumber("batteryUnits", column.BatteryUnits);
        json.WriteMoney("price", column.Price);
        json.WriteNumber("annualBill", column.AnnualBill);
        json.WriteNumber("annualSaving", column.AnnualSaving);
        json.WriteNumber("addedSaving", column.AddedSaving);
        json.WriteMoney("integrityRuleCost", column.IntegrityRuleCost);
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
        json.WriteList("months", column.Bills.Bills, bill => json.WriteBill(bill));
        json.WriteEndObject();
    }

    // Six decimals: beyond the rounding of the sums themselves.
    private static void Kwh(Utf8JsonWriter json, string name, double kwh) => json.WriteNumber(name, Math.Round(kwh, 6));
}
