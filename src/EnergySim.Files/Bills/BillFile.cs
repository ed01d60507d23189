using System.Globalization;
using EnergySim.Profiles.Shapes;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>
/// Reads bills (CSV) with a header: <c>month,kwh</c> (2025-01) or <c>from,to,kwh</c> (first and last day), and perhaps <c>peak_kw</c>. Nothing is guessed.
/// </summary>
public static class BillFile
{
    private static readonly string[] s_columns = ["month", "from", "to", "kwh", "peak_kw"];

    /// <summary>Reads the bills.</summary>
    /// <param name="file">The file.</param>
    /// <exception cref="ProblemsException">The file can not be read, or breaks a rule.</exception>
    public static IReadOnlyList<MeteredBill> Read(string file)
    {
        var problems = new ProblemList();
        var bills = new List<MeteredBill>();
        if (InputText.Read(file, problems) is string text) Read(file, text.TrimStart('\uFEFF'), bills, problems);
        problems.ThrowIfAny();
        for (int i = 1; i < bills.Count; i++)
            if (bills[i].From != bills[i - 1].To.PlusDays(1))
                problems.Add(new Problem
                {
                    File = file,
                    Field = "from",
                    Value = LocalDatePattern.Iso.Format(bills[i].From),
                    Rule = $"is not the day after the bill before it ends ({LocalDatePattern.Iso.Format(bills[i - 1].To)}); bills follow one another",
                });
        if (bills.Count == 0) problems.Add(new Problem { File = file, Rule = "the file has no bills below its header" });
        problems.ThrowIfAny();
        return bills;
    }

    /// <summary>Days and months of a meter file as bills.</summary>
    /// <exception cref="ProblemsException">A reading is missing, or something was sold.</exception>
    public static IReadOnlyList<MeteredBill> Of(MeterData data)
    {
        ArgumentNullException.ThrowIfNull(data);
        if (data.ExportKwh > 0) throw new ProblemsException([new Problem { File = data.File, Rule = "something was sold in these months; what was bought is then not what the house used, and can not be laid out over the year" }]);
        var bills = new List<MeteredBill>();
        foreach (MeterSpan span in data.Spans)
        {
            LocalDate from = span.Start.InZone(data.Zone).Date, to = span.End.InZone(data.Zone).Date.PlusDays(-1);
            if (span.ImportKwh is not double kwh || to < from)
                throw new ProblemsException([new Problem { File = data.File, Value = LocalDatePattern.Iso.Format(from), Rule = "has no number, or is shorter than a day" }]);
            bills.Add(new MeteredBill { From = from, To = to, Kwh = kwh });
        }
        return bills;
    }

    private static void Read(string file, string text, List<MeteredBill> bills, ProblemList problems)
    {
        var lines = new CsvLines(text);
        var headers = new List<string>();
        if (lines.NextLine())
            while (lines.NextField(out ReadOnlySpan<char> field)) headers.Add(field.ToString().ToLowerInvariant());
        foreach (string header in headers)
            if (!s_columns.Contains(header)) problems.Add(new Problem { File = file, Line = 1, Field = "header", Value = SafeText.Of(header), Rule = $"is no column of a file of bills (month,kwh or from,to,kwh, and perhaps peak_kw){Nearest.Hint(header, s_columns)}" });
        bool byMonth = headers.Contains("month");
        foreach (string needed in byMonth ? ["month", "kwh"] : (string[])["from", "to", "kwh"])
            if (!headers.Contains(needed)) problems.Add(new Problem { File = file, Line = 1, Field = "header", Rule = $"the column {needed} is missing" });
        if (problems.Count > 0) return;
        while (!lines.IsAtEnd && lines.NextLine())
        {
            var fields = new Dictionary<string, string>(StringComparer.Ordinal);
            int line = lines.Line, index = 0;
            for (; lines.NextField(out ReadOnlySpan<char> field); index++)
                if (index < headers.Count) fields[headers[index]] = field.ToString();
            if (index == 1 && fields.Values.First().Length == 0) continue;
            var row = new BillRow(file, line, fields, problems);
            if (index != headers.Count) problems.Add(new Problem { File = file, Line = line, Rule = string.Create(CultureInfo.InvariantCulture, $"the row has {index} fields where the header has {headers.Count}") });
            else if (row.Bill(byMonth) is MeteredBill bill) bills.Add(bill);
        }
    }

    private sealed class BillRow(string file, int line, Dictionary<string, string> fields, ProblemList problems)
    {
        public MeteredBill? Bill(bool byMonth)
        {
            int before = problems.Count;
            LocalDate? from, to;
            if (byMonth)
            {
                ParseResult<YearMonth> month = YearMonthPattern.Iso.Parse(fields["month"]);
                if (!month.Success) Report("month", "is not a month such as 2025-01");
                from = month.Success ? month.Value.OnDayOfMonth(1) : null;
                to = from?.PlusMonths(1).PlusDays(-1);
            }
            else
            {
                from = Date("from");
                to = Date("to");
                if (from > to) Report("to", "is before the bill's first day");
            }
            double? kwh = Number("kwh"), peak = fields.TryGetValue("peak_kw", out string? text) && text.Length > 0 ? Number("peak_kw") : null;
            return problems.Count > before ? null : new MeteredBill { From = from!.Value, To = to!.Value, Kwh = kwh!.Value, PeakKw = peak };
        }

        private LocalDate? Date(string field)
        {
            ParseResult<LocalDate> date = LocalDatePattern.Iso.Parse(fields[field]);
            if (date.Success) return date.Value;
            Report(field, "is not a date such as 2025-01-31");
            return null;
        }

        private double? Number(string field)
        {
            if (double.TryParse(fields[field], NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && number >= 0 && double.IsFinite(number)) return number;
            Report(field, "is not a number ≥ 0");
            return null;
        }

        private void Report(string field, string rule) =>
            problems.Add(new Problem { File = file, Line = line, Field = field, Value = SafeText.Of(fields[field]), Rule = rule });
    }
}
