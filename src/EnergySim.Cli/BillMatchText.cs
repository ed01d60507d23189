using System.Globalization;
using EnergySim.Studies.Bills;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>Prints bills re-created beside those stated.</summary>
internal static class BillMatchText
{
    public static void Write(TextWriter output, Home home, string column, IReadOnlyList<BillMatch> matches)
    {
        output.WriteLine($"{home.Name}, {column} · {home.Tariff.Name} · the stated bills re-created");
        foreach (BillMatch match in matches)
        {
            output.WriteLine();
            output.WriteLine($"{BillText.Span(match.Computed)}: stated {BillText.Money(match.Stated.Total)}, computed {BillText.Money(match.Computed.Total)}, "
                + (match.Agrees ? "the same to the cent" : match.Difference == 0 ? "the same total; lines differ" : $"difference {Signed(match.Difference)}"));
            if (match.Lines.Count > 0) Output.WriteTable(output, TableOf(match));
            Output.WriteNotes(output, match.Hints.Select(h => char.ToUpperInvariant(h[0]) + h[1..] + "."));
        }
    }

    private static Table TableOf(BillMatch match)
    {
        Table table = Output.NewTable();
        table.AddColumn("stated line");
        table.AddColumn("computed line");
        foreach (string header in (string[])["stated", "computed", "difference"]) table.AddFigures(header);
        table.AddColumn("because");
        foreach (MatchedLine line in match.Lines)
            table.AddTexts(line.Stated?.Name ?? "(none)", line.Computed?.Name ?? "(none)", Amount(line.Stated?.Amount), Amount(line.Computed?.Amount),
                line.Difference == 0 ? "" : Signed(line.Difference), line.Difference == 0 ? "" : Because(line));
        decimal notItemised = match.Stated.Total - match.Stated.Lines.Sum(l => l.Amount);
        if (notItemised != 0) table.AddTexts("(in their total, on no line)", "", BillText.Money(notItemised), "", Signed(-notItemised), "");
        return table;
    }

    private static string Because(MatchedLine line)
    {
        if (line.Computed is null) return "we have no such line";
        if (line.Stated is null) return "they state no such line";
        var reasons = new List<string>();
        if (line.QuantityDifference is decimal quantity && quantity != 0) reasons.Add($"{quantity.ToString("+#,0.######;-#,0.######", CultureInfo.InvariantCulture)} {line.Computed.Unit}");
        if (line.PriceDifference is decimal price && price != 0) reasons.Add($"price {price.ToString("+0.######;-0.######", CultureInfo.InvariantCulture)}");
        if (reasons.Count > 0) return string.Join(", ", reasons);
        return line.QuantityDifference is null || line.PriceDifference is null ? "quantity or price not stated" : "their quantity × price is not their amount";
    }

    private static string Amount(decimal? amount) => amount is decimal value ? BillText.Money(value) : "";

    private static string Signed(decimal amount) => amount.ToString("+#,0.00;-#,0.00", CultureInfo.InvariantCulture);
}
