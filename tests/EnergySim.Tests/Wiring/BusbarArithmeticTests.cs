using EnergySim.Wiring;

namespace EnergySim.Tests.Wiring;

/// <summary>The rules of REFERENCE §4.1 with the numbers as they are written on a plan; each worked by hand beside it.</summary>
public class BusbarArithmeticTests
{
    private static readonly CodeEdition s_2020 = CodeEdition.Of(2020)!;

    private static ServicePanel Panel(double busbar, double main) => BusbarRulesTests.Panel(busbar, main);

    // Solar 16 A and battery 16 A: 200 + 1.25 × 32 = 240 A; the busbar 200, with 20 % more 240 A.
    [Fact]
    public void Ask_WithSolar_AddsBothSources()
    {
        IReadOnlyList<Verdict> verdicts = BusbarRules.Ask(Panel(200, 200), 200, new SourceCurrents(16, 16), 20, s_2020);
        Assert.Equal([WiringRule.Busbar100, WiringRule.Busbar120, WiringRule.SumOfBreakers], verdicts.Select(v => v.Rule));
        Assert.Equal([Standing.Beyond, Standing.Within, Standing.Unknown], verdicts.Select(v => v.Standing));
        Assert.Equal("200 A main + 1.25 × (16 A solar + 16 A battery) = 240 A > 200 A busbar", verdicts[0].Arithmetic);
        Assert.Equal("200 A main + 1.25 × (16 A solar + 16 A battery) = 240 A ≤ 1.2 × 200 A busbar = 240 A, sources opposite the main", verdicts[1].Arithmetic);
        Assert.Contains("load breakers", verdicts[2].Arithmetic, StringComparison.Ordinal);
    }

    // Beside the main only the plain rule counts: 150 + 1.25 × 32 = 190 ≤ 200 A.
    [Fact]
    public void Ask_SourcesAnywhere_HasNoTwentyPerCentMore()
    {
        IReadOnlyList<Verdict> verdicts = BusbarRules.Ask(Panel(200, 150) with { SourceEnd = SourceEnd.Anywhere }, 150, new SourceCurrents(0, 32), 40, s_2020);
        Assert.Equal([WiringRule.Busbar100, WiringRule.SumOfBreakers], verdicts.Select(v => v.Rule));
        Assert.Equal("150 A main + 1.25 × 32 A = 190 A ≤ 200 A busbar", verdicts[0].Arithmetic);
    }

    // Rule 3: 100 A of loads + 40 A battery + solar. 16 A of solar stand behind 20 A (1.25 × 16): 160 A. Behind the 70 A that are there: 210 A. No solar:
    // 140 A.
    [Theory]
    [InlineData(16, null, "100 A loads + 20 A solar + 40 A battery = 160 A ≤ 200 A busbar, the main left out", Standing.Within)]
    [InlineData(16, 70d, "100 A loads + 70 A solar + 40 A battery = 210 A > 200 A busbar, the main left out", Standing.Beyond)]
    [InlineData(0, 70d, "100 A loads + 0 A solar + 40 A battery = 140 A ≤ 200 A busbar, the main left out", Standing.Within)]
    public void SumOfBreakers_CountsTheSolarBreaker(double solarAmps, double? solarBreaker, string arithmetic, Standing standing)
    {
        ServicePanel panel = Panel(200, 200) with { LoadBreakersAmps = 100, SolarBreakerAmps = solarBreaker };
        Verdict verdict = BusbarRules.SumOfBreakers(panel, new SourceCurrents(solarAmps, 32), 40, s_2020);
        Assert.Equal((arithmetic, standing), (verdict.Arithmetic, verdict.Standing));
    }

    // The larger of 1.2 × 200 − 200 − 1.25 × 16 = 20 A and of 200 − 120 − 20 = 60 A by the sum of breakers; without the sum 20 A; beside a main of 175 A
    // alone 25 A.
    [Fact]
    public void LargestBreaker_TakesTheRuleThatLeavesMore()
    {
        SourceCurrents solar = new(16, 48);
        Assert.Equal(60, WayFitting.LargestBreaker(Panel(200, 200) with { LoadBreakersAmps = 120 }, 200, solar, 100, s_2020));
        Assert.Equal(20, WayFitting.LargestBreaker(Panel(200, 200), 200, solar, 100, s_2020));
        Assert.Equal(20, WayFitting.LargestBreaker(Panel(200, 200) with { LoadBreakersAmps = 170 }, 200, solar, 100, s_2020));
        Assert.Equal(25, WayFitting.LargestBreaker(Panel(200, 175) with { SourceEnd = SourceEnd.Anywhere }, 175, new SourceCurrents(0, 48), 60, s_2020));
    }

    // 705.11: breakers between meter and main up to the service; a 320 A service may have a 200 A main.
    [Theory]
    [InlineData(null, 200, Standing.Within)]
    [InlineData(null, 225, Standing.Beyond)]
    [InlineData(320d, 225, Standing.Within)]
    public void SupplySide_IsMeasuredByTheService(double? service, double breaker, Standing standing) =>
        Assert.Equal(standing, BusbarRules.SupplySide(Panel(200, 200) with { ServiceAmps = service }, breaker, s_2020).Standing);

    // A tap carries its own source too: 48 A × 1.25 = 60 A, more than (20 + 60) ÷ 10 = 8 A.
    [Fact]
    public void Tap_CarriesItsSource()
    {
        var feeder = new Feeder { Name = "barn", BreakerAmps = 20, ConductorAmps = 100, TapAmps = 60, TapFeet = 10 };
        Assert.Equal(Standing.Within, BusbarRules.Tap(feeder, 48, s_2020).Standing);
        Assert.Equal(Standing.Beyond, BusbarRules.Tap(feeder with { TapAmps = 59 }, 48, s_2020).Standing);
        Assert.Contains("25 ft", BusbarRules.Tap(feeder with { TapFeet = 26 }, 48, s_2020).Arithmetic, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => BusbarRules.Tap(feeder with { TapAmps = null }, 48, s_2020));
    }

    // REFERENCE §4.2: 200 A → 160 A continuous.
    [Fact]
    public void Guarded_AtTheContinuousShare_IsNotQuestioned()
    {
        Assert.Equal(
            "setting 160 A ≤ 200 A busbar; continuous share 0.8 × 200 A = 160 A; a listed system watches all its sources",
            BusbarRules.Guarded("busbar", 200, 160, s_2020).Arithmetic);
        Assert.Contains(
            "above the continuous 0.8 × 200 A = 160 A", BusbarRules.Guarded("busbar", 200, 161, s_2020).Arithmetic, StringComparison.Ordinal);
    }

    [Fact]
    public void ContinuousKw_OfNoVoltsOrNegativeAmps_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SiteLimits.ContinuousKw(-1, 240));
        Assert.Throws<ArgumentOutOfRangeException>(() => SiteLimits.ContinuousKw(40, 0));
    }

    // ENGINE, the limits: relief of the import cap and load management are on where nothing else is said; no limit is a number.
    [Fact]
    public void NoLimits_RelievesAndManages()
    {
        Assert.True(SiteLimits.None.RelievesImport && SiteLimits.None.ManagesLoad);
        Assert.All([SiteLimits.None.InverterBreakerKw, SiteLimits.None.ImportKw, SiteLimits.None.ExportKw, SiteLimits.None.BusbarKw], kw =>
            Assert.Equal(double.PositiveInfinity, kw));
    }
}
