using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using EnergySim.Billing;
using EnergySim.Studies.Bills;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>
/// Bills as CSV: a row a line, and a row of kind <c>total</c> a bill. Columns: bill_from, bill_to (ISO dates, both within the bill), kind,
/// line, quantity, unit, unit_price (money per unit), amount (money).
/// </summary>
public static class BillCsv
{
    private const string Total = "total";

    private static readonly string[] s_columns = ["bill_from", "bill_to", "kind", "line", "quantity", "unit", "unit_price", "amount"];
    private static readonly string[] s_required = ["bill_from", "bill_to", "amount"];

    /// <summary>Writes bills, whole or not at all.</summary>
    /// <param name="path">Where they go.</param>
    /// <param name="bills">The bills.</param>
    /// <exception cref="IOException">The folder is missing, full or closed to us.</exception>
    public static void Write(string path, BillSet bills)
    {
        ArgumentNullException.ThrowIfNull(bills);
        WholeFile.Write(path, stream =>
        {
            using var text = new StreamWriter(stream, new UTF8Encoding(false), leaveOpen: true);
            using var csv = new CsvWriter(text, new CsvConfiguration(CultureInfo.InvariantCulture) { NewLine = "\n" });
            foreach (string column in s_columns) csv.WriteField(column);
            csv.NextRecord();
            foreach (Bill bill in bills.Bills)
            {
                foreach (BillLine line in bill.Lines) WriteRow(csv, bill, line.Kind, line.Name, line.Quantity, line.Unit, line.UnitPrice, line.Amount);
                WriteRow(csv, bill, Total, "", null, bills.Currency, null, bill.Total);
            }
        });
    }

    /// <summary>Reads bills that somebody states: their lines, or just a row of kind <c>total</c> each.</summary>
    /// <param name="path">The file; of its columns bill_from, bill_to and amount must be there, the rest may be.</param>
    /// <returns>The bills by their first date.</returns>
    /// <exception cref="ProblemsException">The file can not be read, or a row does not fit.</exception>
    public static IReadOnlyList<StatedBill> Read(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var problems = new ProblemList();
        var rows = new List<Row>();
        if (InputText.Read(path, problems) is string text) ReadRows(path, text, rows, problems);
        problems.ThrowIfAny();
        var bills = new List<StatedBill>();
        foreach (var same in rows.GroupBy(r => (r.From, r.To)).OrderBy(g => g.Key.From))
        {
            Row[] totals = [.. same.Where(r => r.IsTotal)];
            StatedLine[] lines = [.. same.Where(r => !r.IsTotal).Select(r => r.Line)];
            if (totals.Length > 1) Report(totals[1].At, "line", Total, "stands twice for one bill");
            if (bills.Count > 0 && same.Key.From <= bills[^1].To) Report(same.First().At, "bill_from", Iso(same.Key.From), $"lies in the bill before it, which ends on {Iso(bills[^1].To)}");
            bills.Add(new StatedBill { From = same.Key.From, To = same.Key.To, Lines = lines, Total = totals.Length > 0 ? totals[0].Line.Amount : lines.Sum(l => l.Amount) });
        }
        if (rows.Count == 0) problems.Add(new Problem { File = path, Rule = "there is no bill in it" });
        problems.ThrowIfAny();
        return bills;

        void Report(int line, string field, string value, string rule) =>
            problems.Add(new Problem { File = path, Line = line, Field = field, Value = value, Rule = rule });
    }

    private static void ReadRows(string path, string text, List<Row> rows, ProblemList problems)
    {
        using var csv = new CsvReader(new StringReader(text), new CsvConfiguration(CultureInfo.InvariantCulture) { TrimOptions = TrimOptions.Trim, BadDataFound = null });
        if (!csv.Read() || !csv.ReadHeader())
        {
            problems.Add(new Problem { File = path, Rule = "the file is empty" });
            return;
        }
        string[] header = csv.HeaderRecord!;
        foreach (string column in header.Where(c => !s_columns.Contains(c)))
            problems.Add(new Problem { File = path, Line = 1, Field = column, Rule = $"is no column of a bill{Nearest.Hint(column, s_columns)}" });
        foreach (string column in s_required.Where(c => !header.Contains(c)))
            problems.Add(new Problem { File = path, Line = 1, Field = column, Rule = "the column is missing" });
        if (problems.Count > 0) return;
        while (csv.Read()) ReadRow(new Fields(csv, path, problems), rows);
    }

    private static void ReadRow(Fields fields, List<Row> rows)
    {
        LocalDate? from = fields.Date("bill_from"), to = fields.Date("bill_to");
        decimal? quantity = fields.Number("quantity"), price = fields.Number("unit_price"), amount = fields.Number("amount");
        string kind = fields.Text("kind"), name = fields.Text("line");
        if (fields.Text("amount").Length == 0) fields.Report("amount", "is missing");
        bool isTotal = kind == Total || (kind.Length == 0 && name.Length == 0);
        if (from is not LocalDate first || to is not LocalDate last || amount is not decimal money) return;
        if (last < first) fields.Report("bill_to", $"comes before bill_from, {Iso(first)}");
        else rows.Add(new Row(fields.Line, first, last, isTotal, new StatedLine(kind, name, quantity, fields.Text("unit"), price, money)));
    }

    private static void WriteRow(CsvWriter csv, Bill bill, string kind, string name, decimal? quantity, string unit, decimal? price, decimal amount)
    {
        csv.WriteField(Iso(bill.From));
        csv.WriteField(Iso(bill.To));
        csv.WriteField(kind);
        csv.WriteField(name);
        csv.WriteField(quantity?.ToString("0.######", CultureInfo.InvariantCulture));
        csv.WriteField(unit);
        csv.WriteField(price?.ToString("0.############", CultureInfo.InvariantCulture));
        csv.WriteField(amount.ToString("0.00", CultureInfo.InvariantCulture));
        csv.NextRecord();
    }

    private static string Iso(LocalDate date) => LocalDatePattern.Iso.Format(date);

    private sealed record Row(int At, LocalDate From, LocalDate To, bool IsTotal, StatedLine Line);

    /// <summary>The fields of the row at which a reader stands; what does not fit is reported.</summary>
    private sealed class Fields(CsvReader csv, string path, ProblemList problems)
    {
        public int Line => csv.Parser.RawRow;

        public string Text(string column) => csv.TryGetField(column, out string? text) ? text ?? "" : "";

        public decimal? Number(string column)
        {
            if (Text(column) is not { Length: > 0 } text) return null;
            if (decimal.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal number)) return number;
            Report(column, "is no number such as -12.34");
            return null;
        }

        public LocalDate? Date(string column)
        {
            ParseResult<LocalDate> date = LocalDatePattern.Iso.Parse(Text(column));
            if (date.Success) return date.Value;
            Report(column, "is no date; write YYYY-MM-DD");
            return null;
        }

        public void Report(string column, string rule) =>
            problems.Add(new Problem { File = path, Line = Line, Field = column, Value = Text(column), Rule = rule });
    }
}
