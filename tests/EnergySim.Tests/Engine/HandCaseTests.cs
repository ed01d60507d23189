using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Tests.Engine;

/// <summary>The hand cases of TRADE.md §6.2 that concern the step and the year's run; the number is that of the list. Common practice, worked by hand.</summary>
public class HandCaseTests
{
    private static readonly Plant s_ideal = new() { HighestKwh = 10, ChargeLimitKw = 10, DischargeLimitKw = 10, InverterKw = 10 };
    private static readonly SetPointRow s_selfUse = new(0, 10, 0, 0, double.PositiveInfinity);

    private static TimeAxis Hours(int count, string zone = "Etc/UTC") =>
        new(DateTimeZoneProviders.Tzdb[zone], Instant.FromUtc(2025, 6, 2, 0, 0), 60, count);

    private static Ledger Steps(double[] load, Plant plant, SiteLimits site, SetPointRow row, double start, double[]? dc = null, double[]? ac = null, bool offGrid = false)
    {
        TimeAxis axis = Hours(load.Length);
        return new Run(
            new Profile(axis, load), dc is null ? null : new Profile(axis, dc), ac is null ? null : new Profile(axis, ac),
            plant, site, offGrid ? null : SetPoints.Always(row, load.Length), start, offGrid).Ledger();
    }

    [Fact]
    public void Case1_Dst_EveryLocalDayHasFivePeakHours()
    {
        DateTimeZone zone = DateTimeZoneProviders.Tzdb["America/Denver"];
        TimeAxis axis = TimeAxis.OfYear(zone, 2025, 60);
        var calendar = new TariffCalendar(TwoPrices(zone), axis);
        Assert.Equal(8760, axis.Count);
        var hours = new Dictionary<LocalDate, (int All, int Peak)>();
        for (int i = 0; i < axis.Count; i++)
        {
            (int all, int peak) = hours.GetValueOrDefault(axis.LocalDateOf(i));
            hours[axis.LocalDateOf(i)] = (all + 1, peak + (calendar.Buckets[calendar.BucketOf[i]].Period == "peak" ? 1 : 0));
        }
        Assert.All(hours.Values, h => Assert.Equal(5, h.Peak));
        // Second Sunday of March and first of November: 15 U.S.C. 260a (reference/dst_us.csv).
        Assert.Equal(23, hours[new LocalDate(2025, 3, 9)].All);
        Assert.Equal(25, hours[new LocalDate(2025, 11, 2)].All);
        Assert.Equal(363, hours.Values.Count(h => h.All == 24));
    }

