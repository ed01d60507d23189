using System.Globalization;
using EnergySim.TestData;
using EnergySim.Wiring;

namespace EnergySim.Tests.Wiring;

/// <summary>Sources beside the checks. REFERENCE is the list of check values kept with the data; [C] there is arithmetic done by its authors.</summary>
public class BusbarRulesTests
{
    private static readonly CodeEdition s_2020 = CodeEdition.Of(2020)!;

    internal static ServicePanel Panel(double busbar, double main) => new() { BusbarAmps = busbar, MainAmps = main };

    // REFERENCE §4.1, nec_705_12_busbar.csv [C]: each pairing of busbar and main; the row 200/200 → 40 A is quoted by two published pages [V].
    [Fact]
    public void Headroom_EveryRowOfTheBusbarTable_IsMet()
    {
        string[] lines = File.ReadAllLines(SharedData.Reference("nec_705_12_busbar.csv"));
        Assert.Equal(54, lines.Length - 1);
        foreach (string line in lines.Skip(1))
        {
            double[] row = [.. line.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture))];
            ServicePanel panel = Panel(row[0], row[1]);
            double plain = BusbarRules.HeadroomAmps(panel, row[1], 0, 1), opposite = BusbarRules.HeadroomAmps(panel, row[1], 0, BusbarRules.OppositeEndFactor);
            Assert.Equal(row[2], plain, 9);
            Assert.Equal(row[3], BreakerSizes.LargestUpTo(plain) ?? 0);
            Assert.Equal(row[4], opposite, 9);
            double breaker = BreakerSizes.LargestUpTo(opposite)!.Value;
            Assert.Equal(row[5], breaker);
            Assert.Equal(row[6], opposite / BusbarRules.SourceFactor, 9);
            Assert.Equal(row[7], row[6] * 240 / 1000, 9);
            Assert.Equal(row[8], SiteLimits.ContinuousShare * breaker, 9);
            // The largest source of that row is within the rule; half an ampere more is not.
            SourceCurrents fits = new(0, row[6]), over = new(0, row[6] + 0.5);
            Assert.Equal(Standing.Within, BusbarRules.Ask(panel, row[1], fits, breaker, s_2020).Single(v => v.Rule == WiringRule.Busbar120).Standing);
            Assert.Equal(Standing.Beyond, BusbarRules.Ask(panel, row[1], over, breaker, s_2020).Single(v => v.Rule == WiringRule.Busbar120).Standing);
        }
    }

    // REFERENCE §4.1 no. 4 [V]: a centre-fed 200 A busbar with a 200 A main takes a 40 A breaker (B. Brooks, 2016).
    [Fact]
    public void LargestBreaker_CentreFed_TakesFortyAmps()
    {
        ServicePanel panel = Panel(200, 200) with { SourceEnd = SourceEnd.CentreFed };
        Assert.Equal(40, WayFitting.LargestBreaker(panel, 200, new SourceCurrents(0, 41.67), 60, s_2020));
        Verdict verdict = BusbarRules.Ask(panel, 200, new SourceCurrents(0, 32), 40, s_2020)[1];
        Assert.Equal((WiringRule.CentreFed, Standing.Within), (verdict.Rule, verdict.Standing));
        Assert.Equal("200 A main + 1.25 × 32 A = 240 A ≤ 1.2 × 200 A busbar = 240 A, sources at one end of a centre-fed busbar", verdict.Arithmetic);
    }

    // REFERENCE §4.3: 7.6 kW at 240 V needs at least 40 A (IAEI Sept/Oct 2020 [V/C]); 36.2 A × 1.25 = 45.25 A → 50 A (forum [V]).
    [Theory]
    [InlineData(7600d / 240, 40)]
    [InlineData(36.2, 50)]
    [InlineData(32, 40)]
    public void BreakerFor_ContinuousCurrent_IsTheNextSizeUpFrom125PerCent(double amps, double breaker)
    {
        Assert.Equal(breaker, BusbarRules.BreakerFor(amps));
        Assert.Equal(Standing.Within, BusbarRules.ContinuousBreaker(amps, breaker, s_2020).Standing);
        Assert.Equal(Standing.Beyond, BusbarRules.ContinuousBreaker((breaker / 1.25) + 0.01, breaker, s_2020).Standing);
    }

    // REFERENCE §4.3 and §4.2 [C]: a 40 A breaker carries 7.68 kW continuously at 240 V, 60 A 11.52; settings 200 → 160, 100 → 80, 225 → 180 A.
    [Theory]
    [InlineData(40, 7.68, 32)]
    [InlineData(60, 11.52, 48)]
    [InlineData(200, 38.4, 160)]
    [InlineData(100, 19.2, 80)]
    [InlineData(225, 43.2, 180)]
    public void ContinuousKw_OfABreaker_IsFourFifths(double amps, double kw, double continuousAmps)
    {
        Assert.Equal(kw, SiteLimits.ContinuousKw(amps, 240), 12);
        Assert.Equal(continuousAmps, kw * 1000 / 240, 9);
    }

    // REFERENCE §4.4 [V]: example of 240.4(B), 115 A → 125 A up or 110 A down.
    [Fact]
    public void Sizes_Between_GoUpAndDown()
    {
        Assert.Equal((125, 110), (BreakerSizes.NextUp(115), BreakerSizes.LargestUpTo(115)!.Value));
        Assert.Equal(37, BreakerSizes.All.Count);
        Assert.True(BreakerSizes.IsStandard(225));
        Assert.False(BreakerSizes.IsStandard(65));
        Assert.Null(BreakerSizes.LargestUpTo(14.9));
        Assert.Throws<ArgumentOutOfRangeException>(() => BreakerSizes.NextUp(6001));
    }

    // REFERENCE §4.1 no. 3: all breakers but the main ≤ busbar.
    [Theory]
    [InlineData(150, Standing.Within)]
    [InlineData(165, Standing.Beyond)]
    public void SumOfBreakers_LeavesTheMainOut(double loads, Standing standing)
    {
        Verdict verdict = BusbarRules.SumOfBreakers(Panel(200, 200) with { LoadBreakersAmps = loads }, new SourceCurrents(0, 32), 40, s_2020);
        Assert.Equal((standing, "705.12(B)(3)(3)"), (verdict.Standing, verdict.Section));
    }

    // REFERENCE §4.1 no. 6 [V]: feeder ≥ its breaker + 125 % of the source, or a breaker behind the connection.
    [Fact]
    public void OnFeeder_ConductorsOrABreakerBehind_Decide()
    {
        var feeder = new Feeder { Name = "barn", BreakerAmps = 100, ConductorAmps = 115 };
        Assert.Equal(Standing.Beyond, BusbarRules.OnFeeder(feeder, 16, s_2020).Standing);
        Assert.Equal(Standing.Within, BusbarRules.OnFeeder(feeder, 12, s_2020).Standing);
        Assert.Equal(Standing.Within, BusbarRules.OnFeeder(feeder with { DownstreamBreakerAmps = 110 }, 16, s_2020).Standing);
        Assert.Equal(Standing.Beyond, BusbarRules.OnFeeder(feeder with { DownstreamBreakerAmps = 125 }, 16, s_2020).Standing);
    }

    // REFERENCE §4.1 no. 7, 240.21(B) (from memory): a tenth to 10 ft, a third to 25 ft.
    [Theory]
    [InlineData(10, 20, Standing.Within)]
    [InlineData(25, 40, Standing.Within)]
    [InlineData(25, 39, Standing.Beyond)]
    [InlineData(30, 100, Standing.Unknown)]
    public void Tap_ByItsLength(double feet, double tap, Standing standing)
    {
        var feeder = new Feeder { Name = "barn", BreakerAmps = 100, ConductorAmps = 115, TapAmps = tap, TapFeet = feet };
        Assert.Equal(standing, BusbarRules.Tap(feeder, 16, s_2020).Standing);
    }

    [Fact]
    public void PowerControl_InAnEditionWithoutIt_IsSaid()
    {
        Verdict verdict = BusbarRules.Guarded("busbar", 200, 160, CodeEdition.Of(2017)!);
        Assert.Equal((Standing.NotInEdition, null), (verdict.Standing, verdict.Section));
        Assert.Contains("the 2017 edition has no such rule", verdict.Arithmetic, StringComparison.Ordinal);
        Assert.Equal((Standing.Within, "705.13"), (BusbarRules.Guarded("busbar", 200, 160, s_2020).Standing, BusbarRules.Guarded("busbar", 200, 160, s_2020).Section));
        // Installers disagree about settings between 80 and 100 % (TRADE §3.2): within the rating, and said.
        Assert.Contains("ask the local authority", BusbarRules.Guarded("busbar", 200, 200, s_2020).Arithmetic, StringComparison.Ordinal);
        Assert.Equal(Standing.Beyond, BusbarRules.Guarded("busbar", 200, 201, s_2020).Standing);
    }

    [Fact]
    public void Editions_EveryRule_HasASectionOrIsAbsent()
    {
        foreach (CodeEdition edition in CodeEdition.All)
            foreach (WiringRule rule in Enum.GetValues<WiringRule>())
                Assert.Equal(rule is WiringRule.Spaces or WiringRule.Leg || (rule == WiringRule.PowerControl && edition.Year == 2017), edition.SectionOf(rule) is null);
        // Edition map, REFERENCE §4.1 [V] and §4.2 [V].
        Assert.Equal("705.12(B)(2)(3)(b)", CodeEdition.Of(2017)!.SectionOf(WiringRule.Busbar120));
        Assert.Equal("705.12(B)(1)", s_2020.SectionOf(WiringRule.Feeder));
        Assert.True(CodeEdition.Of(2026)!.IsFromMemory(WiringRule.OptionalLoad));
        Assert.Null(CodeEdition.Of(2011));
    }
}
