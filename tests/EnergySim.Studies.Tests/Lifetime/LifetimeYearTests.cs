using EnergySim.Economics;
using EnergySim.Studies.Lifetime;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Tests.Lifetime;

/// <summary>What a year to come is made of.</summary>
public class LifetimeYearTests
{
    [Fact]
    public void FirstYear_IsTheComparison()
    {
        Home demo = Demo.Home with { Money = new MoneyTerms { HorizonYears = 2 } };
        Comparison comparison = ComparisonStudy.Of(demo);
        Assert.Equal(comparison.Columns.Select(c => c.AnnualBill), LifetimeStudy.BillsByYear(demo).Select(b => b[0]));
        Home small = SmallHome.Of(SmallHome.Still with { HorizonYears = 1 });
        LifetimeResult result = LifetimeStudy.Of(small);
        Assert.Equal(ComparisonStudy.Of(small).Columns.Skip(1).Select(c => c.EquivalentFullCycles), result.Offers.Select(o => o.Years[0].FullCycles), (a, b) => Math.Abs(a - b) < 1e-9);
        Assert.Equal(new LocalDate(2026, 1, 1), result.From);
    }

    // Whatever an offer does to the panels, its first year is the year that was compared.
    [Theory]
    [InlineData(0, false)]
    [InlineData(0.4, false)]
    [InlineData(0, true)]
    public void FirstYear_OfAnOfferThatMovesPanels_IsTheComparison(double split, bool replaces)
    {
        Home small = SmallHome.Of(SmallHome.Still with { HorizonYears = 2, SolarFadeFraction = 0.1 });
        small = small with { Offers = [.. small.Offers.Select(o => o with { SplitFraction = split, ReplacesSolarInverter = replaces })] };
        IReadOnlyList<IReadOnlyList<decimal>> years = LifetimeStudy.BillsByYear(small);
        Assert.Equal(ComparisonStudy.Of(small).Columns.Select(c => c.AnnualBill), years.Select(b => b[0]));
        // And the second is that of a home with so much less sun.
        Home faded = small with { Solar = small.Solar! with { Profile = small.Solar.Profile.Scaled(0.9) } };
        IReadOnlyList<decimal> alone = [.. ComparisonStudy.Of(faded).Columns.Select(c => c.AnnualBill)];
        Assert.Equal(alone[0], years[0][1]);
        Assert.All(Enumerable.Range(1, small.Offers.Count), i => Assert.Equal((double)alone[i], (double)years[i][1], 0.05 * (double)alone[i]));
    }

    [Fact]
    public void ThirtyYearsAlike_SumExactly()
    {
        LifetimeResult result = LifetimeStudy.Of(SmallHome.Of(SmallHome.Still with { HorizonYears = 30 }));
        Assert.Equal(30 * result.AsItIs[0].Bill, result.AsItIs.Sum(y => y.Bill));
        foreach (LifetimeOffer offer in result.Offers)
        {
            Assert.Equal(30 * offer.Years[0].Saving, offer.Years.Sum(y => y.Saving));
            Assert.Equal((double)(30 * offer.Years[0].Saving - offer.Price!.Value), offer.Indicators!.NetPresentValue, 1e-6);
        }
    }

    [Fact]
    public void AgedBattery_SavesLess_AndEveryYearIsSimulated()
    {
        // Acceptance case 24 of the trade's list (common practice): 70 % capacity at year 10 saves less than year 1; the present value uses each year's own figure.
        MoneyTerms terms = SmallHome.Still with { HorizonYears = 10, DiscountFraction = 0.05, Life = new BatteryLife { FadePerYear = 0.3 / 9, FadePerCycle = 0 } };
        LifetimeOffer one = LifetimeStudy.Of(SmallHome.Of(terms)).Offers[0];
        Assert.Equal(0.7, one.Years[9].CapacityFraction, 1e-12);
        Assert.Equal(0.7 * 6, one.Years[9].UsableKwh, 1e-12);
        Assert.All(one.Years.Zip(one.Years.Skip(1)), pair => Assert.True(pair.Second.Saving < pair.First.Saving));
        double byYear = one.Years.Select((y, t) => (double)y.Saving / Math.Pow(1.05, t + 1)).Sum() - 4000;
        double yearOneRepeated = one.Years.Select((_, t) => (double)one.Years[0].Saving / Math.Pow(1.05, t + 1)).Sum() - 4000;
        Assert.Equal(byYear, one.Indicators!.NetPresentValue, 1e-6);
        Assert.True(byYear < yearOneRepeated - 100);
        // The aged battery's year is the comparison of a battery of that size, not a share of year one.
        Home small = SmallHome.Of(terms);
        Home aged = small with { Offers = [small.Offers[0] with { Battery = small.Offers[0].Battery with { CapacityKwh = 4.2 } }] };
        Assert.Equal((double)ComparisonStudy.Of(aged).Columns[1].AnnualBill, (double)one.Years[9].Bill, 2.0);
    }

