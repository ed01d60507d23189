using CsCheck;
using EnergySim.Economics;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.Outages;
using EnergySim.TestData;

namespace EnergySim.Studies.Tests.Lifetime;

public class BandTests
{
    private static readonly MoneyTerms s_terms = new() { HorizonYears = 8 };

    [Fact]
    public void Of_TwoCauses_IsRootOfTheSumOfSquares()
    {
        // By hand: 6 and 8 below make 10; 3 and 4 above make 5. Half widths 4.5 and 6: shares 20.25 and 36 of 56.25.
        Band band = Band.Of(100, [("a", 94, 103), ("b", 104, 92)]);
        Assert.Equal((90, 100, 105), (band.Low, band.Likely, band.High));
        Assert.Equal(["b", "a"], band.Causes.Select(c => c.Name));
        Assert.Equal([0.64, 0.36], band.Causes.Select(c => c.Share), (x, y) => Math.Abs(x - y) < 1e-12);
    }

    [Fact]
    public void Of_AnyCauses_HoldsTheLikely_AndSharesSumToOne() => FixedSeed.Check(
        Gen.Select(Gen.Double[-1000, 1000], Gen.Select(Gen.Double[-1000, 1000], Gen.Double[-1000, 1000]).Array[1, 6]), 500,
        c =>
        {
            (double likely, (double, double)[] cases) = c;
            Band band = Band.Of(likely, [.. cases.Select((x, i) => ($"{i}", x.Item1, x.Item2))]);
            Assert.True(band.Low <= likely && likely <= band.High);
            Assert.All(band.Causes, cause => Assert.True(band.Low <= cause.Low + 1e-9 && cause.High <= band.High + 1e-9));
            Assert.Equal(1, band.Causes.Sum(cause => cause.Share), 1e-9);
        });

    [Fact]
    public void Bands_OfAHome_HaveEveryCause_AndGrowthIsTheRunAtThatGrowth()
    {
        LifetimeResult result = LifetimeStudy.Of(SmallHome.Of(s_terms));
        Band band = result.Offers[0].Bands.NetPresentValue!;
        Assert.Equal(result.Offers[0].Indicators!.NetPresentValue, band.Likely, 1e-9);
        foreach (string cause in (string[])["weather", "load", "energy prices", "data"]) Assert.Contains(band.Causes, c => c.Name.StartsWith(cause, StringComparison.Ordinal));
        Assert.DoesNotContain(band.Causes, c => c.Name.StartsWith("control", StringComparison.Ordinal));
        Assert.Contains(result.NotQuantified, n => n.StartsWith("Control", StringComparison.Ordinal));
        BandCause growth = band.Causes.Single(c => c.Name.StartsWith("energy prices", StringComparison.Ordinal));
        double At(double rate) => LifetimeStudy.Of(SmallHome.Of(s_terms with { Growth = s_terms.Growth with { Energy = rate } })).Offers[0].Indicators!.NetPresentValue;
        Assert.Equal(At(0), growth.Low, 1e-6);
        Assert.Equal(At(0.04), growth.High, 1e-6);
        BandCause load = band.Causes.Single(c => c.Name.StartsWith("load", StringComparison.Ordinal));
        Home more = SmallHome.Of(s_terms);
        double heavier = LifetimeStudy.Of(more with { Load = more.Load.Scaled(1.1) }).Offers[0].Indicators!.NetPresentValue;
        Assert.True(Math.Abs(heavier - load.High) < 1e-6 || Math.Abs(heavier - load.Low) < 1e-6);
        // The band of the cash ends where that of its payback begins.
        Assert.Equal(s_terms.HorizonYears + 1, result.Offers[0].Bands.Cumulative.Count);
        Assert.Equal((-4000d, -4000d), result.Offers[0].Bands.Cumulative[0]);
    }

