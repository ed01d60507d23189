using System.Globalization;
using EnergySim.Billing;
using EnergySim.Studies.Bills;
using EnergySim.Tariffs;
using EnergySim.TestData;
using NodaTime;

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
        BillSet bills = Biller.Bill(MeterSums.Of(new TariffCalendar(tariff, flows.Axis, flows.Account, flows.Meter.LoadKw), flows.Meter));
        string[] worked = [.. RowsOf(BillCsv.Read(PathOf(plan, ".bill.csv")))];
        string[] printed = [.. RowsOf(bills)];
        // Both lists in full, so that a difference is seen among its neighbours.
        Assert.Equal(string.Join('\n', worked), string.Join('\n', printed));
    }

    [Fact]
    public void Plans_AreInventedAndSaySo()
    {
        Assert.True(Names.Count() >= 12);
        foreach (string plan in Names)
        {
            Tariff tariff = TariffFile.Read(PathOf(plan, ".yaml"));
            Assert.EndsWith("(invented)", tariff.Publisher, StringComparison.Ordinal);
            Assert.StartsWith("# An invented rate plan of an invented utility.", File.ReadAllText(PathOf(plan, ".yaml")), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Readme_TellsOfEveryPlan()
    {
        string readme = File.ReadAllText(Path.Combine(s_folder, "README.md"));
        Assert.All(Names, n => Assert.Contains($"| `{n}` |", readme, StringComparison.Ordinal));
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
    }

    private static IEnumerable<string> RowsOf(IReadOnlyList<StatedBill> bills)
    {
        foreach (StatedBill bill in bills)
        {
            foreach (StatedLine line in bill.Lines)
                yield return Row(bill.From, bill.To, $"{line.Kind} | {line.Name} | {Plain(line.Quantity ?? 0)} {line.Unit} at {Plain(line.UnitPrice ?? 0)}", line.Amount);
            yield return Row(bill.From, bill.To, "total", bill.Total);
        }
    }

    private static string Row(LocalDate from, LocalDate to, string what, decimal amount) =>
        string.Create(CultureInfo.InvariantCulture, $"{from:uuuu-MM-dd} to {to:uuuu-MM-dd} | {what} = {amount:0.00}");

    // Quantities are worked to six places.
    private static string Plain(decimal number) => Math.Round(number, 6, MidpointRounding.AwayFromZero).ToString("0.######", CultureInfo.InvariantCulture);
}