    [Fact]
    public void Ageing_IsByAgeAndByTheRunsOwnCycles()
    {
        MoneyTerms terms = SmallHome.Still with { HorizonYears = 3, Life = new BatteryLife { FadePerYear = 0.02, FadePerCycle = 0.0001 } };
        LifetimeOffer one = LifetimeStudy.Of(SmallHome.Of(terms)).Offers[0];
        Assert.InRange(one.Years[0].FullCycles, 200, 366);
        Assert.Equal(1 - 0.02 - (0.0001 * one.Years[0].FullCycles), one.Years[1].CapacityFraction, 1e-12);
        Assert.Equal(one.Years[1].CapacityFraction - 0.02 - (0.0001 * one.Years[1].FullCycles), one.Years[2].CapacityFraction, 1e-12);
    }

    [Fact]
    public void Growth_ByComponent_IsThatOfAPlanWithThosePrices()
    {
        var growth = new GrowthRates { Energy = 0.03, ByPart = new Dictionary<string, double> { ["delivery"] = 0.05 }, Fixed = 0.04, Export = -0.1 };
        IReadOnlyList<IReadOnlyList<decimal>> bills = LifetimeStudy.BillsByYear(SmallHome.Of(SmallHome.Still with { HorizonYears = 3, Growth = growth }));
        // By hand: two years of growth on each price.
        TariffVersion third = SmallHome.Prices with
        {
            EnergyPrices =
            [
                new EnergyPrice { Period = "peak", Parts = [new PricePart("delivery", 0.15m * 1.1025m), new PricePart("supply", 0.25m * 1.0609m)] },
                new EnergyPrice { Period = "off", Parts = [new PricePart("delivery", 0.06m * 1.1025m), new PricePart("supply", 0.08m * 1.0609m)] },
            ],
            FixedPerDay = 0.40m * 1.0816m,
            Export = new ExportTerms.NetBilling { Prices = [new ExportPrice { Parts = [new PricePart("export", 0.05m * 0.81m)] }] },
        };
        Comparison compared = ComparisonStudy.Of(SmallHome.Of(SmallHome.Still, third));
        Assert.Equal(compared.Columns.Select(c => c.AnnualBill), bills.Select(b => b[2]));
        Assert.Equal(ComparisonStudy.Of(SmallHome.Of(SmallHome.Still)).Columns.Select(c => c.AnnualBill), bills.Select(b => b[0]));
    }

    [Fact]
    public void LaterVersion_HoldsFromItsDate_AndGrowthBeginsAfterIt()
    {
        TariffVersion later = SmallHome.Prices with { Effective = new LocalDate(2028, 1, 1), FixedPerDay = 1.40m };
        Home home = SmallHome.Of(SmallHome.Still with { Growth = SmallHome.Still.Growth with { Fixed = 0.1 } }, SmallHome.Prices, later);
        IReadOnlyList<decimal> bills = LifetimeStudy.BillsByYear(home)[0];
        // 2026 and 2027 at the known first prices, 2028 a dollar a day more (5 % tax, to the cent a bill), then 10 % more on the fixed charge.
        Assert.Equal(bills[0], bills[1]);
        Assert.Equal(365 * 1.05, (double)(bills[2] - bills[1]), 0.1);
        Assert.Equal(365 * 0.14 * 1.05, (double)(bills[3] - bills[2]), 0.1);
    }

    [Fact]
    public void ExportAgreement_EndsOnItsDate()
    {
        TariffVersion netted = SmallHome.Prices with { Export = new ExportTerms.RetailNetting(false, Settlement.Year, 0) };
        var end = new ExportChange(new LocalDate(2028, 1, 1), new ExportTerms.Nothing(), "earns nothing");
        LifetimeResult result = LifetimeStudy.Of(SmallHome.Of(SmallHome.Still with { ExportChanges = [end] }, netted));
        decimal before = ComparisonStudy.Of(SmallHome.Of(SmallHome.Still, netted)).Columns[0].AnnualBill;
        decimal after = ComparisonStudy.Of(SmallHome.Of(SmallHome.Still, netted with { Export = new ExportTerms.Nothing() })).Columns[0].AnnualBill;
        Assert.True(after > before);
        Assert.Equal([before, before, after, after, after], result.AsItIs.Select(y => y.Bill));
        Assert.Contains("from 2028-01-01: earns nothing", result.Disclosure.ExportRegime, StringComparison.Ordinal);
    }

