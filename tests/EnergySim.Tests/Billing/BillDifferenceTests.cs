using EnergySim.Billing;
using NodaTime;

namespace EnergySim.Tests.Billing;

/// <summary>TARIFF: two bills of the same periods subtract line by line, and the difference sums to the saving to the cent.</summary>
public class BillDifferenceTests
{
    private static readonly LocalDate s_june = new(2025, 6, 1), s_july = new(2025, 7, 1);

    private static BillLine Line(string kind, string name, decimal quantity, decimal price, string unit = "kWh") =>
        new() { Kind = kind, Name = name, Quantity = quantity, Unit = unit, UnitPrice = price, Unrounded = quantity * price };

    private static Bill Bill(LocalDate from, params BillLine[] lines) => new() { From = from, To = from.PlusDays(29), Lines = lines };

    private static BillSet Set(params Bill[] bills) => new() { Currency = "USD", Bills = bills, Notes = [] };

    // Energy 100 × 0.20 → 60 × 0.20: 8.00 saved. The fixed 10.00 fall away; a credit of 3.00 and, with the energy, a delivery of 1.50 come on.
    [Fact]
    public void Of_TwoBills_IsLineByLine()
    {
        Bill before = Bill(s_june, Line("energy", "peak", 100, 0.20m), Line("fixed", "service", 1, 10m, "bill"));
        Bill after = Bill(s_june, Line("energy", "peak", 60, 0.20m), Line("energy", "off", 15, 0.10m), Line("credit", "credit", 1, -3m, "USD"));
        BillDifference difference = BillDifference.Of(before, after);
        Assert.Equal(
            [
                new DifferenceLine("energy", "peak", "kWh", 100, 60, 20.00m, 12.00m), new DifferenceLine("energy", "off", "kWh", 0, 15, 0, 1.50m),
                new DifferenceLine("fixed", "service", "bill", 1, 0, 10m, 0), new DifferenceLine("credit", "credit", "USD", 0, 1, 0, -3m),
            ],
            difference.Lines);
        Assert.Equal([8.00m, -1.50m, 10m, 3m], difference.Lines.Select(l => l.Saved));
        Assert.Equal((19.50m, before.Total - after.Total), (difference.Saved, difference.Saved));
        Assert.Equal((s_june, s_june.PlusDays(29)), (difference.From, difference.To));
    }

    // Lines that differ in kind, name or unit alone are lines of their own.
    [Theory]
    [InlineData("supply", "peak", "kWh")]
    [InlineData("energy", "off", "kWh")]
    [InlineData("energy", "peak", "kW")]
    public void Of_LinesOfOtherNames_StandApart(string kind, string name, string unit)
    {
        BillDifference difference = BillDifference.Of(Bill(s_june, Line("energy", "peak", 1, 1m)), Bill(s_june, Line(kind, name, 1, 1m, unit)));
        Assert.Equal([1m, -1m], difference.Lines.Select(l => l.Saved));
        Assert.Equal(2, SummedLine.Of([Bill(s_june, Line("energy", "peak", 1, 1m), Line(kind, name, 1, 1m, unit))]).Count);
    }

    // Two months: 100 and 50 kWh at one price; at two prices the sum has none.
    [Fact]
    public void Of_Sets_SumsTheBills()
    {
        Bill june = Bill(s_june, Line("fixed", "service", 1, 2m, "bill"), Line("energy", "peak", 100, 0.20m));
        Bill july = Bill(s_july, Line("energy", "peak", 50, 0.20m), Line("energy", "off", 5, 1m), Line("fixed", "service", 1, 3m, "bill"));
        Assert.Equal(
            [
                new SummedLine("fixed", "service", "bill", 2, null, 5m), new SummedLine("energy", "peak", "kWh", 150, 0.20m, 30.00m),
                new SummedLine("energy", "off", "kWh", 5, 1m, 5m),
            ],
            SummedLine.Of([june, july]));
        BillDifference difference = BillDifference.Of(Set(june, july), Set(june, Bill(s_july)));
        Assert.Equal((18.00m, s_june, s_july.PlusDays(29)), (difference.Saved, difference.From, difference.To));
    }

    // Kinds stay together in the order of first appearance, also where a later bill brings a line of an earlier kind.
    [Fact]
    public void Of_SummedLines_KeepKindsTogether() => Assert.Equal(
        ["energy peak", "energy off", "fixed service"],
        SummedLine.Of([Bill(s_june, Line("energy", "peak", 1, 1m), Line("fixed", "service", 1, 1m)), Bill(s_july, Line("energy", "off", 1, 1m))]).Select(l =>
            $"{l.Kind} {l.Name}"));

    [Fact]
    public void Of_OtherDaysOrOtherMoney_IsRefused()
    {
        Bill june = Bill(s_june);
        Assert.Throws<ArgumentException>(() => BillDifference.Of(june, Bill(s_july)));
        Assert.Throws<ArgumentException>(() => BillDifference.Of(june, june with { To = s_july }));
        Assert.Throws<ArgumentException>(() => BillDifference.Of(Set(june), Set(june, Bill(s_july))));
        Assert.Throws<ArgumentException>(() => BillDifference.Of(Set(june), Set(june) with { Currency = "CAD" }));
    }
}
