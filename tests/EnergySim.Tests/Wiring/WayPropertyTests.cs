using CsCheck;
using EnergySim.TestData;
using EnergySim.Wiring;

namespace EnergySim.Tests.Wiring;

/// <summary>What holds of every way that is said to fit, whatever the panel and edition.</summary>
public class WayPropertyTests
{
    private static readonly WiringRule[] s_busbarRules = [WiringRule.Busbar100, WiringRule.Busbar120, WiringRule.CentreFed, WiringRule.SumOfBreakers];

    private static readonly double[] s_ratings = [100, 125, 150, 175, 200, 225, 400];

    private static readonly Gen<(ServicePanel Panel, SourceCurrents Sources, CodeEdition Edition)> s_any =
        from busbar in Gen.Int[0, s_ratings.Length - 1]
        from main in Gen.Int[0, s_ratings.Length - 1]
        from end in Gen.Enum<SourceEnd>()
        from loads in Gen.Frequency((1, Gen.Const((double?)null)), (2, Gen.Double[20, 300].Select(a => (double?)a)))
        from spaces in Gen.Frequency((1, Gen.Const((int?)null)), (1, Gen.Int[0, 6].Select(s => (int?)s)))
        from solar in Gen.Frequency((1, Gen.Const(0.0)), (2, Gen.Double[5, 60]))
        from battery in Gen.Double[5, 120]
        from edition in Gen.Int[0, CodeEdition.All.Count - 1]
        select (
            new ServicePanel { MainAmps = s_ratings[main], BusbarAmps = s_ratings[busbar], SourceEnd = end, LoadBreakersAmps = loads, FreeSpaces = spaces },
            new SourceCurrents(solar, battery), CodeEdition.All[edition]);

    // A fit is not only a breaker that was found: a rule of the busbar which the edition has must bear it (NEC 705.12, REFERENCE §4.1: one of them is enough).
    [Fact]
    public void Breaker_SaidToFit_IsWithinARuleOfTheBusbar() => FixedSeed.Check(s_any, 5000, any =>
    {
        var way = new WayToConnect { Name = "way", Connects = ConnectionKind.Breaker };
        WayFit fit = WayFitting.Of(way, new WiringPlan { Panel = any.Panel, Edition = any.Edition, Ways = [way] }, any.Sources, null);
        if (fit.Standing != Standing.Within) return;
        Assert.Contains(fit.Verdicts, v => v.Standing == Standing.Within && s_busbarRules.Contains(v.Rule));
        Assert.DoesNotContain(fit.Verdicts, v => v.Rule == WiringRule.Spaces && v.Standing == Standing.Beyond);
        // A continuous current is at most 80 % of its breaker (NEC 210.20(A)).
        Assert.True(fit.OutputAmps <= (0.8 * fit.BreakerAmps) + 1e-9 && fit.OutputAmps <= any.Sources.BatteryAmps + 1e-9, $"{fit.OutputAmps} A behind {fit.BreakerAmps} A");
    });
}