    [Fact]
    public void CreditTableByYear_IsReadYearByYear()
    {
        ExportChange Year(int year, decimal price) => new(new LocalDate(year, 1, 1), new ExportTerms.NetBilling { Prices = [new ExportPrice { Parts = [new PricePart("export", price)] }] }, "table");
        MoneyTerms terms = SmallHome.Still with { HorizonYears = 3, ExportChanges = [Year(2027, 0.03m), Year(2028, 0.01m)], Growth = SmallHome.Still.Growth with { Export = 0.5 } };
        decimal BillAt(decimal price) => ComparisonStudy.Of(SmallHome.Of(SmallHome.Still, SmallHome.Prices with { Export = Year(2025, price).Terms })).Columns[0].AnnualBill;
        Assert.Equal([BillAt(0.05m), BillAt(0.03m), BillAt(0.01m)], LifetimeStudy.BillsByYear(SmallHome.Of(terms))[0]);
    }

    [Fact]
    public void CreditLeftAtTheAnniversary_LapsesAndTheNextYearOpensAtZero()
    {
        // Acceptance case 16 of the trade's list (common practice): 120 of credit at the anniversary under a rule that lets it expire.
        TariffVersion netted = SmallHome.Prices with
        {
            Periods = [new PeriodRule("any")],
            EnergyPrices = [new EnergyPrice { Parts = [new PricePart("supply", 0.10m)] }],
            FixedPerDay = 0,
            Percentages = [],
            Export = new ExportTerms.RetailNetting(false, Settlement.Year, 0),
        };
        Home home = SmallHome.Of(SmallHome.Still with { HorizonYears = 2 }, netted) with
        {
            Load = SmallHome.Hourly(_ => 0),
            Solar = new HomeSolar { Profile = SmallHome.Hourly(_ => 1200.0 / 8760), IsDc = false },
        };
        Billing.BillLine lapse = Assert.Single(ComparisonStudy.Of(home).Columns[0].Bills.Bills.SelectMany(b => b.Lines), l => l.Name == "left-over dollars lapse");
        Assert.Equal(120m, Math.Round(lapse.Amount, 1));
        Assert.Equal([0m, 0m], LifetimeStudy.BillsByYear(home)[0]);
    }

    [Fact]
    public void LoadAndSun_GrowFadeAndArrive()
    {
        var car = new AddedLoad("car", new LocalDate(2028, 7, 1), 7.3, new ClockWindow(22 * 60, 6 * 60));
        LifetimeResult result = LifetimeStudy.Of(SmallHome.Of(SmallHome.Still with { HorizonYears = 4, SolarFadeFraction = 0.01, LoadGrowthFraction = 0.02, AddedLoads = [car] }));
        double load = SmallHome.Of(SmallHome.Still).Load.EnergyKwh;
        Assert.Equal(load * 1.02, result.AsItIs[1].LoadKwh, 1e-6);
        // 184 days from July on, less nothing for the autumn night of nine hours but an hour's share more.
        Assert.Equal((load * Math.Pow(1.02, 2)) + (184 * 7.3) + (7.3 / 8), result.AsItIs[2].LoadKwh, 1e-6);
        Assert.Equal((load * Math.Pow(1.02, 3)) + (365 * 7.3), result.AsItIs[3].LoadKwh, 1e-6);
        Assert.Equal(result.AsItIs[0].SolarKwh * Math.Pow(0.99, 3), result.AsItIs[3].SolarKwh, 1e-6);
    }

    [Fact]
    public void DataThatAreNoYear_AreRefused()
    {
        Home home = SmallHome.Of(SmallHome.Still);
        var axis = TimeAxis.OfDates(SmallHome.Zone, new LocalDate(2025, 1, 1), new LocalDate(2025, 7, 1), 60);
        Home half = home with { Load = new Profiles.Profile(axis, home.Load.Kw[..axis.Count]), Solar = null };
        Assert.Contains("span 181 days", Assert.Throws<ArgumentException>(() => LifetimeStudy.Of(half)).Message, StringComparison.Ordinal);
    }
}
