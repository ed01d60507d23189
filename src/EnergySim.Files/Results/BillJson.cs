using System.Text.Json;
using EnergySim.Billing;
using EnergySim.Studies;
using EnergySim.Studies.Bills;
using EnergySim.Studies.Plans;

namespace EnergySim.Files;

/// <summary>Writes bills as one JSON document: a plan or several, each installation's bills line by line, and what differs from the home as it is.</summary>
public static class BillJson
{
    /// <summary>Writes bills of one home under one or several plans.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="plans">The result.</param>
    public static void Write(Stream stream, PlanComparison plans)
    {
        ArgumentNullException.ThrowIfNull(plans);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("home", plans.Home);
        json.WriteList("plans", plans.Plans, plan => WritePlan(json, plan));
        json.WriteList("cheapest", plans.Cheapest, cheapest =>
        {
            json.WriteStartObject();
            json.WriteString("name", cheapest.Column);
            json.WriteString("tariff", cheapest.Plan);
            json.WriteNumber("bill", cheapest.Bill);
            json.WriteNumber("belowFirst", cheapest.BelowFirst);
            json.WriteEndObject();
        });
        json.WriteEndObject();
    }

    /// <summary>Writes how computed bills agree with stated ones.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="matches">The result.</param>
    public static void Write(Stream stream, IReadOnlyList<BillMatch> matches)
    {
        ArgumentNullException.ThrowIfNull(matches);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteBoolean("agrees", matches.All(m => m.Agrees));
        json.WriteList("bills", matches, match =>
        {
            json.WriteStartObject();
            json.WriteDate("from", match.Stated.From);
            json.WriteDate("to", match.Stated.To);
            json.WriteBoolean("agrees", match.Agrees);
            json.WriteNumber("computed", match.Computed.Total);
            json.WriteNumber("stated", match.Stated.Total);
            json.WriteNumber("difference", match.Difference);
            json.WriteList("hints", match.Hints, json.WriteStringValue);
            json.WriteList("lines", match.Lines, line => WriteMatched(json, line));
            json.WriteEndObject();
        });
        json.WriteEndObject();
    }

    private static void WritePlan(Utf8JsonWriter json, Comparison plan)
    {
        json.WriteStartObject();
        json.WriteString("tariff", plan.Tariff);
        json.WriteString("currency", plan.Currency);
        json.WriteDate("from", plan.From);
        json.WriteDate("to", plan.To);
        json.WriteList("notes", plan.Notes, json.WriteStringValue);
        json.WriteList("columns", plan.Columns, column =>
        {
            json.WriteStartObject();
            json.WriteString("name", column.Name);
            json.WriteNumber("bill", column.Bills.Total);
            json.WriteNumber("unrounded", column.Bills.Bills.Sum(b => b.Unrounded));
            json.WriteList("lines", SummedLine.Of(column.Bills.Bills), line => WriteSummed(json, line));
            json.WriteList("bills", column.Bills.Bills, bill => json.WriteBill(bill));
            json.WriteNumber("saved", plan.Columns[0].AnnualBill - column.AnnualBill);
            json.WriteList("savedByLine", BillDifference.Of(plan.Columns[0].Bills, column.Bills).Lines, line => WriteDifference(json, line));
            json.WriteEndObject();
        });
        json.WriteEndObject();
    }

    private static void WriteSummed(Utf8JsonWriter json, SummedLine line)
    {
        json.WriteStartObject();
        json.WriteString("kind", line.Kind);
        json.WriteString("name", line.Name);
        json.WriteNumber("quantity", line.Quantity);
        json.WriteString("unit", line.Unit);
        json.WriteMoney("unitPrice", line.UnitPrice);
        json.WriteNumber("amount", line.Amount);
        json.WriteEndObject();
    }

    private static void WriteDifference(Utf8JsonWriter json, DifferenceLine line)
    {
        json.WriteStartObject();
        json.WriteString("kind", line.Kind);
        json.WriteString("name", line.Name);
        json.WriteString("unit", line.Unit);
        json.WriteNumber("beforeQuantity", line.BeforeQuantity);
        json.WriteNumber("afterQuantity", line.AfterQuantity);
        json.WriteNumber("before", line.Before);
        json.WriteNumber("after", line.After);
        json.WriteNumber("saved", line.Saved);
        json.WriteEndObject();
    }

    private static void WriteMatched(Utf8JsonWriter json, MatchedLine line)
    {
        json.WriteStartObject();
        json.WritePropertyName("computed");
        if (line.Computed is BillLine computed) json.WriteLine(computed);
        else json.WriteNullValue();
        json.WritePropertyName("stated");
        if (line.Stated is StatedLine stated) WriteStated(json, stated);
        else json.WriteNullValue();
        json.WriteNumber("difference", line.Difference);
        json.WriteMoney("quantityDifference", line.QuantityDifference);
        json.WriteMoney("unitPriceDifference", line.PriceDifference);
        json.WriteEndObject();
    }

    private static void WriteStated(Utf8JsonWriter json, StatedLine line)
    {
        json.WriteStartObject();
        json.WriteString("kind", line.Kind);
        json.WriteString("name", line.Name);
        json.WriteMoney("quantity", line.Quantity);
        json.WriteString("unit", line.Unit);
        json.WriteMoney("unitPrice", line.UnitPrice);
        json.WriteNumber("amount", line.Amount);
        json.WriteEndObject();
    }
}
