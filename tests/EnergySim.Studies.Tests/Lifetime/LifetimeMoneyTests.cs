using EnergySim.Economics;
using EnergySim.Studies.Lifetime;
using NodaTime;

namespace EnergySim.Studies.Tests.Lifetime;

/// <summary>Warranty, replacement, incentives, ways to pay, paybacks.</summary>
public class LifetimeMoneyTests
{
    [Fact]
    public void Payback_NothingChangesAndMoneyIsFree_IsPriceOverSaving()
    {
        LifetimeOffer one = LifetimeStudy.Of(SmallHome.Of(SmallHome.Still with { HorizonYears = 30 })).Offers[0];
        double years = (double)(one.Price!.Value / one.Years[0].Saving);
        Assert.InRange(years, 3, 29);
        Assert.Equal(years, one.Indicators!.SimplePaybackYears!.Value, 1e-9);
        Assert.Equal(years, one.Indicators.DiscountedPaybackYears!.Value, 1e-9);
        Assert.Equal((double)(30 * one.Years[0].Saving / one.Price.Value), one.Indicators.SavingsToInvestment!.Value, 1e-9);
    }

    [Fact]
    public void HigherPrice_NeverShortensPayback()
    {
        MoneyTerms terms = new() { HorizonYears = 12 };
        double last = 0;
        for (decimal price = 500; price <= 8000; price += 2500)
        {
            Home home = SmallHome.Of(terms) with { Offers = [SmallHome.Offer("One", 1, price)] };
            double years = LifetimeStudy.Of(home).Offers[0].Indicators!.SimplePaybackYears ?? double.PositiveInfinity;
            Assert.True(years >= last);
            last = years;
        }
    }

    [Theory]
    [InlineData(10.0, null, 0.7, 10, WarrantyLimit.Years)]
    [InlineData(10.0, 5000.0, 0.7, 3, WarrantyLimit.Throughput)]
    [InlineData(20.0, null, 0.7, 8, WarrantyLimit.Capacity)]
    public void Warranty_EndsWithWhatComesFirst(double years, double? throughputKwh, double share, int endsAfter, WarrantyLimit limit)
    {
        // About 1,900 kWh a year leave the cells of one unit; 4 % fade a year.
        var life = new BatteryLife { FadePerYear = 0.04, FadePerCycle = 0, WarrantyYears = years, WarrantyThroughputKwh = throughputKwh, WarrantyFraction = share, EndOfLifeFraction = 0.3 };
        if (limit == WarrantyLimit.Years) life = life with { FadePerYear = 0.01 };
        LifetimeOffer one = LifetimeStudy.Of(SmallHome.Of(SmallHome.Still with { HorizonYears = 12, Life = life })).Offers[0];
        double Given(int after) => one.Years.Take(after).Sum(y => y.FullCycles) * 6;
        if (limit == WarrantyLimit.Throughput) Assert.True(Given(endsAfter - 1) < 5000 && Given(endsAfter) >= 5000);
        Assert.Equal(new WarrantyEnd(endsAfter, limit), one.WarrantyEnd);
    }

    [Fact]
    public void Replacement_RenewsTheCells_AndCostsThatYearsPrice()
    {
        var life = new BatteryLife { FadePerYear = 0.1, FadePerCycle = 0, Replacement = new BatteryReplacement(ReplacementRule.AtEndOfLife, 0, 2000) };
        MoneyTerms terms = SmallHome.Still with { HorizonYears = 7, Life = life, Growth = SmallHome.Still.Growth with { Costs = 0.03 }, UpkeepPerYear = 50 };
        LifetimeOffer two = LifetimeStudy.Of(SmallHome.Of(terms)).Offers[1];
        // 1, 0.9, 0.8, 0.7, 0.6, then below 60 %: new cells in year 6.
        Assert.Equal([false, false, false, false, false, true, false], two.Years.Select(y => y.IsReplaced));
        Assert.Equal(1, two.Years[5].CapacityFraction);
        Assert.Equal(Math.Round(2 * 2000m * (decimal)Math.Pow(1.03, 5), 2), two.Years[5].Replacements);
        Assert.Equal(Math.Round(50 * (decimal)Math.Pow(1.03, 5), 2), two.Years[5].Upkeep);
        // Two years old at the end, at 80 %: half of the way from new to 60 % is left.
        Assert.Equal(Math.Round(two.Years[5].Replacements / 2, 2), two.Years[6].ResidualValue);
        Assert.All(two.Years.Take(6), y => Assert.Equal(0, y.ResidualValue));
        Assert.Equal((double)two.Years[0].Bill, (double)two.Years[5].Bill, 2.0);
    }

