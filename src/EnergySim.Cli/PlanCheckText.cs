using System.Globalization;
using System.Text;
using EnergySim.Billing;
using EnergySim.Studies.Plans;
using EnergySim.Tariffs;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>Prints what a tariff file was understood to say.</summary>
internal static class PlanCheckText
{
    private const char Mixed = '+';

    public static void Write(TextWriter output, PlanCheck check)
    {
        if (check.Tariff is Tariff tariff)
        {
            output.WriteLine($"{tariff.Name} · {(tariff.Publisher.Length > 0 ? tariff.Publisher : "no publisher named")} · {tariff.Currency} · clock of {tariff.Zone.Id}");
            for (int v = 0; v < check.Versions.Count; v++)
                WriteVersion(output, check.Versions[v], v > 0 && HaveSamePeriods(check.Versions[v - 1], check.Versions[v]), tariff.Currency);
        }
        output.WriteLine();
        output.WriteLine(check.Findings.Count == 0
            ? "Nothing found wrong: every day is in one season, every minute in one period, every price and charge can occur."
            : string.Create(CultureInfo.InvariantCulture, $"{check.Findings.Count} found:"));
        Output.WriteNotes(output, check.Findings);
    }

    private static void WriteVersion(TextWriter output, VersionReading reading, bool periodsAsBefore, string currency)
    {
        output.WriteLine();
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Prices from {reading.Version.Effective:uuuu-MM-dd}"));
        if (periodsAsBefore) output.WriteLine("  with the periods of the prices before");
        else WritePictures(output, reading);
        WritePrices(output, reading, currency);
        output.WriteLine(ChargesInWords(reading.Version, currency));
        foreach ((string season, Bill bill) in reading.SampleBills) WriteSample(output, season, bill, currency, reading.Version.Seasons.Count > 0);
    }

    private static bool HaveSamePeriods(VersionReading left, VersionReading right)
    {
        static IEnumerable<(Time.DayType, int, int, string?)> Cells(VersionReading reading) =>
            reading.Pictures.SelectMany(p => p.Rows.SelectMany(r => r.Periods.Select(period => (p.Day, r.Month, r.FromDay, period))));
        return Cells(left).SequenceEqual(Cells(right));
    }

    private static void WritePictures(TextWriter output, VersionReading reading)
    {
        Dictionary<string, char> signs = SignsOf(reading);
        foreach (PlanPicture picture in reading.Pictures)
        {
            output.WriteLine();
            output.WriteLine($"{picture.Day.ToString().ToLowerInvariant()}s, each sign a half-hour");
            output.WriteLine("             0     3     6     9     12    15    18    21");
            foreach (PlanPictureRow row in picture.Rows) output.WriteLine(RowText(row, signs));
        }
        output.WriteLine();
        output.WriteLine("  " + string.Join("   ", signs.Select(s => $"{s.Value} {s.Key}"))
            + (reading.Pictures.Any(p => p.Rows.Any(r => r.Periods.Contains(null))) ? $"   {Mixed} changes within the half-hour" : ""));
    }

    private static string RowText(PlanPictureRow row, Dictionary<string, char> signs)
    {
        var text = new StringBuilder();
        string month = CultureInfo.InvariantCulture.DateTimeFormat.GetAbbreviatedMonthName(row.Month);
        bool whole = row.FromDay == 1 && row.ToDay == DateTime.DaysInMonth(2024, row.Month);
        text.Append("  ").Append((whole ? month : string.Create(CultureInfo.InvariantCulture, $"{month} {row.FromDay}–{row.ToDay}")).PadRight(11));
        foreach (string? period in row.Periods) text.Append(period is null ? Mixed : signs[period]);
        return text.Append("  ").Append(row.Season == TariffVersion.WholeYear ? "" : row.Season).ToString().TrimEnd();
    }

