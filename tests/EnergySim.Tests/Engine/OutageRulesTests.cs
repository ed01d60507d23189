using CsCheck;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.TestData;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Tests.Engine;

/// <summary>Rules of an outage beyond the step; worked by hand (common practice) where no source is named.</summary>
public class OutageRulesTests
{
    private static readonly Plant s_ten = new() { HighestKwh = 10, ChargeLimitKw = 10, DischargeLimitKw = 10, InverterKw = 10 };

    private static Profile Hours(params double[] kw) =>
        new(new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 1, 0, 0), 60, kw.Length), kw);

    private static Ledger Outage(
        double[] load, OutageRules rules, double startKwh = 10, Plant? plant = null, SiteLimits? site = null, double[]? dc = null, double[]? ac = null) =>
        new Run(Hours(load), dc is null ? null : Hours(dc), ac is null ? null : Hours(ac), plant ?? s_ten, site ?? SiteLimits.None, null, startKwh, offGrid: true, rules).Ledger();

    [Fact]
    public void SheddablePart_GoesOffBelowItsLevelAndOnAboveTheOther()
    {
        // 2 kW always, 3 kW below 50 % off and from 80 % on again. 10 − 5 = 5: not below 50 %; 5 − 5 = 0 would be next, but at 5 kWh it is still on.
        var rules = new OutageRules { Sheddable = [new SheddableLoad("water heater", Hours(3, 3, 3, 3, 3, 3), 0.5, 0.8)] };
        Ledger ledger = Outage([2, 1, 1, 0, 0, 0], rules, dc: [0, 0, 0, 0, 8.5, 8.5]);
        // Hour 0 on (10 → 5), hour 1 on (5 → 1), hours 2 and 3 off (1 → 0 → 0), hour 4 off (0 → 8.5), hour 5 on: the sun serves it.
        Assert.Equal([5, 4, 1, 0, 0, 3], ledger[LedgerColumn.LoadKw].ToArray());
        Assert.Equal([5, 1, 0, 0, 8.5, 10], ledger[LedgerColumn.StoredKwh].ToArray(), new Within(1e-9));
        Assert.Equal(9, ledger.Sums.ShedKwh, 9);
        Assert.Equal(0, ledger.Sums.Kwh(LedgerColumn.UnservedKw), 9);
    }

    [Fact]
    public void Generator_FillsToItsStopLevelAndServesTheHouse()
    {
        // 4 kW, from below 20 % to 60 %, house 2 kW: hour 0 takes 9 → 1 kWh (10 %), then 4 kW feed 2 kW of house and 2 kW of cells, twice to 5, then 1 more.
        var rules = new OutageRules { Generator = new Generator { Kw = 4, StartBelowFraction = 0.2, StopAboveFraction = 0.6, FuelKwh = 12 } };
        Ledger ledger = Outage([9, 2, 2, 2, 2, 2, 2, 2], rules);
        Assert.Equal([1, 3, 5, 6, 4, 2, 0, 0], ledger[LedgerColumn.StoredKwh].ToArray(), new Within(1e-9));
        // 4 + 4 + 3 kWh burnt: the last one is not enough for an hour at full power, and it stays off. Dark after the house goes unserved.
        Assert.Equal(11, ledger.Sums.Kwh(LedgerColumn.ImportKw), 9);
        Assert.Equal(2, ledger.Sums.UnservedKwh.Energy, 9);
    }

    [Fact]
    public void Generator_BelowTheHouse_IsHelpedByTheCellsAndLetsNothingGoDark()
    {
        var rules = new OutageRules { Generator = new Generator { Kw = 3, StartBelowFraction = 0.5, StopAboveFraction = 0.9 } };
        Ledger ledger = Outage([5, 5, 5], rules, startKwh: 3);
        Assert.Equal([1, 0, 0], ledger[LedgerColumn.StoredKwh].ToArray(), new Within(1e-9));
        Assert.Equal([0, 1, 2], ledger[LedgerColumn.UnservedKw].ToArray(), new Within(1e-9));
        Assert.Equal(0, ledger.Sums.DarkIntervals);
        // Without load management the generator's breaker opens instead: all of the house is dark.
        Ledger trips = Outage([5, 5, 5], rules, startKwh: 3, site: new SiteLimits { ManagesLoad = false });
        Assert.Equal([0, 5, 5], trips[LedgerColumn.UnservedKw].ToArray(), new Within(1e-9));
    }

    [Fact]
    public void Generator_LocksOutASeparateSolarInverter()
    {
        var rules = new OutageRules { Generator = new Generator { Kw = 4, StartBelowFraction = 0.9, StopAboveFraction = 1 } };
        Ledger locked = Outage([1], rules, startKwh: 5, ac: [3]);
        Assert.Equal(3, locked[LedgerColumn.CurtailedAcKw][0], 9);
        Ledger beside = Outage([1], rules with { Generator = rules.Generator! with { RunsBesideSeparateSolar = true } }, startKwh: 5, ac: [3]);
        Assert.Equal(0, beside[LedgerColumn.CurtailedAcKw][0], 9);
        // Locked out: 1 kW to the house, 3 into the cells. Beside it the sun serves 1 and stores 2, the generator fills the 3 that are left.
        Assert.Equal(8, locked[LedgerColumn.StoredKwh][0], 9);
        Assert.Equal(10, beside[LedgerColumn.StoredKwh][0], 9);
    }

    [Fact]
    public void Trip_ByHand_StaysDarkUntilSomebodyComes()
    {
        // Load 9 on a 5 kW inverter trips it in hour 1 (TRADE §6.2 case 30: "manual-restart option", common practice).
        Plant five = s_ten with { InverterKw = 5 };
        var site = new SiteLimits { ManagesLoad = false };
        double[] Dark(OutageRules rules) => Outage([1, 9, 1, 1, 1, 1], rules, plant: five, site: site)[LedgerColumn.Dark].ToArray();
        Assert.Equal([0, 1, 0, 0, 0, 0], Dark(OutageRules.None));
        Assert.Equal([0, 1, 1, 1, 1, 1], Dark(new OutageRules { RestartsAfterTrip = false }));
        Assert.Equal([0, 1, 1, 1, 0, 0], Dark(new OutageRules { RestartsAfterTrip = false, ByHandAfterHours = 3 }));
    }

    [Fact]
    public void EmptyBattery_ByHand_AsksTheRestartRuleWhenSomebodyComes()
    {
        double[] Dark(OutageRules rules) => Outage([2, 2, 2, 2, 2, 2], rules, startKwh: 1, dc: [0, 4, 4, 4, 4, 4])[LedgerColumn.Dark].ToArray();
        Assert.Equal([0, 0, 0, 0, 0, 0], Dark(OutageRules.None));
        Assert.Equal([0, 1, 1, 1, 1, 1], Dark(new OutageRules { RestartsAfterEmpty = false }));
        Assert.Equal([0, 1, 1, 0, 0, 0], Dark(new OutageRules { RestartsAfterEmpty = false, ByHandAfterHours = 2.5 }));
    }

    [Fact]
    public void DeadBattery_BesideASeparateInverter_RestartsOnlyWithHeldBackEnergy()
    {
        // AC-coupled, empty, no wake: no recovery when the sun returns (TRADE §6.2 case 28, common practice). Energy held back forms the grid for it.
        Plant ac = s_ten with { WakesBySolar = false };
        double[] load = [2, 2, 2, 2], sun = [0, 0, 5, 5];
        Assert.Equal([0, 1, 1, 1], Outage(load, OutageRules.None, startKwh: 1, plant: ac, ac: sun)[LedgerColumn.Dark].ToArray());
        var held = new OutageRules { HeldBackFraction = 0.1, TriesWithSun = true };
        Ledger ledger = Outage(load, held, startKwh: 2, plant: ac, ac: sun);
        Assert.Equal([0, 1, 0, 0], ledger[LedgerColumn.Dark].ToArray());
        // 2 kWh, 1 held back: 1 of 2 kW served in hour 0; from hour 2 on the sun serves 2 and stores 3.
        Assert.Equal([1, 1, 4, 7], ledger[LedgerColumn.StoredKwh].ToArray(), new Within(1e-9));
    }

    [Fact]
    public void HeldBackEnergy_RaisesTheRestartLevel()
    {
        // Held back 20 %, restart 10 % above it: 3 of 10 kWh. Dark at 2 kWh, 0.6 kWh of sun an hour charge a waking battery.
        var rules = new OutageRules { HeldBackFraction = 0.2 };
        double[] dark = Outage([1, 1, 1, 1, 1], rules, startKwh: 2, dc: [0, 0.6, 0.6, 0.6, 0.6])[LedgerColumn.Dark].ToArray();
        Assert.Equal([0, 1, 1, 0, 0], dark);
    }

    [Fact]
    public void RulesOutOfRange_AreRefused()
    {
        static string Fault(OutageRules rules) => Assert.Throws<ArgumentException>(() => Outage([1], rules)).Message;
        Assert.Contains("held back", Fault(new OutageRules { HeldBackFraction = 1 }), StringComparison.Ordinal);
        Assert.Contains("must be held back", Fault(new OutageRules { TriesWithSun = true, RestartsAfterTrip = false }), StringComparison.Ordinal);
        Assert.Contains("by hand", Fault(new OutageRules { RestartsAfterTrip = false, ByHandAfterHours = -1 }), StringComparison.Ordinal);
        Assert.Contains("stops above", Fault(new OutageRules { Generator = new Generator { Kw = 3, StartBelowFraction = 0.5, StopAboveFraction = 0.5 } }), StringComparison.Ordinal);
        Assert.Contains("pump: it goes off", Fault(new OutageRules { Sheddable = [new SheddableLoad("pump", Hours(1), 0.5, 0.4)] }), StringComparison.Ordinal);
        var grid = new OutageRules { RestartsAfterTrip = false };
        Assert.Throws<ArgumentException>(() => new Run(Hours(1), null, null, s_ten, SiteLimits.None, null, rules: grid));
    }

    private static readonly Gen<OutageRules> s_rules =
        from flags in Gen.Bool.Array[4]
        from held in Gen.Frequency((1, Gen.Const(0.0)), (1, Gen.Double[0.02, 0.3]))
        from hand in Gen.Frequency((1, Gen.Const((double?)null)), (1, Gen.Double[0, 9].Select(h => (double?)h)))
        from off in Gen.Double[0, 0.7]
        from kw in Gen.Double[1, 8]
        from fuel in Gen.Frequency((1, Gen.Const(double.PositiveInfinity)), (1, Gen.Double[5, 60]))
        select new OutageRules
        {
            RestartsAfterTrip = flags[0],
            RestartsAfterEmpty = flags[1],
            TriesWithSun = flags[2] && held > 0,
            HeldBackFraction = held,
            ByHandAfterHours = hand,
            Generator = flags[3] ? new Generator { Kw = kw, StartBelowFraction = off, StopAboveFraction = off + 0.2, FuelKwh = fuel } : null,
        };

    [Fact]
    public void EveryStart_UnderRandomRules_EqualsAPlainRunFromEachStart() => FixedSeed.Check(Gen.Select(RandomCase.Any, s_rules, Gen.Double[0, 0.8]), 120, pair =>
    {
        (RandomCase random, OutageRules plain, double off) = pair;
        int count = random.Load.Axis.Count, horizon = 1 + (count * 2 / 3);
        OutageRules With(Func<Profile, Profile> laid) => plain with
        {
            Sheddable = [new SheddableLoad("a", laid(random.Load.Map(kw => kw * 0.5)), off, off + 0.2), new SheddableLoad("b", laid(random.SolarAc), off / 2, off / 2)],
        };
        double[] starts = [.. Enumerable.Range(0, count).Select(i => random.Plant.LowestKwh + (i * 7919 % 101 / 100.0 * random.Plant.UsableKwh))];
        StartOutcomes outcomes = new EveryStart(new Run(random.Load, random.SolarDc, random.SolarAc, random.Plant, random.Site, null, null, true, With(p => p)), horizon).Walk(starts);
        var axis = new TimeAxis(DateTimeZone.Utc, random.Load.Axis.Start, random.Load.Axis.StepMinutes, horizon);
        for (int start = 0; start < count; start += 3)
        {
            int from = start;
            Profile From(Profile whole) => new(axis, [.. Enumerable.Range(from, horizon).Select(i => whole.Kw[i % count])]);
            Ledger ledger = new Run(From(random.Load), From(random.SolarDc), From(random.SolarAc), random.Plant, random.Site, null, starts[start], true, With(From)).Ledger();
            int lasting = ledger[LedgerColumn.UnservedKw].IndexOfAnyExcept(0.0);
            Assert.Equal(lasting < 0 ? horizon : lasting, outcomes.LastingIntervals[start]);
            Assert.Equal(ledger.Sums.DarkIntervals, outcomes.DarkIntervals[start]);
            Assert.Equal(ledger.Sums.Kwh(LedgerColumn.UnservedKw), outcomes.UnservedKwh[start], 8);
            for (int i = 0; i < horizon; i++)
            {
                double given = ledger[LedgerColumn.SolarDcToLoadKw][i] + ledger[LedgerColumn.SolarAcToLoadKw][i] + ledger[LedgerColumn.CellsToLoadKw][i] + ledger[LedgerColumn.ImportKw][i];
                double taken = ledger[LedgerColumn.LoadKw][i] + ledger[LedgerColumn.StandbyKw][i] - ledger[LedgerColumn.UnservedKw][i] + (ledger[LedgerColumn.GridToCellsKw][i] / random.Plant.RectifierEfficiency);
                // Standby that the cells can not give is nobody's; the house's balance closes.
                Assert.True(given <= taken + 1e-9, $"{given} given, {taken} taken");
                Assert.InRange(ledger[LedgerColumn.StoredKwh][i], random.Plant.LowestKwh, random.Plant.HighestKwh);
                Assert.True(ledger[LedgerColumn.ImportKw][i] <= (plain.Generator?.Kw ?? 0) + 1e-12);
            }
        }
    });
}