    [Fact]
    public void WornOutCells_WithoutReplacement_SaveNothing_AndItIsSaid()
    {
        var life = new BatteryLife { FadePerYear = 0.2, FadePerCycle = 0 };
        LifetimeResult result = LifetimeStudy.Of(SmallHome.Of(SmallHome.Still with { HorizonYears = 5, Life = life }));
        Assert.Equal([1, 0.8, 0.6, 0, 0], result.Offers[0].Years.Select(y => y.CapacityFraction), (a, b) => Math.Abs(a - b) < 1e-9);
        Assert.Equal(0, result.Offers[0].Years[4].Saving);
        Assert.Contains(result.Notes, n => n.StartsWith("One: out of service from year 4", StringComparison.Ordinal));
    }

    [Fact]
    public void OwnerCredit_FinishedIn2026_IsZero()
    {
        // Acceptance case 32 of the trade's list: no credit for spending after 2025-12-31 (26 U.S.C. 25D as amended, IRS FS-2025-05).
        var credit = new Incentive { Name = "federal owner credit", Until = new LocalDate(2025, 12, 31), PriceFraction = 0.3 };
        LifetimeResult in2026 = LifetimeStudy.Of(SmallHome.Of(SmallHome.Still with { Incentives = [credit], FirstYear = 2026 }));
        LifetimeResult in2025 = LifetimeStudy.Of(SmallHome.Of(SmallHome.Still with { Incentives = [credit], FirstYear = 2025 }));
        Assert.Equal([0m, 0m], in2026.Offers.Select(o => o.UpfrontIncentives));
        Assert.Contains(in2026.Notes, n => n.StartsWith("federal owner credit: not counted", StringComparison.Ordinal));
        Assert.Equal([1200m, 2100m], in2025.Offers.Select(o => o.UpfrontIncentives));
        Assert.Equal([0m, 0m], LifetimeStudy.Of(SmallHome.Of(SmallHome.Still)).Offers.Select(o => o.UpfrontIncentives));
    }

    [Fact]
    public void Incentives_ByKwAndKwh_FollowThePlant()
    {
        var once = new Incentive { Name = "rebate", AmountPerKw = 100, AmountPerKwh = 50, Amount = 25 };
        var events = new Incentive { Name = "events", YearlyPerKw = 200, Years = 2, EventHours = 3 };
        LifetimeOffer one = LifetimeStudy.Of(SmallHome.Of(SmallHome.Still with { HorizonYears = 3, Incentives = [once, events] })).Offers[0];
        // 3 kW of cells through an inverter of 0.96 give 2.88 kW; 6 kWh usable.
        Assert.Equal(25 + 288 + 300m, one.UpfrontIncentives);
        // 90 % of 6 kWh at 0.97 × 0.96 over three hours: 1.676 kW.
        decimal paid = Math.Round(200m * (decimal)(6 * 0.9 * 0.97 * 0.96 / 3), 2);
        Assert.Equal([paid, paid, 0m], one.Years.Select(y => y.IncentivePaid));
        Assert.Equal(one.Years[0].Saving + paid, one.Years[0].NetCash);
    }

