using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

/// <summary>One outage in detail by the quarter of an hour; worked by hand, common practice.</summary>
public class NamedSpellTests
{
    private static readonly OutageTerms s_terms = new()
    {
        HorizonHours = 48,
        NamedHours = 24,
        StartCharge = StartCharge.Full,
        NamedStart = new LocalDateTime(2025, 1, 8, 0, 0),
    };

    private static NamedOutage Of(Home home, OutageTerms terms) => OutageStudy.Of(home, terms).Offers[0].Named;

    private static Home HomeOf(Func<double, double> loadKw, Func<double, double>? sunKw = null, Battery? battery = null, double reserve = 0.2) =>
        SmallHome.Of(SmallHome.Axis(10, 15), i => loadKw(i % 96 / 4.0), sunKw is null ? null : i => sunKw(i % 96 / 4.0), battery, reserve);

    private static Home WithSeparateInverter(Home home) =>
        home with { Solar = home.Solar! with { IsDc = false }, Offers = [home.Offers[0] with { ReplacesSolarInverter = false }] };

    [Fact]
    public void Hours_OfANightAndADay_AreCountedInQuarters()
    {
        // 10 kWh carry 1 kW for 10 h; 4 kW of sun from 12:00 on, 8 h: 8 kWh for the house, 10 for the cells, 14 too many.
        NamedOutage named = Of(HomeOf(_ => 1, h => h is >= 12 and < 20 ? 4 : 0), s_terms);
        Assert.Equal((10.0, 12.0, 10.0), (named.FirstUnservedHours, named.RecoversHours, named.StartKwh));
        Assert.InRange(named.FirstDarkHours!.Value, 10, 10.25);
        Assert.Equal([10, 9.75], named.HoursLeftWithSun.Take(2).Select(h => h!.Value));
        Assert.Equal([10, 9.75], named.HoursLeftWithoutSun.Take(2).Select(h => h!.Value));
        Assert.Equal(96, named.HoursLeftWithSun.Count);
        Assert.Equal(14, named.CurtailedKwh, 9);
    }

    [Fact]
    public void Curtailed_IsWhatTheInputClipsAndWhatNobodyTakes()
    {
        // From full, 1 kW of house and 4 kW of sun for 8 h: 3 kW too many. An input of 3 kW clips one of them.
        Func<double, double> sun = h => h < 8 ? 4 : 0;
        Assert.Equal(24, Of(HomeOf(_ => 1, sun, SmallHome.Ten with { SolarInputKw = 3 }), s_terms).CurtailedKwh, 9);
        Assert.Equal(24, Of(WithSeparateInverter(HomeOf(_ => 1, sun)), s_terms).CurtailedKwh, 9);
    }

    [Fact]
    public void Recovery_IsTheFirstIntervalServedWholly()
    {
        // Awake again with the sun at 12:00, but 5.5 kW are asked until 13:00 and 5 are given: the same failure goes on.
        NamedOutage named = Of(HomeOf(h => h is >= 12 and < 13 ? 5.5 : 1, h => h is >= 12 and < 20 ? 5 : 0), s_terms);
        Assert.Equal(13, named.RecoversHours);
        Assert.Equal([SpellEventKind.Empty, SpellEventKind.ServedAgain], named.Events.Take(2).Select(e => e.Kind));
        Assert.Equal(13, named.Events[1].Hour);
    }

    [Fact]
    public void EmptyAtTheStart_IsUnservedFromTheFirstInterval()
    {
        NamedOutage named = Of(HomeOf(_ => 1, reserve: 0), s_terms with { StartCharge = StartCharge.Reserve });
        Assert.Equal((0.0, 0.0, (double?)null), (named.StartKwh, named.FirstUnservedHours, named.RecoversHours));
        Assert.Equal((0.0, 0.0), (named.HoursLeftWithSun[0], named.HoursLeftWithoutSun[0]));
        OutageTerms evening = s_terms with { StartCharge = StartCharge.Reserve, NamedStart = new LocalDateTime(2025, 1, 8, 21, 0) };
        NamedOutage sunny = Of(HomeOf(_ => 1, h => h is >= 12 and < 20 ? 5 : 0, reserve: 0), evening);
        Assert.Equal((0.0, 15.0), (sunny.FirstUnservedHours, sunny.RecoversHours));
    }

