using CsCheck;
using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Strategies;

public class AgedSetPointTests
{
    private static readonly TimeAxis s_day = new(DateTimeZone.Utc, Instant.FromUtc(2025, 6, 1, 0, 0), 60, 24);

    [Fact]
    public void ForCapacity_AnyStrategy_IsTheStrategyCompiledForThatCapacity() => FixedSeed.Check(
        Gen.Select(Gen.Int[0, 3], Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[0, 3], Gen.Double[4, 20], Gen.Double[0, 1]), 500,
        c =>
        {
            (int steering, double reserve, double share, double lowest, double highest, double left) = c;
            var strategy = new Strategy
            {
                Base = (Steering)steering,
                ReserveFraction = reserve,
                PeakWindows = [new ClockWindow(16 * 60, 21 * 60)],
                ShaveToKw = 1,
                RefillFraction = share,
                Overnight = new OvernightCharge(new ClockWindow(0, 5 * 60), share),
                Sale = new BatterySale(new ClockWindow(19 * 60, 21 * 60), 1 - share),
            };
            var young = new Plant { LowestKwh = lowest, HighestKwh = highest };
            Plant old = young with { HighestKwh = lowest + (left * young.UsableKwh) };
            SetPoints wanted = strategy.Compile(old, s_day), aged = strategy.Compile(young, s_day).ForCapacity(young, old);
            for (int i = 0; i < s_day.Count; i++)
            {
                Same(wanted[i].FloorKwh, aged[i].FloorKwh);
                Same(wanted[i].SolarCeilingKwh, aged[i].SolarCeilingKwh);
                Same(wanted[i].GridCeilingKwh, aged[i].GridCeilingKwh);
                Same(wanted[i].SellDownKwh, aged[i].SellDownKwh);
                Assert.Equal(wanted[i].ImportTargetKw, aged[i].ImportTargetKw);
            }

            static void Same(double a, double b) => Assert.True(a.Equals(b) || Math.Abs(a - b) < 1e-9, $"{a} is not {b}");
        });
}