    [Fact]
    public void Ways_CashLoanLease_StandSideBySide()
    {
        MoneyTerms terms = SmallHome.Still with
        {
            HorizonYears = 6,
            Loan = new LoanTerms { RateFraction = 0, Months = 96, FeeFraction = 0.2, Down = 400 },
            Lease = new LeaseTerms { MonthlyByOffer = new Dictionary<string, decimal> { ["One"] = 20 }, EscalatorFraction = 0.1, Years = 3 },
        };
        LifetimeOffer one = LifetimeStudy.Of(SmallHome.Of(terms)).Offers[0];
        decimal saving = one.Years[0].Saving;
        FinancedOffer cash = one.Ways[0], loan = one.Ways[1], lease = one.Ways[2];
        Assert.Equal((PaymentWay.Cash, 4000m, 4000m), (cash.Way, cash.PaidAtStart, cash.TotalPaid));
        // 4,000 less 400 down plus 800 of fees, in 96 payments without interest.
        Assert.Equal((4400m, 800m, 400m, 4800m), (loan.Financed, loan.Fees, loan.PaidAtStart, loan.TotalPaid));
        Assert.Equal(Math.Round(4400m / 96, 2), loan.FirstMonthly);
        Assert.True(loan.AnnualPercentageRate > 0.04);
        // What the loan still claims after six years is not left out.
        Assert.Equal((double)(6 * saving - 4800), loan.NetPresentValue, 1e-6);
        // Three years at 20, 22, 24.20 a month; taken away, it saves nothing afterwards.
        Assert.Equal(12 * (20 + 22 + 24.2m), lease.TotalPaid);
        Assert.Equal((double)((3 * saving) - lease.TotalPaid), lease.NetPresentValue, 1e-6);
        Assert.Contains("taken away after 3 years", lease.AtEnd, StringComparison.Ordinal);
        Assert.Equal(2, LifetimeStudy.Of(SmallHome.Of(terms)).Offers[1].Ways.Count);
    }

    [Fact]
    public void RealTerms_AreTheirNominalOnes()
    {
        const double Inflation = 0.03;
        MoneyTerms real = new() { HorizonYears = 4, Basis = MoneyBasis.Real, DiscountFraction = 0.04, InflationFraction = Inflation, Growth = new GrowthRates { Energy = 0.01, Fixed = 0, Export = -0.02 } };
        LifetimeResult one = LifetimeStudy.Of(SmallHome.Of(real)), other = LifetimeStudy.Of(SmallHome.Of(real.InNominal()));
        Assert.Equal(one.Offers.Select(o => o.Indicators!.NetPresentValue), other.Offers.Select(o => o.Indicators!.NetPresentValue));
        Assert.Equal((1.04 * 1.03) - 1, one.Terms.DiscountFraction, 1e-12);
        Assert.Equal((1.01 * 1.03) - 1, one.Terms.Growth.Energy, 1e-12);
    }

    [Fact]
    public void ReplacedSolarInverter_IsSavedByTheOfferThatTakesItsPlace()
    {
        MoneyTerms terms = SmallHome.Still with { SolarInverter = new InverterReplacement(2, 1500), BatteryInverter = new InverterReplacement(4, 700) };
        Home home = SmallHome.Of(terms);
        LifetimeResult result = LifetimeStudy.Of(home with { Offers = [home.Offers[0], home.Offers[1] with { ReplacesSolarInverter = true }] });
        Assert.Equal([0m, 0m, 0m, 700m, 0m], result.Offers[0].Years.Select(y => y.Replacements));
        Assert.Equal([0m, -1500m, 0m, 1400m, 0m], result.Offers[1].Years.Select(y => y.Replacements));
    }

    [Fact]
    public void BackupValue_IsToldApart_AndAddedToNothing()
    {
        LifetimeResult without = LifetimeStudy.Of(SmallHome.Of(SmallHome.Still)), with = LifetimeStudy.Of(SmallHome.Of(SmallHome.Still with { BackupValuePerYear = 100 }));
        Assert.Null(without.Offers[0].BackupValue);
        Assert.Equal(500, with.Offers[0].BackupValue!.Value, 1e-9);
        Assert.Equal(without.Offers[0].Indicators!.NetPresentValue, with.Offers[0].Indicators!.NetPresentValue);
    }

    [Fact]
    public void OfferWithoutPrice_HasYearsButNoReturn()
    {
        Home home = SmallHome.Of(SmallHome.Still) with { Offers = [SmallHome.Offer("One", 1, null)] };
        LifetimeResult result = LifetimeStudy.Of(home);
        Assert.Null(result.Offers[0].Indicators);
        Assert.Null(result.Offers[0].Bands.NetPresentValue);
        Assert.True(result.Offers[0].Years[0].Saving > 0);
        Assert.EndsWith("no price is stated.", result.Headlines[0].Text, StringComparison.Ordinal);
    }
}
