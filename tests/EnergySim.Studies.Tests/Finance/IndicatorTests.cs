using EnergySim.Economics;
using EnergySim.Studies.Finance;

namespace EnergySim.Studies.Tests.Finance;

public class IndicatorTests
{
    [Fact]
    public void TenThousandThatSavesTwelveHundred_IsTheWorkedExample()
    {
        // REFERENCE.md §5.3 (computed by the formulas of ASTM E917, E964, E1057, E1121): 10,000; 1,200 a year; 20 years; 3 %.
        Indicators i = Of([.. Enumerable.Repeat(1200.0, 20)], 10000, [], 0.03, inflation: 0);
        Assert.Equal(7852.9698, i.NetPresentValue, 5e-5);
        Assert.Equal(1.78529698, i.SavingsToInvestment!.Value, 5e-9);
        Assert.Equal(0.10315615, i.NominalReturns.Only!.Value.Fraction, 5e-9);
        Assert.Equal(8.3333, i.SimplePaybackYears!.Value, 5e-5);
        Assert.Equal(9.735424, i.DiscountedPaybackYears!.Value, 5e-7);
        Assert.False(i.FallsBelowAgain);
    }

    [Theory]
    [InlineData(true, 0.645504)]
    [InlineData(false, 0.504327)]
    public void CostPerKwh_LevelisedCostOfStorage_IsTheWorkedCase(bool withCharging, double cost)
    {
        // REFERENCE.md §5.5 (definition of Schmidt et al. 2019, computed): 10,000 at once, 100 a year, 10 years, 5 %, 3,000 kWh falling 2 % a year,
        // round trip 0.85, charging at 0.12.
        double[] kwh = [.. Enumerable.Range(0, 10).Select(t => 3000 * Math.Pow(0.98, t))];
        double[] upkeep = [.. kwh.Select(e => 100 + (withCharging ? e / 0.85 * 0.12 : 0))];
        Indicators i = Of(new double[10], 10000, upkeep, 0.05, inflation: 0, kwh);
        Assert.Equal(cost, i.CostPerKwhShifted!.Value, 5e-7);
    }

    [Fact]
    public void Returns_NominalAndReal_DifferByInflation()
    {
        Indicators i = Of([.. Enumerable.Repeat(1200.0, 20)], 10000, [], 0.05, inflation: 0.025);
        double nominal = i.NominalReturns.Only!.Value.Fraction, real = i.RealReturns.Only!.Value.Fraction;
        Assert.Equal(1 + nominal, (1 + real) * 1.025, 1e-9);
        Assert.Equal((MoneyBasis.Nominal, MoneyBasis.Real), (i.NominalReturns.Basis, i.RealReturns.Basis));
    }

    [Fact]
    public void ReplacementAfterPayback_IsSaid()
    {
        Indicators i = Of([600, 600, 100, 100], 1000, [], 0.03, inflation: 0, replacements: [0, 0, 900, 0]);
        Assert.Equal(1 + (400.0 / 600), i.SimplePaybackYears!.Value, 1e-9);
        Assert.True(i.FallsBelowAgain);
    }

    private static Indicators Of(double[] savings, double price, double[] upkeep, double rate, double inflation, double[]? kwh = null, double[]? replacements = null)
    {
        double[] none = new double[savings.Length];
        return Indicators.Of(
            CashFlowTests.Flows(0, savings), CashFlowTests.Flows(price, replacements ?? none), CashFlowTests.Flows(0, upkeep.Length > 0 ? upkeep : none),
            kwh ?? none, CashFlowTests.Nominal(rate), inflation);
    }
}
