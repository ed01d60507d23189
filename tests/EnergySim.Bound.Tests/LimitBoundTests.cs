using CsCheck;
using EnergySim.Equipment;
using EnergySim.TestData;
using EnergySim.Wiring;

namespace EnergySim.Bound.Tests;

public class LimitBoundTests
{
    private static readonly Gen<SmallCase> s_case =
        from load in Gen.Double[0, 6].Array[24]
        from sun in Gen.Frequency((1, Gen.Const(0.0)), (1, Gen.Double[0, 7])).Array[24]
        from buy in Gen.Int[15, 60].Array[24]
        from sell in Gen.Int[0, 14].Array[24]
        from kw in Gen.Double[0.5, 6].Array[4]
        select new SmallCase
        {
            LoadKw = load,
            SolarKw = sun,
            BuyPerKwh = [.. buy.Select(p => p / 100m)],
            SellPerKwh = [.. sell.Select(p => p / 100m)],
            Plant = new Plant { HighestKwh = 9, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5, ChargeEfficiency = 0.95, DischargeEfficiency = 0.95 },
            Site = new SiteLimits { InverterBreakerKw = kw[0], ImportKw = kw[1], ExportKw = kw[2], BusbarKw = 2 * kw[3] },
        };

    // A limit is a bound of the programme: with more room the cheapest operation costs no more. Each limit by itself, twice as loose and gone.
    [Fact]
    public void Of_LooserLimit_NeverCostsMore() => FixedSeed.Check(s_case, 25, tight =>
    {
        double bill = BillOf(tight);
        SiteLimits site = tight.Site;
        foreach (double factor in new[] { 2, double.PositiveInfinity })
        {
            foreach (SiteLimits looser in new[]
            {
                site with { InverterBreakerKw = factor * site.InverterBreakerKw },
                site with { ImportKw = factor * site.ImportKw },
                site with { ExportKw = factor * site.ExportKw },
                site with { BusbarKw = factor * site.BusbarKw },
            })
                Assert.True(BillOf(tight with { Site = looser }) <= bill + 1e-5, $"{looser} for {site}");
        }
    });

    private static double BillOf(SmallCase day) => BoundStudy.Of(day.Run(), day.Calendar, startKwh: 3, leastEndKwh: 3).Bill;
}
