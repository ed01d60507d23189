using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Tests.Engine;

/// <summary>Stand-alone sizing from outside: worksheets of days of autonomy, and loss of load of a random walk with a known answer.</summary>
public class AutonomyTests
{
    [Theory]
    // 6,000 Wh a day for 3 days at 40 % depth of discharge: 45,000 Wh of cells; at 50 %: 36,000 Wh, 750 Ah at 48 V (REFERENCE §6.1).
    [InlineData(6000, 3, 48, 0.40, 937.5)]
    [InlineData(6000, 3, 48, 0.50, 750)]
    // 1,860 Wh a day at 12 V and 50 %: 310 Ah. 5,000 Wh at 48 V and 80 %: 130.2 Ah (REFERENCE §6.1).
    [InlineData(1860, 1, 12, 0.50, 310)]
    [InlineData(5000, 1, 48, 0.80, 130.20833333333334)]
    public void BatteryOfTheWorksheet_LastsItsDaysOfAutonomyAndNoLonger(double whADay, int days, double volts, double depthFraction, double ampHours)
    {
        double nominalKwh = ampHours * volts / 1000;
        Assert.Equal(whADay * days / depthFraction / 1000, nominalKwh, 6);
        var plant = new Plant { HighestKwh = nominalKwh, LowestKwh = nominalKwh * (1 - depthFraction), ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5 };
        StartOutcomes outcomes = Constant(plant, whADay / 24000, 24 * 5);
        Assert.All(outcomes.LastingIntervals, hours => Assert.Equal(24 * days, hours));
    }

    [Fact]
    public void TemperatureMultiplierAndInverter_AreSizedForAndThenLast()
    {
        // 18,000 Wh ÷ 0.40 × 1.11 (60 °F) ÷ 48 V = 1,040.6 Ah (REFERENCE §6.1): cells that give 1/1.11 of their rating in the cold last three days.
        double ratedKwh = 1040.625 * 48 / 1000;
        Assert.Equal(49.95, ratedKwh, 9);
        double coldKwh = ratedKwh / 1.11;
        var plant = new Plant { HighestKwh = coldKwh, LowestKwh = coldKwh * 0.6, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5 };
        Assert.All(Constant(plant, 0.25, 24 * 5).LastingIntervals, hours => Assert.Equal(72, hours));
        // The house behind an inverter of 90 % takes 1/0.9 of its energy from the cells (REFERENCE §6.1): 5,400 Wh a day last what 6,000 did.
        Plant behind = plant with { InverterEfficiency = 0.9 };
        Assert.All(Constant(behind, 0.25 * 0.9, 24 * 5).LastingIntervals, hours => Assert.Equal(72, hours));
        Assert.All(Constant(behind, 0.25, 24 * 5).LastingIntervals, hours => Assert.Equal(64, hours));
        // 8 × 6 V × 305 Ah × 0.30 = 4,392 Wh: 183 W for a day.
        var eight = new Plant { HighestKwh = 8 * 6 * 305 / 1000.0, LowestKwh = 8 * 6 * 305 / 1000.0 * 0.7, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5 };
        Assert.Equal(4.392, eight.UsableKwh, 9);
        Assert.All(Constant(eight, 0.183, 24 * 5).LastingIntervals, hours => Assert.Equal(24, hours));
    }

    [Theory]
    // Stationary loss of load of a walk up with p (lost if full) and down with 1 − p (unserved if empty): q ÷ Σ (p/q)^i, i = 0 … N (REFERENCE §6.2).
    [InlineData(3, 0.5, 0.125)]
    [InlineData(5, 0.5, 0.0833333)]
    [InlineData(3, 0.6, 0.0492308)]
    [InlineData(5, 0.6, 0.0192481)]
    [InlineData(10, 0.6, 0.00233925)]
    public void RandomWalk_LosesItsLoadAsOftenAsTheClosedForm(int steps, double up, double lossOfLoad)
    {
        double sum = 0;
        for (int i = 0; i <= steps; i++) sum += Math.Pow(up / (1 - up), i);
        Assert.Equal(lossOfLoad, (1 - up) / sum, 6);
        // Intervals of a minute: 60 kW are one step. On a sunny one the sun gives two steps, of which the house takes one.
        const int Count = 250_000;
        var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2000, 1, 1, 0, 0), 1, Count);
        var sun = new double[Count];
        ulong state = 12345;
        for (int i = 0; i < Count; i++)
        {
            state = (state * 6364136223846793005) + 1442695040888963407;
            sun[i] = (state >> 11) / (double)(1ul << 53) < up ? 120 : 0;
        }
        var plant = new Plant { HighestKwh = steps, ChargeLimitKw = 1000, DischargeLimitKw = 1000, InverterKw = 1000 };
        var run = new Run(Profile.Zero(axis).Map(_ => 60), new Profile(axis, sun), null, plant, SiteLimits.None, null, 0, offGrid: true);
        double lost = run.Sums().UnservedKwh.Energy / Count;
        // Draws follow each other in the walk: a few of their standard deviations (taken as those of Count/50 free draws at the least).
        double deviation = Math.Sqrt(lossOfLoad * (1 - lossOfLoad) / (Count / 50.0));
        Assert.InRange(lost, lossOfLoad - (3 * deviation), lossOfLoad + (3 * deviation));
    }

    private static StartOutcomes Constant(Plant plant, double loadKw, int hours)
    {
        var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 1, 0, 0), 60, hours);
        var run = new Run(Profile.Zero(axis).Map(_ => loadKw), null, null, plant, SiteLimits.None, null, null, offGrid: true);
        double[] full = [.. Enumerable.Repeat(plant.HighestKwh, hours)];
        return new EveryStart(run, hours).Walk(full);
    }
}
