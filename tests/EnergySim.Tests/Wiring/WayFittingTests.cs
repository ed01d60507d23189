using EnergySim.Wiring;

namespace EnergySim.Tests.Wiring;

public class WayFittingTests
{
    private static readonly SourceCurrents s_tenKw = new(0, 10_000d / 240);

    private static WiringPlan Plan(int edition = 2020, ServicePanel? panel = null, DwellingLoads? loads = null) => new()
    {
        Panel = panel ?? BusbarRulesTests.Panel(200, 200),
        Edition = CodeEdition.Of(edition)!,
        Loads = loads,
        Ways = [],
    };

    private static WayToConnect Way(ConnectionKind kind) => new() { Name = kind.ToString(), Connects = kind };

    private static readonly DwellingLoads s_small = new() { AreaSquareFeet = 1800, Appliances = [new Appliance("range", 12_000)] };

    // TRADE §6.2 case 11: busbar 200, main 200, a 10 kW source without control → 7.68 kW continuous; main 175 with a 60 A breaker → 11.52 kW.
    [Fact]
    public void Case11_Busbar_TenKwWithoutControlGives768()
    {
        WayFit fit = WayFitting.Of(Way(ConnectionKind.Breaker), Plan(), s_tenKw, null);
        Assert.True(fit.MayBe);
        Assert.Equal((40, true), (fit.BreakerAmps, fit.IsSetDown));
        Assert.Equal(7.68, fit.OutputAmps * 240 / 1000, 9);
        Assert.Equal("a 40 A breaker fits; the inverters are set down to 32 A", fit.Why);

        WayFit main = WayFitting.Of(Way(ConnectionKind.SmallerMain) with { MainAmps = 175 }, Plan(loads: s_small), new SourceCurrents(0, 60), 60);
        Assert.True(main.MayBe);
        Assert.Equal((175, 60), (main.MainAmps, main.BreakerAmps));
        Assert.Equal(11.52, main.OutputAmps * 240 / 1000, 9);
    }

    [Fact]
    public void SmallerMain_NotNamed_IsTheLargestThatLeavesFullPower()
    {
        WayFit fit = WayFitting.Of(Way(ConnectionKind.SmallerMain), Plan(loads: s_small), s_tenKw, null);
        // 60 A breaker beside 175 A: 235 A ≤ 240 A.
        Assert.Equal((true, 175, 60), (fit.MayBe, fit.MainAmps, fit.BreakerAmps));
    }

    [Fact]
    public void SmallerMain_WithoutALoadCalculation_IsUnknown() =>
        Assert.Equal(Standing.Unknown, WayFitting.Of(Way(ConnectionKind.SmallerMain), Plan(), s_tenKw, null).Standing);

    [Fact]
    public void SmallerMain_BelowTheCalculatedLoad_IsBeyond()
    {
        DwellingLoads heavy = s_small with { Appliances = [new Appliance("kiln", 90_000)] };
        WayFit fit = WayFitting.Of(Way(ConnectionKind.SmallerMain) with { MainAmps = 150 }, Plan(loads: heavy), s_tenKw, null);
        Assert.Equal((Standing.Beyond, "the calculated load is above a 150 A main"), (fit.Standing, fit.Why));
    }

    // A 7.6 kW solar inverter that stays fills the 40 A by itself: 1.25 × 31.67 A = 39.58 A (REFERENCE §4.3).
    [Fact]
    public void Breaker_BesideSolarThatStays_HasNoRoom()
    {
        SourceCurrents sources = s_tenKw with { SolarAmps = 7600d / 240 };
        WayFit breaker = WayFitting.Of(Way(ConnectionKind.Breaker), Plan(), sources, null);
        Assert.Equal((Standing.Beyond, 0), (breaker.Standing, breaker.BreakerAmps));
        WayFit guarded = WayFitting.Of(Way(ConnectionKind.GuardedBusbar), Plan(), sources, null);
        Assert.Equal((Standing.Within, 60, 160d), (guarded.Standing, guarded.BreakerAmps, guarded.SettingAmps!.Value));
        Assert.Equal(Standing.Within, WayFitting.Of(Way(ConnectionKind.SupplySide), Plan(), sources, null).Standing);
    }

    [Fact]
    public void GuardedBusbar_SolarNotControlledAndTooLarge_IsBeyond() =>
        Assert.Equal(Standing.Beyond, WayFitting.Of(Way(ConnectionKind.GuardedBusbar), Plan(), s_tenKw with { SolarAmps = 48 }, null).Standing);

    [Fact]
    public void GuardedBusbar_In2017_IsNotInTheEdition() =>
        Assert.Equal(Standing.NotInEdition, WayFitting.Of(Way(ConnectionKind.GuardedBusbar), Plan(2017), s_tenKw, null).Standing);

    [Theory]
    [InlineData(-10)]
    [InlineData(0)]
    [InlineData(201)]
    public void GuardedBusbar_SettingOutOfRange_Throws(double setting)
    {
        ArgumentException fault = Assert.Throws<ArgumentException>(() => WayFitting.Of(Way(ConnectionKind.GuardedBusbar) with { SettingAmps = setting }, Plan(), s_tenKw, null));
        Assert.Contains("at most at the rating of 200 A", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Breaker_WithoutSpaces_IsBeyond()
    {
        WayFit fit = WayFitting.Of(Way(ConnectionKind.Breaker), Plan(panel: BusbarRulesTests.Panel(200, 200) with { FreeSpaces = 1 }), s_tenKw, null);
        Assert.Equal((Standing.Beyond, "no room for the breaker"), (fit.Standing, fit.Why));
    }

    [Fact]
    public void GuardedFeeder_HoldsOutputAtItsSetting()
    {
        ServicePanel panel = BusbarRulesTests.Panel(200, 200) with { Feeders = [new Feeder { Name = "barn", BreakerAmps = 50, ConductorAmps = 55, LoadFraction = 0.25 }] };
        WayFit fit = WayFitting.Of(Way(ConnectionKind.GuardedFeeder) with { Feeder = "barn" }, Plan(panel: panel), s_tenKw, null);
        Assert.Equal((true, 40d, 40, 0.25, true), (fit.MayBe, fit.SettingAmps!.Value, fit.OutputAmps, fit.GuardedLoadFraction, fit.IsSetDown));
        Assert.Throws<ArgumentException>(() => WayFitting.Of(Way(ConnectionKind.GuardedFeeder) with { Feeder = "shed" }, Plan(panel: panel), s_tenKw, null));
    }

    [Fact]
    public void OnFeeder_MainPanelsBusbarStillCounts()
    {
        ServicePanel panel = BusbarRulesTests.Panel(200, 200) with { Feeders = [new Feeder { Name = "barn", BreakerAmps = 100, ConductorAmps = 175 }] };
        WayToConnect way = Way(ConnectionKind.Feeder) with { Feeder = "barn" };
        Assert.Equal(Standing.Beyond, WayFitting.Of(way, Plan(panel: panel), s_tenKw, null).Standing);
        Assert.Equal(Standing.Within, WayFitting.Of(way, Plan(panel: panel), new SourceCurrents(0, 20), null).Standing);
    }
}