    [Fact]
    public void Case3_EnergyRows_AreFourTimesThePower() =>
        // 15-minute rows of 1.5 kWh are 6 kW.
        Assert.Equal(1.5, new Profile(new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 1, 0, 0), 15, 1), [6.0]).EnergyKwh);

    [Fact]
    public void Case4_NetMeter_IsNotALoadUntilSolarIsAddedBack()
    {
        TimeAxis axis = Hours(3);
        Profile P(params double[] kw) => new(axis, kw);
        Assert.Equal([2, 3, 1], GrossLoad.Of(P(2, 0, 0), P(0, 1, 2), P(0, 4, 3)).Kw.ToArray());
        ArgumentException fault = Assert.Throws<ArgumentException>(() => GrossLoad.Of(P(2, 0, 0), P(0, 1, 2), P(0, 4, 1)));
        Assert.Contains("interval 2", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Case5_RoundTrip_IsTakenOnce()
    {
        double one = Math.Sqrt(0.9);
        Plant plant = new() { HighestKwh = 200, ChargeLimitKw = 100, DischargeLimitKw = 100, InverterKw = 100, ChargeEfficiency = one, DischargeEfficiency = one };
        Ledger ledger = Steps([0, 100], plant, SiteLimits.None, new SetPointRow(0, 200, 0, 0, double.PositiveInfinity), 0, dc: [100, 0]);
        Assert.Equal(100, ledger[LedgerColumn.SolarDcToCellsKw][0], 9);
        Assert.Equal(90, ledger[LedgerColumn.CellsToLoadKw][1], 9);
    }

    [Fact]
    public void Case7_ShiftedEnergy_SavesPeakPriceLessWhatChargingCost()
    {
        // 10 kWh delivered in the peak at $0.60, bought at $0.30 with 90 % round trip: 6.00 − 3.33 = $2.67.
        Plant plant = new() { HighestKwh = 20, ChargeLimitKw = 20, DischargeLimitKw = 10, InverterKw = 20, DischargeEfficiency = 0.9 };
        DateTimeZone zone = DateTimeZone.Utc;
        var axis = new TimeAxis(zone, Instant.FromUtc(2025, 6, 2, 0, 0), 60, 24);
        double[] load = new double[24];
        load[17] = 10;
        var day = new Profile(axis, load);
        var night = new SetPointRow(0, 20, 10 / 0.9, double.PositiveInfinity, double.PositiveInfinity);
        var setPoints = new SetPoints([night, new SetPointRow(0, 20, 0, 0, double.PositiveInfinity)], [.. Enumerable.Range(0, 24).Select(h => h < 6 ? 0 : 1)]);
        var calendar = new TariffCalendar(TwoPrices(zone), axis);
        decimal Total(Run run) => Biller.Bill(MeterSums.Of(calendar, run.Sums().Meter)).Total;
        var none = SetPoints.Always(new SetPointRow(0, 0, 0, double.PositiveInfinity, double.PositiveInfinity), 24);
        Assert.Equal(2.67m, Total(new Run(day, null, null, Plant.Nothing, SiteLimits.None, none)) - Total(new Run(day, null, null, plant, SiteLimits.None, setPoints, 0)));
    }

    [Fact]
    public void Case9_ExportLimit_CurtailsTheRest()
    {
        Ledger ledger = Steps([1], s_ideal, new SiteLimits { ExportKw = 5 }, s_selfUse, 10, ac: [9]);
        Assert.Equal(5, ledger[LedgerColumn.ExportKw][0], 9);
        Assert.Equal(3, ledger[LedgerColumn.CurtailedAcKw][0], 9);
    }

    [Fact]
    public void Case10_ImportCap_ThrottlesChargingAndBooksIt()
    {
        // 200 A × 240 V × 0.8 = 38.4 kW; the house takes 36 of them, 8 are wanted, 2.4 flow.
        double cap = SiteLimits.ContinuousKw(200, 240);
        Assert.Equal(38.4, cap, 9);
        Plant plant = new() { HighestKwh = 8, ChargeLimitKw = 50, DischargeLimitKw = 50, InverterKw = 50 };
        Ledger ledger = Steps([36], plant, new SiteLimits { ImportKw = cap }, new SetPointRow(0, 8, 8, double.PositiveInfinity, double.PositiveInfinity), 0);
        Assert.Equal(2.4, ledger[LedgerColumn.GridToCellsKw][0], 9);
        Assert.Equal(5.6, ledger.Sums.WithheldKwh(LimitSite.Rule6Import), 9);
        Assert.Equal(1, ledger.Sums.BoundHours(Limit.Import));
    }

    [Fact]
    public void Case11_Breakers_CarryFourFifthsForHours()
    {
        // Bus 200 A, main 200 A: 40 A back-fed → 32 A continuous → 7.68 kW; main 175 A with a 60 A breaker → 11.52 kW (reference/nec_705_12_busbar.csv).
        Assert.Equal(7.68, SiteLimits.ContinuousKw(40, 240), 9);
        Assert.Equal(11.52, SiteLimits.ContinuousKw(60, 240), 9);
        Ledger ledger = Steps([9], s_ideal, new SiteLimits { InverterBreakerKw = SiteLimits.ContinuousKw(40, 240) }, s_selfUse, 10);
        Assert.Equal(7.68, ledger[LedgerColumn.InverterOutKw][0], 9);
        Assert.Equal("OUT", ledger.LimitsOf(0));
    }

    [Fact]
    public void Case13_Reserve_IsKeptOnTheGridAndUsedOffIt()
    {
        // 10 kWh usable, 20 % reserve: at most 8 kWh a day; an outage takes all that is stored.
        Plant plant = s_ideal with { LowestKwh = 2, HighestKwh = 12 };
        Strategy strategy = new() { Base = Steering.SelfUse, ReserveFraction = 0.2 };
        SetPointRow row = strategy.Compile(plant, Hours(1))[0];
        Ledger grid = Steps([5, 5, 5], plant, SiteLimits.None, row, 12);
        Assert.Equal(8, grid.Sums.Kwh(LedgerColumn.CellsToLoadKw), 9);
        Assert.Equal(4, grid.Sums.EndKwh, 9);
        Ledger outage = Steps([5, 5, 5], plant, SiteLimits.None, row, 12, offGrid: true);
        Assert.Equal(10, outage.Sums.Kwh(LedgerColumn.CellsToLoadKw), 9);
        Assert.Equal(2, outage.Sums.EndKwh, 9);
    }

    [Fact]
    public void Case14_SolarOnly_NeverChargesMoreThanTheSunGives()
    {
        TimeAxis axis = Hours(48);
        Strategy strategy = new()
        {
            Base = Steering.SelfUse,
            Overnight = new OvernightCharge(ClockWindow.WholeDay, 1),
            Storm = new StormPreparation(axis.Start, axis.End, 1),
            Integrity = IntegrityRule.SolarOnly,
        };
        double[] solar = [.. Enumerable.Range(0, 48).Select(h => Math.Max(0.0, 6 - Math.Abs((h % 24) - 12)))];
        var run = new Run(new Profile(axis, [.. Enumerable.Repeat(1.0, 48)]), new Profile(axis, solar), null, s_ideal, SiteLimits.None, strategy.Compile(s_ideal, axis), 0);
        Ledger ledger = run.Ledger();
        Assert.True(ledger.Sums.EndKwh > 5);
        for (int i = 0; i < 48; i++)
        {
            Assert.Equal(0, ledger[LedgerColumn.GridToCellsKw][i]);
            Assert.True(ledger[LedgerColumn.SolarDcToCellsKw][i] <= solar[i]);
        }
    }

    [Fact]
    public void Case15_NoNetting_PricesBothChannels()
    {
        // Within one hour 2 kWh bought and 2 kWh sold at 0.40 and 0.05: 0.70, not 0.
        DateTimeZone zone = DateTimeZone.Utc;
        var axis = new TimeAxis(zone, Instant.FromUtc(2025, 6, 2, 0, 0), 30, 2);
        var version = new TariffVersion
        {
            Effective = new LocalDate(2025, 1, 1),
            Periods = [new PeriodRule("any")],
            EnergyPrices = [new EnergyPrice { Parts = [new PricePart("energy", 0.40m)] }],
            Export = new ExportTerms.NetBilling { Prices = [new ExportPrice { Parts = [new PricePart("export", 0.05m)] }] },
            MeterMinutes = 60,
        };
        var run = new Run(new Profile(axis, [4.0, 0]), null, new Profile(axis, [0, 4.0]), Plant.Nothing, SiteLimits.None, SetPoints.Always(new SetPointRow(0, 0, 0, double.PositiveInfinity, double.PositiveInfinity), 2));
        decimal Total(TariffVersion v) =>
            Biller.Bill(MeterSums.Of(new TariffCalendar(new Tariff { Name = "t", Zone = zone, Versions = [v] }, axis), run.Sums().Meter)).Total;
        Assert.Equal(0.70m, Total(version));
        Assert.Equal(0m, Total(version with { NetsInsideMeterInterval = true }));
    }

    [Fact]
    public void Case24_AgedCells_SaveLess()
    {
        TimeAxis axis = Hours(24 * 14);
        double[] load = [.. Enumerable.Range(0, axis.Count).Select(h => h % 24 is >= 17 and < 21 ? 3.0 : 0.5)];
        double[] solar = [.. Enumerable.Range(0, axis.Count).Select(h => Math.Max(0.0, 5 - Math.Abs((h % 24) - 12)))];
        double Bought(Plant plant) => new Run(
            new Profile(axis, load), new Profile(axis, solar), null, plant, SiteLimits.None,
            new Strategy { Base = Steering.SelfUse }.Compile(plant, axis)).Sums().Kwh(LedgerColumn.ImportKw);
        Assert.True(Bought(s_ideal with { HighestKwh = 7 }) > Bought(s_ideal) + 1);
    }

    [Fact]
    public void Case25_ExpansionPack_AddsEnergyNotPower()
    {
        var unit = new Battery { Name = "b", CapacityKwh = 10, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5 };
        Plant packed = Plant.OfBatteries(unit with { CapacityKwh = 20 }, 1), two = Plant.OfBatteries(unit, 2);
        Assert.Equal((20.0, 5.0, 5.0), (packed.UsableKwh, packed.InverterKw, packed.DischargeLimitKw));
        Assert.Equal((20.0, 10.0, 10.0), (two.UsableKwh, two.InverterKw, two.DischargeLimitKw));
        Assert.Equal(2.0, two.RestartKwh!.Value, 9);
    }

    [Fact]
    public void Case26_HybridInverter_IsShared()
    {
        // Inverter 10 kW, 8 kW AC of it from DC solar: the cells can add 2.
        Ledger ledger = Steps([12], s_ideal, SiteLimits.None, s_selfUse, 10, dc: [8]);
        Assert.Equal(8, ledger[LedgerColumn.SolarDcToLoadKw][0], 9);
        Assert.Equal(2, ledger[LedgerColumn.CellsToLoadKw][0], 9);
        Assert.Equal(2, ledger[LedgerColumn.ImportKw][0], 9);
    }

    [Fact]
    public void Case27_Standby_EmptiesTheCellsThroughTheLosses()
    {
        // 40 W for 24 h are 0.96 kWh at the AC side; the cells give 0.96 / (ηinv · ηd) (ENGINE stands).
        Plant plant = s_ideal with { StandbyKw = 0.04, InverterEfficiency = 0.95, DischargeEfficiency = 0.97 };
        Ledger ledger = Steps(new double[24], plant, SiteLimits.None, s_selfUse, 10, offGrid: true);
        Assert.Equal(0.96, ledger.Sums.Kwh(LedgerColumn.CellsToLoadKw), 9);
        Assert.Equal(10 - (0.96 / (0.95 * 0.97)), ledger.Sums.EndKwh, 9);
    }

    [Fact]
    public void DeadRestart_NeedsSunAtTheDcInputs()
    {
        // Case 28: at cut-off, AC-coupled solar alone never wakes the plant; DC solar with wake does.
        double[] load = [2, 2, 2, 2, 2], sun = [0, 6, 6, 6, 6];
        Plant ac = s_ideal with { SeparateSolar = new SeparateSolarInverter(5) };
        Assert.Equal(4, Steps(load, ac, SiteLimits.None, s_selfUse, 1, ac: sun, offGrid: true).Sums.DarkIntervals);
        Assert.Equal(0, Steps(load, s_ideal, SiteLimits.None, s_selfUse, 1, dc: sun, offGrid: true).Sums.DarkIntervals);
        double[] weak = [0, 1.5, 0, 0, 0];
        Ledger woken = Steps(load, s_ideal, SiteLimits.None, s_selfUse, 1, dc: weak, offGrid: true);
        // 1.5 kWh into the dark cells reach the restart level (10 % of 10 kWh): it serves one interval more, short of energy.
        Assert.Equal(1, woken[LedgerColumn.Dark][1]);
        Assert.Equal(0, woken[LedgerColumn.Dark][2]);
    }

    private static Tariff TwoPrices(DateTimeZone zone) => new()
    {
        Name = "two prices (invented)",
        Zone = zone,
        Versions =
        [
            new TariffVersion
            {
                Effective = new LocalDate(2025, 1, 1),
                Periods = [new PeriodRule("peak") { Window = new ClockWindow(16 * 60, 21 * 60) }, new PeriodRule("off") { Window = new ClockWindow(21 * 60, 16 * 60) }],
                EnergyPrices =
                [
                    new EnergyPrice { Period = "peak", Parts = [new PricePart("energy", 0.60m)] },
                    new EnergyPrice { Period = "off", Parts = [new PricePart("energy", 0.30m)] },
                ],
            },
        ],
    };
}
