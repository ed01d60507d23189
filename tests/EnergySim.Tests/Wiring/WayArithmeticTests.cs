using EnergySim.Wiring;

namespace EnergySim.Tests.Wiring;

/// <summary>Ways to connect with numbers worked by hand from the rules of REFERENCE §4.1 to §4.3.</summary>
public class WayArithmeticTests
{
    private static readonly DwellingLoads s_small = new() { AreaSquareFeet = 1800, Appliances = [new Appliance("range", 12_000)] };
    private static readonly DwellingLoads s_heavy = s_small with { Appliances = [new Appliance("kiln", 90_000)] };

    private static WayFit Fit(ConnectionKind kind, SourceCurrents sources, ServicePanel? panel = null, DwellingLoads? loads = null, double? breaker = null,
        double? main = null,
        int edition = 2020, double? setting = null)
    {
        var way = new WayToConnect { Name = "way", Connects = kind, MainAmps = main, SettingAmps = setting, Feeder = "barn" };
        var plan = new WiringPlan { Panel = panel ?? Panel(), Edition = CodeEdition.Of(edition)!, Loads = loads, Ways = [way] };
        return WayFitting.Of(way, plan, sources, breaker);
    }

    private static ServicePanel Panel(int? spaces = null) => BusbarRulesTests.Panel(200, 200) with { FreeSpaces = spaces };

    private static Feeder Barn(double breaker, double conductor) => new() { Name = "barn", BreakerAmps = breaker, ConductorAmps = conductor };

    // 48 A × 1.25 = 60 A ≤ 240 − 175 A: the whole source behind 60 A, not set down.
    [Fact]
    public void Breaker_ThatFits_LeavesFullPower()
    {
        WayFit fit = Fit(ConnectionKind.Breaker, new SourceCurrents(0, 48), BusbarRulesTests.Panel(200, 175) with { FreeSpaces = 2 });
        Assert.Equal((true, 60, 48, false, "a 60 A breaker fits"), (fit.MayBe, fit.BreakerAmps, fit.OutputAmps, fit.IsSetDown, fit.Why));
        Assert.Equal([WiringRule.Busbar100, WiringRule.Busbar120, WiringRule.SumOfBreakers, WiringRule.Continuous, WiringRule.Spaces],
            fit.Verdicts.Select(v => v.Rule));
        Assert.Equal(Standing.Within, fit.Verdicts[^1].Standing);
        Assert.Contains("not stated", Fit(ConnectionKind.Breaker, new SourceCurrents(0, 16)).Verdicts[^1].Arithmetic, StringComparison.Ordinal);
    }

    // 32 A of solar fill the 40 A. What is shown is then the offer as it was asked for: 200 + 1.25 × (32 + 48) = 300 A; 190 + 40 + 60 = 290 A.
    [Fact]
    public void Breaker_ThatDoesNotFit_ShowsTheOfferAsAsked()
    {
        WayFit fit = Fit(ConnectionKind.Breaker, new SourceCurrents(32, 48), Panel() with { LoadBreakersAmps = 190 });
        Assert.Equal((Standing.Beyond, 0, 0, false), (fit.Standing, fit.BreakerAmps, fit.OutputAmps, fit.IsSetDown));
        Assert.Equal("no breaker fits beside a 200 A main on a 200 A busbar", fit.Why);
        Assert.StartsWith("200 A main + 1.25 × (32 A solar + 48 A battery) = 300 A >", fit.Verdicts[0].Arithmetic, StringComparison.Ordinal);
        Assert.StartsWith("190 A loads + 40 A solar + 60 A battery = 290 A > 200 A", fit.Verdicts[2].Arithmetic, StringComparison.Ordinal);
        Assert.DoesNotContain(fit.Verdicts, v => v.Rule == WiringRule.Continuous);
        Assert.False(Fit(ConnectionKind.Breaker, new SourceCurrents(32, 48), breaker: 40).IsSetDown);
        // Where a smaller breaker fits, it is what is summed: 170 + 40 = 210 A.
        WayFit smaller = Fit(ConnectionKind.Breaker, new SourceCurrents(0, 48), Panel() with { LoadBreakersAmps = 170 });
        Assert.StartsWith("170 A loads + 0 A solar + 40 A battery = 210 A > 200 A", smaller.Verdicts[2].Arithmetic, StringComparison.Ordinal);
    }

