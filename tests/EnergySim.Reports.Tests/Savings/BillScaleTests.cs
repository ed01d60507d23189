using System.Globalization;
using EnergySim.Reports.Drawing;

namespace EnergySim.Reports.Savings;

public sealed class BillScaleTests
{
    [Theory]
    [InlineData("287.65", 6, "0 50 100 150 200 250 300")]
    [InlineData("14000", 6, "0 2,500 5,000 7,500 10,000 12,500 15,000")]
    [InlineData("0", 5, "0 2 4 6 8 10")]
    [InlineData("-35 110", 6, "−50 −25 0 25 50 75 100 125")]
    [InlineData("-80 -20", 4, "−80 −60 −40 −20 0")]
    [InlineData("1.2", 6, "0.00 0.20 0.40 0.60 0.80 1.00 1.20")]
    [InlineData("0.004", 3, "0.00 0.01")]
    [InlineData("100", 4, "0 25 50 75 100")]
    public void Of_Amounts_HasRoundStepsAroundThem(string amounts, int steps, string labels)
    {
        BillScale scale = BillScale.Of(amounts.Split(' ').Select(a => decimal.Parse(a, CultureInfo.InvariantCulture)), steps);
        Assert.Equal(labels, string.Join(' ', scale.Ticks.Select(scale.Label)));
    }

    [Fact]
    public void Of_AnyAmounts_HoldsThemAndZeroInFewSteps()
    {
        var random = new Random(20250117);
        for (int i = 0; i < 2000; i++)
        {
            decimal size = (decimal)Math.Pow(10, random.Next(-2, 6));
            decimal a = (decimal)(random.NextDouble() - 0.3) * size, b = (decimal)(random.NextDouble() - 0.3) * size;
            int steps = random.Next(2, 7);
            BillScale scale = BillScale.Of([a, b], steps);
            Assert.InRange(a, scale.Lowest, scale.Highest);
            Assert.InRange(b, scale.Lowest, scale.Highest);
            Assert.Contains(0m, scale.Ticks);
            Assert.InRange(scale.Ticks.Count(), 2, steps + 2);
        }
    }
}
