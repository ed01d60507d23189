using EnergySim.Billing;
using EnergySim.Strategies;
using EnergySim.Studies.Plans;
using EnergySim.Tariffs;
using EnergySim.Time;

namespace EnergySim.Studies.Tests.Plans;

public class PlanTests
{
    [Fact]
    public void Comparison_OfTwoPlans_NamesTheLeastBillOfEachInstallation()
    {
        PlanComparison plans = PlanComparison.Of([Demo.Home, Demo.OnFlat]);
        for (int c = 0; c < 3; c++)
        {
            Assert.Equal(plans.Plans.Min(p => p.Columns[c].AnnualBill), plans.Cheapest[c].Bill);
            Assert.Equal(plans.Plans[0].Columns[c].AnnualBill - plans.Cheapest[c].Bill, plans.Cheapest[c].BelowFirst);
        }
        // The demo's peaks are dear: without a battery the flat plan is cheaper, with one the evening plan is.
        Assert.Equal([true, false, false], plans.Cheapest.Select(c => c.Plan.StartsWith("Flat", StringComparison.Ordinal)));
    }

    [Fact]
    public void Comparison_OfTwoMoneys_IsRefused() =>
        Assert.Throws<ArgumentException>(() => PlanComparison.Of([Demo.Home, Demo.OnFlat with { Tariff = Demo.OnFlat.Tariff with { Currency = "EUR" } }]));

    [Fact]
    public void Picture_OfTheDemoPlan_ShowsItsPeriods()
    {
        IReadOnlyList<PlanPicture> pictures = PlanPicture.Of(Demo.Home.Tariff.Versions[0]);
        Assert.Equal([DayType.Weekday, DayType.Weekend], pictures.Select(p => p.Day));
        Assert.Equal(12, pictures[0].Rows.Count);
        Assert.Equal("summer", pictures[0].Rows[5].Season);
        string?[] day = [.. Enumerable.Repeat("off-peak", 12), .. Enumerable.Repeat("mid", 20), .. Enumerable.Repeat("peak", 10), .. Enumerable.Repeat("off-peak", 6)];
        Assert.All(pictures[0].Rows, row => Assert.Equal(day, row.Periods));
        Assert.All(pictures[1].Rows, row => Assert.All(row.Periods, p => Assert.Equal("off-peak", p)));
    }

    [Fact]
    public void Picture_SeasonThatEndsInAMonthAndPeriodsWithinAHalfHour_AreShownSo()
    {
        var version = new TariffVersion
        {
            Effective = new(2025, 1, 1),
            Seasons = [new Season("one", new MonthDay(1, 1), new MonthDay(6, 14)), new Season("two", new MonthDay(6, 15), new MonthDay(12, 31))],
            Periods = [new PeriodRule("a") { Window = new ClockWindow(0, 615) }, new PeriodRule("b") { Window = new ClockWindow(615, 1440) }],
            EnergyPrices = [new EnergyPrice { Parts = [new PricePart("energy", 0.2m)] }],
        };
        PlanPicture picture = PlanPicture.Of(version)[0];
        Assert.Equal(13, picture.Rows.Count);
        Assert.Equal([(6, 1, 14, "one"), (6, 15, 30, "two")], picture.Rows.Skip(5).Take(2).Select(r => (r.Month, r.FromDay, r.ToDay, r.Season)));
        Assert.Equal(["a", null, "b"], picture.Rows[0].Periods.Skip(19).Take(3));
    }

    [Fact]
    public void SampleBill_OfTheDemoPlan_IsTheBillWorkedByHand()
    {
        // January 2025 has 23 weekdays, one of them a holiday. Peak 22 × 5 h; mid 22 × (10 h − 4 h of sun); off-peak the rest of 744 h − 31 × 4 h.
        (string season, Bill bill) = SampleBill.Of(Demo.Home.Tariff, 0)[0];
        Assert.Equal("winter", season);
        Assert.Equal(
            [
                ("winter mid, delivery", 132m, 11.88m), ("winter mid, supply", 132m, 13.20m), ("winter off-peak, delivery", 378m, 22.68m),
                ("winter off-peak, supply", 378m, 26.46m), ("winter peak, delivery", 110m, 15.40m), ("winter peak, supply", 110m, 18.70m),
                ("service, a day", 31m, 13.95m), ("energy credit used", 1m, -4.96m),
            ],
            bill.Lines.Select(l => (l.Name, l.Quantity, l.Amount)));
        Assert.Equal(117.31m, bill.Total);
    }

    [Fact]
    public void IntegrityRule_OnABatteryThatChargesFromTheGrid_CostsWhatTheBillsDifferBy()
    {
        Strategy free = Demo.Home.Offers[0].Strategy with { Overnight = new OvernightCharge(new ClockWindow(0, 300), 1) };
        Strategy ruled = free with { Integrity = IntegrityRule.SolarOnly };
        // A small roof leaves the cells something to buy by night.
        Home home = Demo.Home with
        {
            Solar = Demo.Home.Solar! with { Profile = Demo.Home.Solar.Profile.Map(kw => 0.1 * kw) },
            Tariff = Demo.Home.Tariff with { Versions = [Demo.Home.Tariff.Versions[0] with { Export = new ExportTerms.RetailNetting(false, Settlement.Year, 0.03m) }] },
            Offers = [Demo.Home.Offers[0] with { Name = "free", Strategy = free }, Demo.Home.Offers[0] with { Name = "ruled", Strategy = ruled }],
        };
        Comparison comparison = ComparisonStudy.Of(home);
        Assert.Null(comparison.Columns[1].IntegrityRuleCost);
        Assert.Equal(comparison.Columns[2].AnnualBill - comparison.Columns[1].AnnualBill, comparison.Columns[2].IntegrityRuleCost);
        Assert.True(comparison.Columns[2].IntegrityRuleCost > 0);
        Assert.Equal(0, comparison.Columns[2].Sums.Kwh(Engine.LedgerColumn.GridToCellsKw));
        Assert.Single(comparison.Notes, n => n.StartsWith("free: under retail netting", StringComparison.Ordinal));
        Assert.DoesNotContain(comparison.Notes, n => n.StartsWith("ruled: under retail netting", StringComparison.Ordinal));
    }

    [Fact]
    public void Comparison_OfNettedData_SaysThatBothFlowsAreUnderstated() =>
        Assert.Contains(ComparisonStudy.Of(Demo.Home with { LoadIsNetted = true }).Notes, n => n.Contains("both are understated", StringComparison.Ordinal));
}
