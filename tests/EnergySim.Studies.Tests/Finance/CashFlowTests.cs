using CsCheck;
using EnergySim.Economics;
using EnergySim.Studies.Finance;
using EnergySim.TestData;

namespace EnergySim.Studies.Tests.Finance;

/// <summary>Check values of REFERENCE.md §5: spreadsheet functions (Microsoft documentation), NIST Handbook 135, published discounted paybacks.</summary>
public class CashFlowTests
{
    [Fact]
    public void PresentValue_SpreadsheetExamples_Agree()
    {
        // NPV of the documentation (§5.1): all four flows at period ends.
        Assert.Equal(1188.4434123352, Flows(0, -10000, 3000, 4200, 6800).PresentValue(Nominal(0.10)), 1e-9);
        // The same page's second example, and with a sixth year (from memory of the page, recomputed).
        Assert.Equal(1922.0615549324, Flows(-40000, 8000, 9200, 10000, 12000, 14500).PresentValue(Nominal(0.08)), 1e-9);
        Assert.Equal(-3749.4650870156, Flows(-40000, 8000, 9200, 10000, 12000, 14500, -9000).PresentValue(Nominal(0.08)), 1e-9);
    }

    [Theory]
    // IRR of the documentation (§5.1): 68586650699 and after four and two years.
    [InlineData(0.0866309480365, 12000d, 15000d, 18000d, 21000d, 26000d)]
    [InlineData(-0.0212448482734, 12000d, 15000d, 18000d, 21000d)]
    [InlineData(-0.4435069413347, 12000d, 15000d)]
    public void RateOfReturn_SpreadsheetExamples_Agree(double rate, params double[] yearly)
    {
        RatesOfReturn rates = RatesOfReturn.Of(Flows(-70000, yearly));
        Assert.Equal(rate, rates.Only!.Value.Fraction, 1e-10);
    }

    [Fact]
    public void RateOfReturn_NoneOrSeveral_TellsNoSingleOne()
    {
        Assert.Empty(RatesOfReturn.Of(Flows(-100, 0, 0)).Fractions);
        Assert.Empty(RatesOfReturn.Of(Flows(100, 50)).Fractions);
        // A late replacement leaves one rate that is no yield: the running sum never comes back above 0.
        RatesOfReturn odd = RatesOfReturn.Of(Flows(-100, 20, 20, -90, 30));
        Assert.Null(odd.Only);
        // −100 + 230 v − 132 v² is 0 at v = 1/1.1 and v = 1/1.2: two rates, 10 % and 20 %.
        RatesOfReturn two = RatesOfReturn.Of(Flows(-100, 230, -132));
        Assert.Null(two.Only);
        Assert.Equal([0.1, 0.2], two.Fractions, (a, b) => Math.Abs(a - b) < 1e-9);
    }

    [Theory]
    // Present values of one a year: NIST Handbook 135, SPV and UPV (§5.3).
    [InlineData(0.03, 1, 0.970874, 0.970874)]
    [InlineData(0.03, 10, 0.744094, 8.530203)]
    [InlineData(0.03, 20, 0.553676, 14.877475)]
    [InlineData(0.03, 25, 0.477606, 17.413148)]
    [InlineData(0.03, 30, 0.411987, 19.600441)]
    [InlineData(0.05, 20, 0.376889, 12.462210)]
    [InlineData(0.07, 20, 0.258419, 10.594014)]
    [InlineData(0.08, 25, 0.146018, 10.674776)]
    public void PresentValue_LifeCycleFactors_Agree(double rate, int years, double single, double uniform)
    {
        double[] last = new double[years];
        last[^1] = 1;
        Assert.Equal(single, Flows(0, last).PresentValue(Nominal(rate)), 1e-6);
        Assert.Equal(uniform, Flows(0, [.. Enumerable.Repeat(1.0, years)]).PresentValue(Nominal(rate)), 1e-6);
        // The capital recovery factor is a level payment.
        Assert.Equal(1 / uniform, LoanSchedule.Payment(1, rate, years), 1e-6);
    }

    [Theory]
    // UPV* of amounts that grow (NIST Handbook 135, §5.3): rate, growth, years.
    [InlineData(0.03, 0.01, 20, 16.382723)]
    [InlineData(0.03, 0.02, 25, 22.076619)]
    [InlineData(0.05, 0.03, 20, 16.443727)]
    [InlineData(0.05, 0.05, 20, 20)]
    [InlineData(0.05, -0.01, 20, 11.413701)]
    [InlineData(0.08, 0.025, 25, 13.591332)]
    public void PresentValue_GrowingAmounts_Agree(double rate, double growth, int years, double factor) =>
        Assert.Equal(factor, Flows(0, [.. Enumerable.Range(1, years).Select(t => Math.Pow(1 + growth, t))]).PresentValue(Nominal(rate)), 1e-6);

