using EnergySim.Billing;
using NodaTime;

namespace EnergySim.Studies.Tests.Bills;

public class BillDifferenceTests
{
    [Fact]
    public void Of_EveryOfferAndBill_SumsToTheSavingToTheCent()
    {
        foreach (Home home in (Home[])[Demo.Home, Demo.OnFlat])
        {
            Comparison comparison = ComparisonStudy.Of(home);
            foreach (ComparisonColumn column in comparison.Columns.Skip(1))
            {
                BillDifference year = BillDifference.Of(comparison.Columns[0].Bills, column.Bills);
                Assert.Equal(column.AnnualSaving, year.Saved);
                Assert.Equal(comparison.Columns[0].AnnualBill, year.Lines.Sum(l => l.Before));
                Assert.Equal(column.AnnualBill, year.Lines.Sum(l => l.After));
                for (int b = 0; b < column.Bills.Bills.Count; b++)
                {
                    Bill before = comparison.Columns[0].Bills.Bills[b], after = column.Bills.Bills[b];
                    Assert.Equal(before.Total - after.Total, BillDifference.Of(before, after).Saved);
                }
            }
        }
    }

    [Fact]
    public void Of_LinesThatOneBillLacks_StandWithTheirKind()
    {
        Bill before = BillOf(Line("supply", "day", 100, 0.2m), Line("fixed", "service", 1, 10));
        Bill after = BillOf(Line("supply", "night", 50, 0.1m), Line("fixed", "service", 1, 10), Line("credit", "credit", 1, -3));
        BillDifference difference = BillDifference.Of(before, after);
        Assert.Equal(["day", "night", "service", "credit"], difference.Lines.Select(l => l.Name));
        Assert.Equal([20m, -5m, 0m, 3m], difference.Lines.Select(l => l.Saved));
        Assert.Equal(18m, difference.Saved);
    }

    [Fact]
    public void Of_OtherDays_Throws()
    {
        Bill one = BillOf(Line("supply", "day", 100, 0.2m));
        Assert.Throws<ArgumentException>(() => BillDifference.Of(one, one with { To = one.To.PlusDays(1) }));
    }

    [Fact]
    public void SummedLine_OfTwoPrices_SaysSeveral()
    {
        IReadOnlyList<SummedLine> lines = SummedLine.Of([BillOf(Line("supply", "day", 100, 0.2m)), BillOf(Line("supply", "day", 10, 0.3m), Line("supply", "night", 1, 0.1m))]);
        Assert.Equal(new SummedLine("supply", "day", "kWh", 110, null, 23), lines[0]);
        Assert.Equal(0.1m, lines[1].UnitPrice);
    }

    private static BillLine Line(string kind, string name, decimal quantity, decimal price) =>
        new() { Kind = kind, Name = name, Quantity = quantity, Unit = "kWh", UnitPrice = price, Unrounded = quantity * price };

    private static Bill BillOf(params BillLine[] lines) => new() { From = new LocalDate(2025, 1, 1), To = new LocalDate(2025, 1, 31), Lines = lines };
}
