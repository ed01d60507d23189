using System.Globalization;
using EnergySim.Billing;
using EnergySim.Studies;
using NodaTime;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>Prints bills line by line: side by side, one installation with its prices, or what one saves on each line.</summary>
internal sealed class BillText(TextWriter output, Comparison comparison, YearMonth? month)
{
    public void WriteTitle()
    {
        if (month is YearMonth asked && BillsOf(comparison.Columns[0]).Count == 0)
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"--month {asked:uuuu-MM}: no bill has a day in it; the data run from {comparison.From:uuuu-MM-dd} to {comparison.To:uuuu-MM-dd}."));
        IReadOnlyList<Bill> bills = BillsOf(comparison.Columns[0]);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{comparison.Home} · {comparison.Tariff} · bills from {bills[0].From:uuuu-MM-dd} to {bills[^1].To:uuuu-MM-dd}"));
        output.WriteLine();
    }

    public void WriteSideBySide()
    {
        var byColumn = comparison.Columns.Select(c => SummedLine.Of(BillsOf(c))).ToList();
        var keys = byColumn.SelectMany(lines => lines.Select(l => (l.Kind, l.Name, l.Unit))).Distinct().ToList();
        string[] kinds = [.. keys.Select(k => k.Kind).Distinct()];
        Table table = Output.NewTable();
        table.AddColumn("");
        foreach (ComparisonColumn column in comparison.Columns)
        {
            table.AddFigures(column.Name);
            table.AddFigures(comparison.Currency);
        }
        foreach ((string kind, string name, string unit) in keys.OrderBy(k => Array.IndexOf(kinds, k.Kind)))
            table.AddTexts(byColumn.SelectMany(lines => lines.FirstOrDefault(l => l.Kind == kind && l.Name == name && l.Unit == unit) is SummedLine line
                ? new[] { Quantity(line.Quantity, unit), Money(line.Amount) } : ["", ""]).Prepend(name));
        table.AddTexts(comparison.Columns.SelectMany(c => new[] { "", Money(BillsOf(c).Sum(b => b.Total)) }).Prepend("together"));
        Output.WriteTable(output, table);
        if (BillsOf(comparison.Columns[0]).Count == 1) return;

        table = Output.NewTable();
        table.AddColumn($"each bill, {comparison.Currency}");
        foreach (ComparisonColumn column in comparison.Columns) table.AddFigures(column.Name);
        for (int b = 0; b < BillsOf(comparison.Columns[0]).Count; b++)
            table.AddTexts(comparison.Columns.Select(c => Money(BillsOf(c)[b].Total)).Prepend(Span(BillsOf(comparison.Columns[0])[b])));
        Output.WriteTable(output, table);
    }

    public void WriteLines(ComparisonColumn column)
    {
        IReadOnlyList<Bill> bills = BillsOf(column);
        IReadOnlyList<SummedLine> lines = SummedLine.Of(bills);
        Table table = Output.NewTable();
        table.AddColumn(column.Name);
        table.AddFigures("quantity");
        table.AddFigures("price");
        table.AddFigures(comparison.Currency);
        foreach (IGrouping<string, SummedLine> kind in lines.GroupBy(l => l.Kind))
        {
            foreach (SummedLine line in kind)
                table.AddTexts(line.Name, QuantityBesidePrice(line), line.UnitPrice is decimal price ? Price(price) : "several", Money(line.Amount));
            if (kind.Count() > 1) table.AddTexts($"  {kind.Key}, together", "", "", Money(kind.Sum(l => l.Amount)));
        }
        table.AddTexts("together", "", "", Money(bills.Sum(b => b.Total)));
        decimal unrounded = bills.Sum(b => b.Unrounded);
        table.AddTexts("  before rounding", "", "", unrounded.ToString("#,0.000000", CultureInfo.InvariantCulture));
        Output.WriteTable(output, table);
    }

    public void WriteDifference(ComparisonColumn column)
    {
        BillDifference difference = BillDifference.Of(
            comparison.Columns[0].Bills with { Bills = BillsOf(comparison.Columns[0]) }, column.Bills with { Bills = BillsOf(column) });
        Table table = Output.NewTable();
        table.AddColumn($"{column.Name} against {comparison.Columns[0].Name}");
        foreach (string header in (string[])["before", "after", $"before, {comparison.Currency}", $"after, {comparison.Currency}", "saved"]) table.AddFigures(header);
        foreach (DifferenceLine line in difference.Lines)
            table.AddTexts(line.Name, Quantity(line.BeforeQuantity, line.Unit), Quantity(line.AfterQuantity, line.Unit), Money(line.Before), Money(line.After), Money(line.Saved));
        table.AddTexts("together", "", "", Money(difference.Lines.Sum(l => l.Before)), Money(difference.Lines.Sum(l => l.After)), Money(difference.Saved));
        Output.WriteTable(output, table);
    }

    private IReadOnlyList<Bill> BillsOf(ComparisonColumn column) => month is not YearMonth asked
        ? column.Bills.Bills
        : [.. column.Bills.Bills.Where(b => b.From.ToYearMonth() <= asked && b.To.ToYearMonth() >= asked)];

    internal static string Span(Bill bill) => string.Create(CultureInfo.InvariantCulture, $"{bill.From:uuuu-MM-dd} to {bill.To:uuuu-MM-dd}");

    // A credit or a charge once a bill is one of something: its amount says it.
    internal static string Quantity(decimal quantity, string unit) => unit switch
    {
        _ when quantity == 0 => "",
        "kWh" => quantity.ToString("#,0.0", CultureInfo.InvariantCulture) + " kWh",
        "kW" or "day" => $"{quantity.ToString("#,0.##", CultureInfo.InvariantCulture)} {unit}",
        _ => "",
    };

    // The base of a percentage is worth saying where its rate stands beside it.
    private static string QuantityBesidePrice(SummedLine line) => line.Unit is not ("kWh" or "kW" or "day") && line.UnitPrice is not null && line.Quantity != 1
        ? $"{line.Quantity.ToString("#,0.##", CultureInfo.InvariantCulture)} {line.Unit}" : Quantity(line.Quantity, line.Unit);

    internal static string Price(decimal price) => price.ToString("0.00####", CultureInfo.InvariantCulture);

    internal static string Money(decimal amount) => amount.ToString("#,0.00", CultureInfo.InvariantCulture);
}
