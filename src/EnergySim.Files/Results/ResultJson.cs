using System.Text.Encodings.Web;
using System.Text.Json;
using EnergySim.Billing;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>What the JSON documents of all results share: their form, and how bills and their lines are written.</summary>
internal static class ResultJson
{
    /// <summary>Begins a document; dispose to finish it.</summary>
    public static Utf8JsonWriter Open(Stream stream) =>
        new(stream, new JsonWriterOptions { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });

    public static void WriteDate(this Utf8JsonWriter json, string name, LocalDate date) => json.WriteString(name, LocalDatePattern.Iso.Format(date));

    public static void WriteMoney(this Utf8JsonWriter json, string name, decimal? amount)
    {
        if (amount is decimal value) json.WriteNumber(name, value);
        else json.WriteNull(name);
    }

    public static void WriteList<T>(this Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write)
    {
        json.WriteStartArray(name);
        foreach (T item in items) write(item);
        json.WriteEndArray();
    }

    public static void WriteBill(this Utf8JsonWriter json, Bill bill)
    {
        json.WriteStartObject();
        json.WriteDate("from", bill.From);
        json.WriteDate("to", bill.To);
        json.WriteNumber("bill", bill.Total);
        json.WriteNumber("unrounded", bill.Unrounded);
        json.WriteList("lines", bill.Lines, line => json.WriteLine(line));
        json.WriteEndObject();
    }

    public static void WriteLine(this Utf8JsonWriter json, BillLine line)
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
}