    // 80 A behind 100 A: 175 and 150 A mains leave 65 and 90 A, 125 A leaves 115. One of 16 A (20 A) fits beside any: the largest below 200 A is 175 A.
    [Fact]
    public void SmallerMain_NotNamed_IsTheFirstThatLeavesFullPower()
    {
        WayFit fit = Fit(ConnectionKind.SmallerMain, new SourceCurrents(0, 80), loads: s_small);
        Assert.Equal((true, 125, 100, 80), (fit.MayBe, fit.MainAmps, fit.BreakerAmps, fit.OutputAmps));
        Assert.Equal("a 125 A main carries the calculated load; a 100 A breaker fits", fit.Why);
        Assert.Equal(175, Fit(ConnectionKind.SmallerMain, new SourceCurrents(0, 16), loads: s_small).MainAmps);
        // Named: as it is, 60 A × 0.8 = 48 A.
        WayFit named = Fit(ConnectionKind.SmallerMain, new SourceCurrents(0, 80), loads: s_small, main: 175);
        Assert.Equal((true, 60, 48, true), (named.MayBe, named.BreakerAmps, named.OutputAmps, named.IsSetDown));
        Assert.Throws<ArgumentException>(() => Fit(ConnectionKind.SmallerMain, new SourceCurrents(0, 16), loads: s_small, main: 200));
        // 200 A × 1.25 = 250 A; beside the smallest main of 15 A there are 225.
        WayFit none = Fit(ConnectionKind.SmallerMain, new SourceCurrents(0, 200), loads: s_small);
        Assert.Equal((Standing.Beyond, 200, "no smaller main makes room for the breaker"), (none.Standing, none.MainAmps, none.Why));
    }

    // A month's record is barred beside solar: unknown, and what the other methods say decides.
    [Fact]
    public void SmallerMain_OneMethodThatCarries_Suffices()
    {
        var month = new MeasuredDemand(8, IsWholeYear: false);
        SourceCurrents beside = new(8, 16);
        WayFit carries = Fit(ConnectionKind.SmallerMain, beside, loads: s_small with { Measured = month }, main: 150);
        Assert.True(carries.MayBe);
        Assert.Equal([Standing.Within, Standing.Within, Standing.Unknown], carries.Verdicts.TakeLast(3).Select(v => v.Standing));
        WayFit beyond = Fit(ConnectionKind.SmallerMain, beside, loads: s_heavy with { Measured = month }, main: 150);
        Assert.Equal((Standing.Beyond, "the calculated load is above a 150 A main"), (beyond.Standing, beyond.Why));
        // Without solar the month counts: 1.25 × 8 kW ÷ 240 V = 41.67 A.
        Assert.True(Fit(ConnectionKind.SmallerMain, new SourceCurrents(0, 16), loads: s_heavy with { Measured = month }, main: 150).MayBe);
        WayFit full = Fit(ConnectionKind.SmallerMain, beside, Panel(spaces: 1), s_small, main: 150);
        Assert.Equal((Standing.Beyond, "no room for the breaker"), (full.Standing, full.Why));
        Assert.StartsWith("a 150 A main would do, but", Fit(ConnectionKind.SmallerMain, beside, main: 150).Why, StringComparison.Ordinal);
    }

    // Setting 0.8 × 200 = 160 A (REFERENCE §4.2); a 40 A breaker carries 32 of the 48 A.
    [Fact]
    public void GuardedBusbar_WithoutSolar_AsksNoBusbarRule()
    {
        WayFit fit = Fit(ConnectionKind.GuardedBusbar, new SourceCurrents(0, 48));
        Assert.Equal((true, 160d, 48, false, "a power control system holds the busbar at 160 A"),
            (fit.MayBe, fit.SettingAmps!.Value, fit.OutputAmps, fit.IsSetDown, fit.Why));
        Assert.Equal([WiringRule.PowerControl, WiringRule.Continuous, WiringRule.Spaces], fit.Verdicts.Select(v => v.Rule));
        Assert.StartsWith("setting 160 A ≤ 200 A busbar;", fit.Verdicts[0].Arithmetic, StringComparison.Ordinal);
        WayFit small = Fit(ConnectionKind.GuardedBusbar, new SourceCurrents(0, 48), breaker: 40, setting: 200);
        Assert.Equal((true, 40, 32, true, 200d), (small.MayBe, small.BreakerAmps, small.OutputAmps, small.IsSetDown, small.SettingAmps!.Value));
    }

