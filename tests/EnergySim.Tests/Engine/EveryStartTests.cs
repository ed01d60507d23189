using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.TestData;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Tests.Engine;

public class EveryStartTests
{
    [Fact]
    public void Walk_OnRandomCases_EqualsAPlainRunFromEachStart() => FixedSeed.Check(RandomCase.Any, 120, Compare);

    // Far from full and empty most of the time, so that outages are walked side by side; some to the end, some until one of them meets a limit.
    [Fact]
    public void Walk_OnLargeBatteries_EqualsAPlainRunFromEachStart() => FixedSeed.Check(RandomCase.Any, 120, random => Compare(random with
    {
        Plant = random.Plant with
        {
            HighestKwh = random.Plant.LowestKwh + (random.Plant.UsableKwh * (random.Load.Axis.Count % 4 == 0 ? 4 : 25)),
            DischargeLimitKw = 30,
            InverterKw = 30,
            ChargeTaper = Taper.None,
            DischargeTaper = Taper.None,
        },
        Site = random.Load.Axis.Count % 3 == 0 ? random.Site : SiteLimits.None,
    }));

    private static void Compare(RandomCase random)
    {
        int count = random.Load.Axis.Count, horizon = 1 + (count * 2 / 3);
        var starts = new double[count];
        for (int i = 0; i < count; i++) starts[i] = random.Plant.LowestKwh + (i * 7919 % 101 / 100.0 * random.Plant.UsableKwh);
        StartOutcomes outcomes = new EveryStart(random.Run(offGrid: true), horizon).Walk(starts);
        for (int start = 0; start < count; start++)
        {
            // The slow way: the series laid out from the start, past the end from the beginning, and a run with its ledger.
            var axis = new TimeAxis(DateTimeZone.Utc, random.Load.Axis.Start, random.Load.Axis.StepMinutes, horizon);
            Profile From(Profile whole) => new(axis, [.. Enumerable.Range(start, horizon).Select(i => whole.Kw[i % count])]);
            Ledger ledger = new Run(From(random.Load), From(random.SolarDc), From(random.SolarAc), random.Plant, random.Site, null, starts[start], offGrid: true).Ledger();
            int lasting = ledger[LedgerColumn.UnservedKw].IndexOfAnyExcept(0.0);
            Assert.Equal(lasting < 0 ? horizon : lasting, outcomes.LastingIntervals[start]);
            Assert.Equal(ledger.Sums.DarkIntervals, outcomes.DarkIntervals[start]);
            Assert.Equal(ledger.Sums.Kwh(LedgerColumn.UnservedKw), outcomes.UnservedKwh[start], 8);
            Assert.True(outcomes.LastingOnEnergyIntervals[start] >= outcomes.LastingIntervals[start]);
            if (ledger.Sums.UnservedKwh.Energy == 0) Assert.Equal(horizon, outcomes.LastingOnEnergyIntervals[start]);
            else Assert.True(outcomes.LastingOnEnergyIntervals[start] < horizon);
        }
    }

    [Fact]
    public void ConstantLoad_WithoutSun_LastsByTheClosedForm()
    {
        // E·η/L = 12 kWh × 0.90 × 0.95 / 1.2 kW = 8.55 h: REFERENCE §6.2, "Constant load". Whole hours before the first unserved: 8.
        Plant plant = new() { HighestKwh = 12, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5, DischargeEfficiency = 0.9, InverterEfficiency = 0.95 };
        StartOutcomes hours = Constant(plant, 1.2, 60, 48);
        Assert.All(hours.LastingIntervals, n => Assert.Equal(8, n));
        // What is not served of 24 h is the load less what the cells give.
        Assert.All(hours.UnservedKwh, kwh => Assert.Equal((24 * 1.2) - (12 * 0.9 * 0.95), kwh, 9));
        StartOutcomes minutes = Constant(plant, 1.2, 1, 600);
        Assert.All(minutes.LastingIntervals, n => Assert.Equal(513, n));
    }

    [Fact]
    public void Standby_AloneDraws_EmptiesByTheClosedForm()
    {
        // 40 W for 24 h are 0.96 kWh (TRADE §6.2 case 27, common practice): with 0.96 kWh stored a house of 0.001 W more lasts 23 whole hours.
        Plant plant = new() { HighestKwh = 0.96, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5, StandbyKw = 0.04 };
        Assert.All(Constant(plant, 1e-6, 60, 48).LastingIntervals, n => Assert.Equal(23, n));
    }

    [Fact]
    public void Walk_OutlastingTheHorizon_IsTheHorizonAndNoMore()
    {
        Plant plant = new() { HighestKwh = 1000, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5 };
        StartOutcomes outcomes = Constant(plant, 1, 60, 48);
        Assert.All(outcomes.LastingIntervals, n => Assert.Equal(24, n));
        Assert.All(outcomes.UnservedKwh, kwh => Assert.Equal(0, kwh));
    }

    [Fact]
    public void Overload_IsWantOfPowerNotOfEnergy()
    {
        // Load 9, unit 5 kW: 4 kW unserved with load management, 9 without (TRADE §6.2 case 30, common practice).
        Plant plant = new() { HighestKwh = 1000, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5 };
        StartOutcomes managed = Constant(plant, 9, 60, 24);
        Assert.All(managed.LastingIntervals, n => Assert.Equal(0, n));
        Assert.All(managed.LastingOnEnergyIntervals, n => Assert.Equal(24, n));
        Assert.All(managed.UnservedKwh, kwh => Assert.Equal(24 * 4, kwh, 9));
        StartOutcomes tripping = Constant(plant, 9, 60, 24, new SiteLimits { ManagesLoad = false });
        Assert.All(tripping.UnservedKwh, kwh => Assert.Equal(24 * 9, kwh, 9));
    }

    [Fact]
    public void RunOnTheGrid_IsRefused()
    {
        var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 1, 0, 0), 60, 24);
        var run = new Run(Profile.Zero(axis), null, null, Plant.Nothing, SiteLimits.None, null);
        Assert.Contains("not off the grid", Assert.Throws<ArgumentException>(() => new EveryStart(run, 24)).Message, StringComparison.Ordinal);
    }

    private static StartOutcomes Constant(Plant plant, double loadKw, int stepMinutes, int count, SiteLimits? site = null)
    {
        var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 1, 0, 0), stepMinutes, count);
        var run = new Run(Profile.Zero(axis).Map(_ => loadKw), null, null, plant, site ?? SiteLimits.None, null, null, offGrid: true);
        double[] full = [.. Enumerable.Repeat(plant.HighestKwh, count)];
        return new EveryStart(run, stepMinutes == 60 ? 24 : count).Walk(full);
    }
}