    [Fact]
    public void MinuteData_AreWalkedByTheMinute()
    {
        // 5 kW: two hours from full.
        Home home = SmallHome.Of(SmallHome.Axis(1, 1), _ => 5);
        OutageTerms terms = s_terms with { HorizonHours = 3, NamedHours = 2, Wish = new OutageWish(1) };
        terms = terms with { NamedStart = new LocalDateTime(2025, 1, 6, 0, 0) };
        OfferOutages offer = OutageStudy.Of(home, terms).Offers[0];
        Assert.Equal((180, 120), (offer.Outcomes.Horizon, offer.Named.Ledger.Axis.Count));
        Assert.InRange(offer.Any.HoursLastedBy(0.5), 119 / 60.0, 2);
    }

    [Fact]
    public void TwiceTheSun_IsTwiceTheSun()
    {
        Home home = HomeOf(_ => 1, h => h is >= 9 and < 15 ? 1.5 : 0);
        Assert.Equal(18, Of(home, s_terms with { CloudFactor = 2 }).Ledger.Sums.Kwh(LedgerColumn.SolarDcKw), 9);
    }

    [Fact]
    public void Storm_SeenTwelveHoursAhead_AddsTwelveHoursOfTheGrid()
    {
        // 100 kWh with a fifth as reserve; the inverter passes 5 kW.
        Home home = HomeOf(_ => 1, battery: SmallHome.Ten with { CapacityKwh = 100 });
        Assert.Equal(20 + (12 * 5), Of(home, s_terms with { StartCharge = StartCharge.Storm }).StartKwh, 9);
    }

    [Fact]
    public void LittleLoad_OutlastsTheHorizon()
    {
        NamedOutage named = Of(HomeOf(_ => 0.1), s_terms);
        Assert.Null(named.HoursLeftWithoutSun[0]);
        // 10 kWh last 100 h, 24 + 48 h are walked.
        Assert.All(named.HoursLeftWithSun, Assert.Null);
        Assert.Equal((null, null, null), (named.FirstUnservedHours, named.FirstDarkHours, named.RecoversHours));
        Assert.Empty(named.Events);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void CloudByDay_DimsTheSunAloneAndCountsDaysFromTheStart(bool isDc)
    {
        // From noon: three hours of sun that day and three the next morning are a day; 4 kW × 6 h = 24 kWh.
        Home home = HomeOf(_ => 1, h => h is >= 9 and < 15 ? 4 : 0);
        if (!isDc) home = WithSeparateInverter(home);
        var pump = new LoadPart { Name = "pump", Source = LoadSource.Share(0.5), OffBelowFraction = 0 };
        OutageTerms terms = s_terms with { NamedHours = 96, CloudFactorByDay = [1, 0.5, 0.25], Kept = new KeptLoad { Parts = [pump] } };
        terms = terms with { NamedStart = new LocalDateTime(2025, 1, 8, 12, 0) };
        Ledger ledger = Of(home, terms).Ledger;
        double[] sun = ledger[isDc ? LedgerColumn.SolarDcKw : LedgerColumn.SolarAcKw].ToArray();
        Assert.Equal([24.0, 12, 6, 6], Enumerable.Range(0, 4).Select(d => sun[(d * 96)..((d + 1) * 96)].Sum() / 4));
        double[] load = ledger[LedgerColumn.LoadKw].ToArray();
        Assert.All(load[..8], kw => Assert.Equal(1, kw, 9));
        Assert.Equal(Enumerable.Repeat(load[0], 8), load[^8..]);
    }
}