    // A period's sign is the first letter of its name that no other has; the dearest of all is a capital.
    private static Dictionary<string, char> SignsOf(VersionReading reading)
    {
        var signs = new Dictionary<string, char>();
        string? dearest = reading.Prices.Count == 0 ? null : reading.Prices.MaxBy(p => p.Price.TotalPerKwh).Period;
        foreach (string period in reading.Prices.Select(p => p.Period).Distinct())
        {
            char sign = period.ToLowerInvariant().Concat("abcdefghijklmnopqrstuvwxyz").First(c => char.IsAsciiLetter(c) && !signs.Values.Any(s => char.ToLowerInvariant(s) == c));
            signs.Add(period, period == dearest && reading.Prices.Count > 1 ? char.ToUpperInvariant(sign) : sign);
        }
        return signs;
    }

    private static void WritePrices(TextWriter output, VersionReading reading, string currency)
    {
        string[] parts = [.. reading.Prices.SelectMany(p => p.Price.Parts).Select(p => p.Part).Distinct()];
        Table table = Output.NewTable();
        table.AddColumn($"{currency} per kWh");
        foreach (string part in parts) table.AddFigures(part);
        if (parts.Length > 1) table.AddFigures("together");
        foreach ((string season, string period, EnergyPrice price) in reading.Prices)
        {
            IEnumerable<string> cells = parts.Select(p => price.Parts.FirstOrDefault(x => x.Part == p) is PricePart part ? BillText.Price(part.PricePerKwh) : "");
            if (parts.Length > 1) cells = cells.Append(BillText.Price(price.TotalPerKwh));
            table.AddTexts(cells.Prepend(season == TariffVersion.WholeYear ? period : $"{season}, {period}"));
        }
        Output.WriteTable(output, table);
    }

    private static string ChargesInWords(TariffVersion version, string currency)
    {
        var words = new List<string>();
        if (version.FixedPerDay != 0) words.Add($"{BillText.Price(version.FixedPerDay)} a day");
        if (version.FixedPerMonth != 0) words.Add($"{BillText.Price(version.FixedPerMonth)} a month");
        if (version.Tiers is Tiers tiers) words.Add(tiers.Steps.Count > 0 ? string.Create(CultureInfo.InvariantCulture, $"tiers of {tiers.Steps.Count} steps") : "a credit under an allowance");
        words.AddRange(version.Demand.Select(d => string.Create(CultureInfo.InvariantCulture, $"demand charge {d.Name} over {d.Minutes} min")));
        if (version.Events is not null) words.Add("an adder on event days");
        if (version.Minimum is not null) words.Add("a minimum bill");
        words.AddRange(version.Percentages.Select(p => $"{p.Name} {p.Rate.ToString("0.###%", CultureInfo.InvariantCulture)}"));
        string export = version.Export switch
        {
            ExportTerms.Nothing => "exported energy earns nothing",
            ExportTerms.RetailNetting => "exported energy is netted at the retail price",
            ExportTerms.NetBilling => "exported energy earns its own price",
            ExportTerms.MonthlyNetting => "exported energy is netted within each bill",
            ExportTerms.TwoWay => "exported energy is charged in one window and rewarded in another",
            _ => "all solar is sold at a contract price",
        };
        return $"Besides, {currency}: {string.Join("; ", words.Append(export))}.";
    }

    private static void WriteSample(TextWriter output, string season, Bill bill, string currency, bool hasSeasons)
    {
        output.WriteLine();
        output.WriteLine($"Sample bill{(hasSeasons ? $", {season}" : "")}, {BillText.Span(bill)}: a house that draws 1 kW at all times, a roof that gives 2 kW from 10:00 to 14:00");
        Table table = Output.NewTable();
        table.AddColumn("");
        table.AddFigures("quantity");
        table.AddFigures("price");
        table.AddFigures(currency);
        foreach (BillLine line in bill.Lines) table.AddTexts(line.Name, BillText.Quantity(line.Quantity, line.Unit), BillText.Price(line.UnitPrice), BillText.Money(line.Amount));
        table.AddTexts("together", "", "", BillText.Money(bill.Total));
        Output.WriteTable(output, table);
    }
}
