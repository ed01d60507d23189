using EnergySim.Billing;
using EnergySim.Strategies;
using EnergySim.Studies.Causes;
using EnergySim.Tariffs;
using EnergySim.Time;

namespace EnergySim.Studies.Tests.Causes;

public class CauseStudyTests
{
    private static readonly Home s_hourly = Demo.Home with
    {
        Load = Demo.Home.Load.Resampled(60),
        Solar = Demo.Home.Solar! with { Profile = Demo.Home.Solar.Profile.Resampled(60) },
    };

    private static decimal AmountOf(SavingCauses causes, Cause cause) => causes.Causes.SingleOrDefault(c => c.Cause == cause)?.Amount ?? 0;

    [Fact]
    public void Of_AnyPlan_SumsToTheSavingToTheCent()
    {
        TariffVersion version = s_hourly.Tariff.Versions[0];
        TariffVersion[] versions =
        [
            version,
            version with { Export = new ExportTerms.RetailNetting(false, Settlement.Year, 0.03m) },
            version with { Export = new ExportTerms.SellAll(0.08m) },
            version with
            {
                Demand = [new DemandCharge { Name = "top", Minutes = 60, PricePerKw = 6 }],
                Tiers = new Tiers { AllowanceKwhPerDay = new Dictionary<string, double> { ["summer"] = 12, ["winter"] = 10 }, CreditPerKwh = 0.03m },
                Percentages = [new Percentage("levy", 0.05m, [])],
            },
        ];
        foreach (TariffVersion v in versions)
        {
            Home home = s_hourly with { Tariff = s_hourly.Tariff with { Versions = [v] } };
            IReadOnlyList<SavingCauses> causes = CauseStudy.Of(home);
            Comparison comparison = ComparisonStudy.Of(home);
            Assert.Equal(comparison.Columns.Skip(1).Select(c => c.AnnualSaving), causes.Select(c => c.Saving));
        }
    }

    [Fact]
    public void Of_TheDemo_ShiftsIntoThePeakAndForgoesCredit()
    {
        SavingCauses one = CauseStudy.Of(s_hourly)[0];
        Assert.True(AmountOf(one, Cause.ShiftedIntoPeak) > 0);
        Assert.True(AmountOf(one, Cause.ForgoneCredit) < 0);
        Assert.True(AmountOf(one, Cause.LossesAndStandby) < 0);
        Assert.Equal(0, AmountOf(one, Cause.SoldFromBattery));
        Assert.Equal(0, AmountOf(one, Cause.Demand));
        // Credit is paid in full there, so every change is worth its kWh at its price, in whatever order: winter 0.31 and summer 0.49 a kWh shifted.
        Comparison comparison = ComparisonStudy.Of(s_hourly);
        decimal Peak(int column) => SummedLine.Of(comparison.Columns[column].Bills.Bills).Where(l => l.Name.Contains("peak", StringComparison.Ordinal) && !l.Name.Contains("off", StringComparison.Ordinal)).Sum(l => l.Amount);
        // Standby buys some of what is shifted.
        Assert.InRange(AmountOf(one, Cause.ShiftedIntoPeak) - (Peak(0) - Peak(1)), 0, 0.04m * 365 * 5 * 0.5m);
    }

    [Fact]
    public void Of_ABatteryChargedByTheGrid_SaysWhatThatCosts()
    {
        Offer offer = s_hourly.Offers[0] with { Strategy = s_hourly.Offers[0].Strategy with { Overnight = new OvernightCharge(new ClockWindow(0, 300), 1) } };
        SavingCauses one = CauseStudy.Of(s_hourly with { Solar = null, Offers = [offer] })[0];
        Assert.True(AmountOf(one, Cause.BoughtToCharge) < 0);
        Assert.Equal(0, AmountOf(one, Cause.ForgoneCredit));
    }

    [Fact]
    public void Of_LowerDemand_IsToldApart()
    {
        Home home = s_hourly with
        {
            Tariff = s_hourly.Tariff with { Versions = [s_hourly.Tariff.Versions[0] with { Demand = [new DemandCharge { Name = "evening", Minutes = 60, PricePerKw = 6, Window = new ClockWindow(960, 1260) }] }] },
        };
        Comparison comparison = ComparisonStudy.Of(home);
        decimal Demand(int column) => SummedLine.Of(comparison.Columns[column].Bills.Bills).Where(l => l.Kind == "demand").Sum(l => l.Amount);
        Assert.Equal(Demand(0) - Demand(1), AmountOf(CauseStudy.Of(home)[0], Cause.Demand));
    }
}
