using System.Globalization;
using EnergySim.Engine;
using EnergySim.Studies;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>Prints a comparison: a row a question, a column an installation.</summary>
internal static class ComparisonText
{
    private static readonly (Limit Limit, string Words)[] s_limits =
    [
        (Limit.Floor, "at its reserve or empty"),
        (Limit.Full, "full while the sun gave more"),
        (Limit.DischargeRate, "at its most power out"),
        (Limit.ChargeRate, "at its most power in"),
        (Limit.Inverter, "at the inverter's rating"),
        (Limit.InverterBreaker, "at the inverter's breaker"),
        (Limit.Busbar, "held by the busbar guard"),
        (Limit.Import, "charging held by the grid-current cap"),
        (Limit.ImportTarget, "charging held by its import target"),
        (Limit.Export, "export at its cap"),
        (Limit.SolarInput, "solar inputs clipping"),
        (Limit.Overload, "house above the grid-current cap"),
    ];

    public static void Write(TextWriter output, Comparison comparison, IReadOnlyList<string> repairs)
    {
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(output) });
        if (Console.IsOutputRedirected || output != Console.Out) console.Profile.Width = 120;
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{comparison.Home} · {comparison.Tariff} · {comparison.From:uuuu-MM-dd} to {comparison.To:uuuu-MM-dd} in steps of {comparison.StepMinutes} minutes"));
        output.WriteLine();
        console.Write(TableOf(comparison));
        output.WriteLine();
        foreach (string note in comparison.Notes.Concat(repairs)) output.WriteLine($"– {note}");
    }

    private static Table TableOf(Comparison comparison)
    {
        var table = new Table { Border = TableBorder.Simple, ShowRowSeparators = false };
        table.AddColumn(new TableColumn(""));
        foreach (ComparisonColumn column in comparison.Columns) table.AddColumn(new TableColumn(Markup.Escape(column.Name)).RightAligned());
        string span = IsYear(comparison) ? "a year" : "in this span";
        Row($"bill {span}, {comparison.Currency}", c => Money(c.AnnualBill));
        Row($"saved {span}", c => c.BatteryUnits == 0 ? "" : Money(c.AnnualSaving));
        Row("  of which added over the column before", c => c.BatteryUnits == 0 ? "" : Money(c.AddedSaving));
        Row("price", c => c.Price is decimal price ? price.ToString("N0", CultureInfo.InvariantCulture) : "");
        Row("", _ => "");
        Row("bought, kWh", c => Kwh(c.Sums.Kwh(LedgerColumn.ImportKw)));
        Row("sold, kWh", c => Kwh(c.Sums.Kwh(LedgerColumn.ExportKw)));
        Row("used in the house, kWh", c => Kwh(c.Sums.Kwh(LedgerColumn.LoadKw)));
        if (comparison.Columns.Any(c => c.SolarKwh > 0))
        {
            Row("from the panels, kWh", c => Kwh(c.SolarKwh));
            Row("  of which lost (clipped or curtailed)", c => Kwh(c.CurtailedKwh));
            Row("load met by the home's own solar", c => c.OwnSupplyFraction.ToString("0.0 %", CultureInfo.InvariantCulture));
        }
        Row("full cycles of the battery", c => c.BatteryUnits == 0 ? "" : c.EquivalentFullCycles.ToString("0", CultureInfo.InvariantCulture));
        Row("", _ => "");
        table.AddRow([new Text("hours in which a limit bound"), .. comparison.Columns.Select(_ => new Text(""))]);
        foreach ((Limit limit, string words) in s_limits)
            if (comparison.Columns.Any(c => c.LimitHours.ContainsKey(limit)))
                Row("  " + words, c => c.LimitHours.GetValueOrDefault(limit).ToString("#,0.##", CultureInfo.InvariantCulture));
        if (comparison.Columns.Any(c => c.Sums.Kwh(LedgerColumn.OverloadKw) > 0))
            Row("  house above the cap, kWh", c => Kwh(c.Sums.Kwh(LedgerColumn.OverloadKw)));
        return table;

        void Row(string name, Func<ComparisonColumn, string> cell) =>
            table.AddRow([new Text(name), .. comparison.Columns.Select(c => new Text(cell(c)))]);
    }

    private static bool IsYear(Comparison comparison) => NodaTime.Period.DaysBetween(comparison.From, comparison.To) + 1 is 365 or 366;

    private static string Money(decimal amount) => amount.ToString("#,0.00", CultureInfo.InvariantCulture);

    private static string Kwh(double kwh) => kwh.ToString("#,0", CultureInfo.InvariantCulture);
}
