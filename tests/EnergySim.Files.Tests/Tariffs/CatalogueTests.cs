using System.Globalization;
using EnergySim.Billing;
using EnergySim.Tariffs;
using EnergySim.TestData;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Files.Tests.Tariffs;

/// <summary>
/// The plans of tariffs/ against the bills beside them. Each bill was worked line by line from the plan's own definition, with pencil and
/// decimal arithmetic, before any line of the engine priced it.
/// </summary>
public class CatalogueTests
{
    private static readonly string s_folder = Path.Combine(SharedData.RepositoryRoot, "tariffs");

    public static TheoryData<string> Plans => [.. Names];

    internal static IEnumerable<string> Names => Directory.GetFiles(s_folder, "*.yaml").Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal);

    [Theory]
    [MemberData(nameof(Plans))]
    public void Bill_OfThePlan_IsTheWorkedBill(string plan)
    {
        Tariff tariff = TariffFile.Read(PathOf(plan, ".yaml"));
        CatalogueFlows flows = CatalogueFlows.Read(PathOf(plan, ".flows.csv"), tariff.Zone);
        BillSet bills = Biller.Bill(MeterSums.Of(new TariffCalendar(tariff, flows.Axis, flows.Account), flows.Meter));
        string[] worked = WorkedRows(PathOf(plan, ".bill.csv"));
        string[] printed = [.. RowsOf(bills)];
        // Both lists in full, so that a difference is seen among its neighbours.
        Assert.Equal(string.Join('\n', worked), string.Join('\n', printed));
    }

    [Fact]
    public void Plans_AreInventedAndSaySo()
    {
        foreach (string plan in Names)
        {
            Tariff tariff = TariffFile.Read(PathOf(plan, ".yaml"));
            Assert.EndsWith("(invented)", tariff.Publisher, StringComparison.Ordinal);
            Assert.StartsWith("# An invented rate plan of an invented utility.", File.ReadAllText(PathOf(plan, ".yaml")), StringComparison.Ordinal);
        }
    }

    internal static string PathOf(string plan, string ending) => Path.Combine(s_folder, plan + ending);

    private static IEnumerable<string> RowsOf(BillSet bills)
    {
        foreach (Bill bill in bills.Bills)
        {
            foreach (BillLine line in bill.Lines)
                yield return Row(bill.From, bill.To, $"{line.Kind} | {line.Name} | {Plain(line.Quantity)} {line.Unit} at {Plain(line.UnitPrice)}", line.Amount);
            yield return Row(bill.From, bill.To, "total", bill.Total);
        }
        if (bills.Bills.Count > 1) yield return Row(bills.Bills[0].From, bills.Bills[^1].To, "total", bills.Total);
    }

    private static string[] WorkedRows(string path)
    {
        var rows = new List<string>();
        var lines = new CsvLines(File.ReadAllText(path));
        Assert.True(lines.NextLine());
        Assert.Equal("bill_from,bill_to,kind,line,quantity,unit,unit_price,amount", lines.Text.ToString());
        while (!lines.IsAtEnd && lines.NextLine())
        {
            var fields = new List<string>();
            while (lines.NextField(out ReadOnlySpan<char> field)) fields.Add(field.ToString());
            Assert.Equal(8, fields.Count);
            string what = fields[2] == "total" ? "total" : $"{fields[2]} | {fields[3]} | {Plain(Number(fields[4]))} {fields[5]} at {Plain(Number(fields[6]))}";
            rows.Add(Row(Date(fields[0]), Date(fields[1]), what, Number(fields[7])));
        }
        return [.. rows];
    }

    private static string Row(LocalDate from, LocalDate to, string what, decimal amount) =>
        string.Create(CultureInfo.InvariantCulture, $"{from:uuuu-MM-dd} to {to:uuuu-MM-dd} | {what} = {amount:0.00}");

    // Quantities are worked to six places.
    private static string Plain(decimal number) => Math.Round(number, 6, MidpointRounding.AwayFromZero).ToString("0.######", CultureInfo.InvariantCulture);

    private static decimal Number(string text) => decimal.Parse(text, CultureInfo.InvariantCulture);

    private static LocalDate Date(string text) => LocalDatePattern.Iso.Parse(text).Value;
}