    [Fact]
    public void AnnualRate_NominalAndReal_AreConvertedByInflation()
    {
        // NIST Handbook 135 (§5.3): 3 % real and 2.5 % inflation are 5.575 % nominal; 7 % nominal is 4.390244 % real.
        Assert.Equal(0.05575, new AnnualRate(0.03, MoneyBasis.Real).In(MoneyBasis.Nominal, 0.025).Fraction, 1e-12);
        Assert.Equal(0.04390244, Nominal(0.07).In(MoneyBasis.Real, 0.025).Fraction, 1e-8);
    }

    [Fact]
    public void Flows_OfOtherBasis_AreRefused()
    {
        var real = new AnnualRate(0.03, MoneyBasis.Real);
        Assert.Contains("Real rate does not discount Nominal flows", Assert.Throws<ArgumentException>(() => Flows(-1, 2).PresentValue(real)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Flows(-1, 2).DiscountedPaybackYears(real));
        Assert.Throws<ArgumentException>(() => Flows(-1, 2).Less(Flows(-1, 2).In(MoneyBasis.Real, 0.02)));
    }

    [Theory]
    // Discounted payback, published answers (§5.4; flows spread evenly within the year).
    [InlineData(5200d, 0.14, 1.9638, 2800d, 3700d, 5100d, 4300d)]
    [InlineData(5400d, 0.14, 2.0281, 2800d, 3700d, 5100d, 4300d)]
    [InlineData(10400d, 0.14, 3.6498, 2800d, 3700d, 5100d, 4300d)]
    [InlineData(48000d, 0.06, 11.2276, 6000d, 6000d, 6000d, 6000d, 6000d, 6000d, 6000d, 6000d, 6000d, 6000d, 6000d, 6000d)]
    [InlineData(22761d, 0.05, 2.4138, 10267d, 10267d, 10267d, 10267d, 10267d, 10267d)]
    [InlineData(6400d, 0.13, 1.8676, 3700d, 4600d, 5800d, 5000d)]
    public void DiscountedPayback_PublishedAnswers_Agree(double price, double rate, double years, params double[] yearly) =>
        Assert.Equal(years, Flows(-price, yearly).DiscountedPaybackYears(Nominal(rate))!.Value, 5e-5);

    [Fact]
    public void Payback_BeyondTheFlows_IsNone()
    {
        Assert.Null(Flows(-100, 30, 30).SimplePaybackYears());
        Assert.Equal(0, Flows(0, 30).SimplePaybackYears());
    }

    [Fact]
    public void PresentValue_NominalAndReal_AreTheSame() => FixedSeed.Check(
        Gen.Select(Gen.Double[-0.2, 0.3], Gen.Double[-0.05, 0.1], Gen.Double[-1000, 1000].Array[1, 30]), 500,
        c =>
        {
            (double rate, double inflation, double[] yearly) = c;
            CashFlows nominal = Flows(-500, yearly);
            double real = nominal.In(MoneyBasis.Real, inflation).PresentValue(Nominal(rate).In(MoneyBasis.Real, inflation));
            double plain = nominal.PresentValue(Nominal(rate));
            Assert.Equal(plain, real, 1e-9 * Math.Max(1, yearly.Select((y, t) => Math.Abs(y) * Math.Pow(1 + rate, -t - 1)).Sum()));
        });

    [Fact]
    public void Payback_LevelSavings_IsPriceOverSaving() => FixedSeed.Check(
        Gen.Select(Gen.Double[1, 30000], Gen.Double[1, 3000]), 500,
        c =>
        {
            (double price, double saving) = c;
            double? years = Flows(-price, [.. Enumerable.Repeat(saving, 50)]).SimplePaybackYears();
            if (price / saving > 50 + 1e-9) Assert.Null(years);
            else if (price / saving < 50 - 1e-9) Assert.Equal(price / saving, years!.Value, 1e-6);
        });

    internal static CashFlows Flows(double upfront, params double[] yearly) => new() { Basis = MoneyBasis.Nominal, Upfront = upfront, Yearly = yearly };

    internal static AnnualRate Nominal(double fraction) => new(fraction, MoneyBasis.Nominal);
}