    [Fact]
    public void WeatherYears_MakeTheBandOfWeather()
    {
        Home home = SmallHome.Of(s_terms) with { Offers = [SmallHome.Offer("One", 1, 4000)] };
        WeatherYear Year(string name, double factor) => new(name, home.Solar!.Profile.Scaled(factor));
        var outage = new OutageTerms { WeatherYears = [Year("1998", 0.2), Year("2003", 1.1)] };
        LifetimeResult result = LifetimeStudy.Of(home, outage);
        BandCause weather = result.Offers[0].Bands.FirstYearSaving.Causes.Single(c => c.Name.StartsWith("weather", StringComparison.Ordinal));
        double Saving(double factor) => (double)ComparisonStudy.Of(home with { Solar = home.Solar! with { Profile = home.Solar.Profile.Scaled(factor) } }).Columns[1].AnnualSaving;
        double[] savings = [Saving(0.2), Saving(1), Saving(1.1)];
        Assert.Equal((savings.Min(), savings.Max()), (weather.Low, weather.High));
        Assert.Contains("of 3 years", weather.Name, StringComparison.Ordinal);
    }

    [Fact]
    public void Bound_IsTheHighCaseOfControl()
    {
        decimal saving = LifetimeStudy.Of(SmallHome.Of(s_terms)).Offers[0].Years[0].Saving;
        MoneyTerms With(decimal bound) => s_terms with { Bands = new BandTerms { BoundSavingByOffer = new Dictionary<string, decimal> { ["One"] = bound } } };
        LifetimeResult result = LifetimeStudy.Of(SmallHome.Of(With(saving * 1.25m)));
        BandCause control = result.Offers[0].Bands.FirstYearSaving.Causes.Single(c => c.Name.StartsWith("control", StringComparison.Ordinal));
        Assert.Equal((double)saving, control.Low, 1e-9);
        Assert.Equal((double)saving * 1.25, control.High, 0.006);
        Assert.DoesNotContain(result.NotQuantified, n => n.StartsWith("Control", StringComparison.Ordinal));
        Assert.Contains("below the saving", Assert.Throws<ArgumentException>(() => LifetimeStudy.Of(SmallHome.Of(With(1m)))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void BreakEven_PriceAndGrowth_AreWhereTheSecondBatteryBeginsToPay()
    {
        Home home = SmallHome.Of(s_terms);
        BreakEven Again(MoneyTerms terms, decimal secondPrice) =>
            Assert.Single(LifetimeStudy.Of(home with { Money = terms, Offers = [home.Offers[0], home.Offers[1] with { Price = secondPrice }] }).BreakEvens);
        BreakEven even = Again(s_terms, 8000);
        Assert.Equal(("One", "Two", 4000m), (even.First, even.Second, even.AddedPrice));
        Assert.False(even.Pays);
        Assert.True(even.PaysUpToAddedPrice > 0);
        Assert.Equal(0, Again(s_terms, 4000 + even.PaysUpToAddedPrice).AddedNetPresentValue, 0.011);
        Assert.NotNull(even.PaysFromGrowth);
        Assert.Equal(0, Again(s_terms with { Growth = s_terms.Growth with { Energy = even.PaysFromGrowth.Value } }, 8000).AddedNetPresentValue, 1.0);
        // Half the break-even price pays, and no longer window is then asked for.
        BreakEven cheap = Again(s_terms, 4000 + Math.Floor(even.PaysUpToAddedPrice / 2));
        Assert.True(cheap.Pays);
        Assert.Equal(0, cheap.PaysFromLongerWindowHours);
        Assert.True(cheap.HasWindow);
    }

    [Fact]
    public void BreakEven_Window_IsTheFirstThatPays()
    {
        // The second battery priced between what it is worth with today's window and with a longer one.
        Home home = SmallHome.Of(s_terms);
        BreakEven At(Home h) => LifetimeStudy.Of(h).BreakEvens[0];
        decimal today = At(home).PaysUpToAddedPrice;
        Tariffs.PeriodRule longer = home.Tariff.Versions[0].Periods[0] with { Window = new Time.ClockWindow(14 * 60, 21 * 60) };
        Home wide = home with { Tariff = home.Tariff with { Versions = [home.Tariff.Versions[0] with { Periods = [longer, .. home.Tariff.Versions[0].Periods] }] } };
        decimal twoHoursMore = At(wide).PaysUpToAddedPrice;
        Home priced = home with { Offers = [home.Offers[0], home.Offers[1] with { Price = 4000 + ((today + twoHoursMore) / 2) }] };
        int? hours = At(priced).PaysFromLongerWindowHours;
        if (twoHoursMore > today) Assert.InRange(hours!.Value, 1, 2);
        else Assert.True(hours is null or > 2);
    }
}