    // 48 A of solar, not controlled: 200 + 60 = 260 > 240 A. 32 A: 240 A, within.
    [Fact]
    public void GuardedBusbar_SaysWhyNot()
    {
        WayFit solar = Fit(ConnectionKind.GuardedBusbar, new SourceCurrents(48, 48));
        Assert.Equal((Standing.Beyond, "today's solar inverter, not controlled, is itself beyond the busbar rules"), (solar.Standing, solar.Why));
        Assert.StartsWith("200 A main + 1.25 × (48 A solar + 0 A battery) = 260 A >", solar.Verdicts[3].Arithmetic, StringComparison.Ordinal);
        WayFit fits = Fit(ConnectionKind.GuardedBusbar, new SourceCurrents(32, 48), Panel(spaces: 2));
        Assert.Equal((true, "a power control system holds the busbar at 160 A"), (fits.MayBe, fits.Why));
        WayFit full = Fit(ConnectionKind.GuardedBusbar, new SourceCurrents(32, 48), Panel(spaces: 1));
        Assert.Equal((Standing.Beyond, "no room for the breaker"), (full.Standing, full.Why));
        WayFit old = Fit(ConnectionKind.GuardedBusbar, new SourceCurrents(0, 48), edition: 2017);
        Assert.Equal((Standing.NotInEdition, old.Verdicts[0].Arithmetic), (old.Standing, old.Why));
    }

    // Feeder 100 A + 1.25 × 16 A = 120 A of conductors; its tap of 10 ft (100 + 20) ÷ 10 = 12 A, but never under 20 A.
    [Theory]
    [InlineData(120, null, 200, Standing.Within, "within the feeder's rule and the main panel's")]
    [InlineData(119, null, 200, Standing.Beyond, "beyond the feeder's rule")]
    [InlineData(120, 20d, 200, Standing.Within, "within the feeder's rule and the main panel's")]
    [InlineData(120, 19d, 200, Standing.Beyond, "beyond the feeder's rule")]
    [InlineData(120, null, 225, Standing.Beyond, "the main panel's busbar has no room for it")]
    public void OnFeeder_AsksFeederTapAndBusbar(double conductor, double? tap, double main, Standing standing, string why)
    {
        // Beside a main of 225 A there are 240 − 225 = 15 A.
        ServicePanel panel = Panel(spaces: 0) with { MainAmps = main, Feeders = [Barn(100, conductor) with { TapAmps = tap }] };
        WayFit fit = Fit(ConnectionKind.Feeder, new SourceCurrents(0, 16), panel);
        Assert.Equal((standing, why, 20, 16), (fit.Standing, fit.Why, fit.BreakerAmps, fit.OutputAmps));
        Assert.Equal(WiringRule.Feeder, fit.Verdicts[0].Rule);
        Assert.Equal(tap is null ? 0 : 1, fit.Verdicts.Count(v => v.Rule == WiringRule.FeederTap));
        Assert.DoesNotContain(fit.Verdicts, v => v.Rule == WiringRule.Spaces);
    }

    // The lesser of breaker and conductors, 60 A, × 0.8 = 48 A: no less than the source gives.
    [Fact]
    public void GuardedFeeder_ThatHoldsTheSource_DoesNotSetDown()
    {
        WayFit fit = Fit(ConnectionKind.GuardedFeeder, new SourceCurrents(0, 48), Panel() with { Feeders = [Barn(70, 60)] });
        Assert.Equal((true, 48d, 48, false), (fit.MayBe, fit.SettingAmps!.Value, fit.OutputAmps, fit.IsSetDown));
        Assert.StartsWith("setting 48 A ≤ 60 A feeder barn;", fit.Verdicts[0].Arithmetic, StringComparison.Ordinal);
        Assert.Equal("a power control system holds the feeder at 48 A; it must hold the main panel's 200 A busbar too", fit.Why);
        Assert.Equal([WiringRule.PowerControl, WiringRule.Continuous], fit.Verdicts.Select(v => v.Rule));
        WayFit old = Fit(ConnectionKind.GuardedFeeder, new SourceCurrents(0, 48), Panel() with { Feeders = [Barn(70, 60)] }, edition: 2017);
        Assert.Equal((Standing.NotInEdition, old.Verdicts[0].Arithmetic), (old.Standing, old.Why));
    }

    // A named breaker is taken as it is; without one 48 A ask for 60.
    [Theory]
    [InlineData(null, 60, Standing.Within, "no busbar is between meter and main")]
    [InlineData(70d, 70, Standing.Within, "no busbar is between meter and main")]
    [InlineData(225d, 225, Standing.Beyond, "the source breaker is above the service's rating")]
    public void SupplySide_ByTheBreakerAsked(double? asked, double breaker, Standing standing, string why)
    {
        WayFit fit = Fit(ConnectionKind.SupplySide, new SourceCurrents(0, 48), breaker: asked);
        Assert.Equal((breaker, standing, why), (fit.BreakerAmps, fit.Standing, fit.Why));
    }
}
