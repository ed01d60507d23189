using EnergySim.Studies.Sweeps;

namespace EnergySim.Studies.Tests.Sweeps;

public class InputValuesTests
{
    // Type 7 of Hyndman and Fan: check values of reference values, section 11 (published quartiles of eleven numbers; 1 to 10 at seven shares).
    [Fact]
    public void Observed_CheckValues_AreTypeSeven()
    {
        var eleven = new InputValues.Observed([6, 47, 49, 15, 42, 41, 7, 39, 43, 40, 36]);
        Assert.Equal([25.5, 40, 42.5], new[] { 0.25, 0.5, 0.75 }.Select(p => eleven.At(p).Number!.Value));
        var ten = new InputValues.Observed(Enumerable.Range(1, 10).Select(i => (double)i));
        Assert.Equal([1.45, 1.9, 3.25, 5.5, 7.75, 9.1, 9.55], new[] { 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95 }.Select(p => ten.At(p).Number!.Value));
    }

    // Scores of the standard normal as every table has them: 1.959964 at 0.975, 1.644854 at 0.95, 1.281552 at 0.9.
    [Theory]
    [InlineData(0.975, 1.959964)]
    [InlineData(0.95, 1.644854)]
    [InlineData(0.9, 1.281552)]
    [InlineData(0.5, 0)]
    public void Normal_TableScores_AreMet(double share, double score)
    {
        Assert.Equal(10 + (2 * score), new InputValues.Normal(10, 2).At(share).Number!.Value, 5e-6);
        Assert.Equal(10 - (2 * score), new InputValues.Normal(10, 2).At(1 - share).Number!.Value, 5e-6);
        Assert.Equal(7 * Math.Exp(0.3 * score), new InputValues.Lognormal(7, 0.3).At(share).Number!.Value, 7e-6);
    }

    [Fact]
    public void Normal_WithBounds_LeavesTheTailsOut()
    {
        var cut = new InputValues.Normal(0, 1, -1, 2);
        double[] values = [.. Enumerable.Range(0, 1000).Select(i => cut.At((i + 0.5) / 1000).Number!.Value)];
        Assert.InRange(values[0], -1, -0.99);
        Assert.InRange(values[^1], 1.9, 2);
        // What lies between −1 and 0 of all that is left: (0.5 − 0.158655) / (0.977250 − 0.158655), from the table of the normal distribution.
        Assert.Equal(0.341345 / 0.818595, values.Count(v => v < 0) / 1000.0, 1e-3);
    }

    // The triangle's closed form: below its peak the share is (x − a)² / ((b − a)(c − a)).
    [Theory]
    [InlineData(0.02, 11)]
    [InlineData(0.5, 15)]
    [InlineData(0.98, 19)]
    public void Triangular_ClosedForm_IsMet(double share, double value) => Assert.Equal(value, new InputValues.Triangular(10, 15, 20).At(share).Number!.Value, 1e-9);

    [Fact]
    public void Listed_Shares_AreEqual()
    {
        var list = new InputValues.Listed([SweepValue.Written("a"), SweepValue.Written("20 %"), SweepValue.Written("3")]);
        Assert.Equal(["a", "a", "20 %", "3"], new[] { 0.01, 0.33, 0.34, 0.99 }.Select(p => list.At(p).Text));
        Assert.Equal(0.2, list.At(0.5).Number);
    }

    [Fact]
    public void SweepValue_ASampledNumber_ReadsAsTheSameNumber()
    {
        for (int i = 1; i < 2000; i++)
        {
            double number = Math.Sin(i) * Math.Pow(10, (i % 31) - 15);
            SweepValue value = SweepValue.Of(number);
            Assert.Equal(value.Number!.Value, double.Parse(value.Text, System.Globalization.CultureInfo.InvariantCulture));
            Assert.Equal(number, value.Number.Value, Math.Abs(number) * 1e-11);
        }
    }
}
