using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Tests.Engine;

/// <summary>Shaving that does not fight for a peak that is already lost (common practice); small batteries, worked by hand.</summary>
public class ShavingRatchetTests
{
    private static readonly Strategy s_shave = new() { Base = Steering.DemandShaving, ShaveToKw = 2, RefillFraction = 0, Ratchets = true, ReserveFraction = 0 };

    // The import that shaving aims at in each interval, for a battery that starts empty: every peak is lost.
    private static double[] Targets(double[] load, bool[] counts, bool[] begins, int[] bills, double highestKwh = 0, Strategy? strategy = null)
    {
        var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 6, 2, 0, 0), 60, load.Length);
        Plant plant = new() { HighestKwh = highestKwh, ChargeLimitKw = 10, DischargeLimitKw = 10, InverterKw = 10 };
        var like = new Run(new Profile(axis, load), null, null, plant, SiteLimits.None,
            SetPoints.Always(new SetPointRow(0, 0, 0, 0, double.PositiveInfinity), load.Length));
        SetPoints points = ShavingRatchet.Compile(strategy ?? s_shave, StrategyClock.Of(s_shave, axis), like, new DemandWatch(counts, begins, bills));
        return [.. Enumerable.Range(0, load.Length).Select(i => points[i].ImportTargetKw)];
    }

    private static bool[] All(int count) => [.. Enumerable.Repeat(true, count)];

    // 5 kW of the first hour are the bill's demand already; 6 raise it again; the next bill begins at 2.
    [Fact]
    public void Target_RisesToTheDemandThatIs_AndFallsWithTheBill() => Assert.Equal(
        [2, 5, 5, 5, 6, 2, 3],
        Targets([5, 1, 3, 6, 1, 3, 1], All(7), All(7), [0, 0, 0, 0, 0, 1, 1]));

    // Means of two hours: 8 and 0 are 4; of the second pair 3.
    [Fact]
    public void Target_OfMeansOfTwoHours_RisesAtTheirEnd() => Assert.Equal(
        [2, 2, 4, 4, 4],
        Targets([8, 0, 3, 3, 1], All(5), [true, false, true, false, true], new int[5]));

    // What does not count is not shaved and raises nothing: 9 kW before the window leave the 2; the 4 in it do not.
    [Fact]
    public void Target_OutsideTheWindow_RaisesNothing() => Assert.Equal(
        [double.PositiveInfinity, double.PositiveInfinity, 2, 4],
        Targets([3, 9, 4, 1], [false, false, true, true], All(4), new int[4]));

    [Fact]
    public void Compile_OfAnotherStrategy_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => Targets([1], [true], [true], [0], strategy: s_shave with { Ratchets = false }));
        Assert.Throws<ArgumentException>(() => Targets([1], [true], [true], [0], strategy: new Strategy { Base = Steering.SelfUse, Ratchets = true }));
        Assert.Throws<ArgumentException>(() => Targets([1], [true], [true], [0], strategy: s_shave with { KeepsForDearest = true }));
    }

    // 2 and 1 kWh are charged within the 2 kW; the full 3 kWh hold the first hour of 5 kW at 2, so nothing is lost; the second hour is.
    [Fact]
    public void Target_WhatTheCellsShave_IsNotLost() => Assert.Equal(
        [2, 2, 2, 2, 5],
        Targets([0, 0, 5, 5, 1], All(5), All(5), new int[5], highestKwh: 3, strategy: s_shave with { RefillFraction = 1 }));
}
