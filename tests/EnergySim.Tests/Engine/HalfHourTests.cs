using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Tests.Engine;

/// <summary>kWh of half-hours are half of the kW: outages and the storm's lead, worked by hand.</summary>
public class HalfHourTests
{
    private static readonly Plant s_ten = new() { HighestKwh = 12, LowestKwh = 2, ChargeLimitKw = 10, DischargeLimitKw = 10, InverterKw = 10 };

    private static Profile Halves(params double[] kw) => new(new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 1, 0, 0), 30, kw.Length), kw);

    private static Ledger Outage(double[] load, OutageRules rules, double startKwh, Plant? plant = null, SiteLimits? site = null) =>
        new Run(Halves(load), null, null, plant ?? s_ten, site ?? SiteLimits.None, null, startKwh, offGrid: true, rules).Ledger();

    // 3 kW of heater go off below half of 10 kWh above the lowest 2: at 7 it is still on (7 − 2.5 = 4.5), then off; 0.5 h × 3 kW × 3 = 4.5 kWh shed.
    [Fact]
    public void SheddablePart_ByItsShareOfTheUsable()
    {
        var rules = new OutageRules { Sheddable = [new SheddableLoad("heater", Halves(3, 3, 3, 3), 0.5, 0.8)] };
        Ledger ledger = Outage([2, 1, 1, 1], rules, 7);
        Assert.Equal([5, 1, 1, 1], ledger[LedgerColumn.LoadKw].ToArray());
        Assert.Equal([4.5, 4, 3.5, 3], ledger[LedgerColumn.StoredKwh].ToArray(), new Within(1e-9));
        Assert.Equal(4.5, ledger.Sums.ShedKwh, 9);
    }

    // Two parts, off below 60 and below 30 % of the usable 10 kWh: 9, 7.5 and 6 kWh hold 70, 55 and 40 %, so only the second goes, for two half-hours of 1 kW.
    [Fact]
    public void SheddableParts_GoOneByOne()
    {
        var rules = new OutageRules
        {
            Sheddable = [new SheddableLoad("pool", Halves(1, 1, 1), 0.6, 0.9),
            new SheddableLoad("pump", Halves(2, 2, 2), 0.3, 0.9)]
        };
        Ledger ledger = Outage([0, 1, 1], rules, 9);
        Assert.Equal([3, 3, 3], ledger[LedgerColumn.LoadKw].ToArray());
        Assert.Equal(1, ledger.Sums.ShedKwh, 9);
    }

    // 4 kW burn 2 kWh a half-hour: 5 kWh are two of them, and what is left is less than a third.
    [Fact]
    public void Generator_BurnsByTheHour()
    {
        var rules = new OutageRules { Generator = new Generator { Kw = 4, StartBelowFraction = 0.2, StopAboveFraction = 0.9, FuelKwh = 5 } };
        Ledger ledger = Outage([2, 2, 2, 2], rules, 3);
        Assert.Equal([4, 4, 0, 0], ledger[LedgerColumn.ImportKw].ToArray(), new Within(1e-9));
        Assert.Equal([4, 5, 4, 3], ledger[LedgerColumn.StoredKwh].ToArray(), new Within(1e-9));
    }

    // Somebody comes after an hour: two half-hours are dark.
    [Fact]
    public void Trip_ByHandAfterAnHour_IsTwoHalfHours()
    {
        var rules = new OutageRules { RestartsAfterTrip = false, ByHandAfterHours = 1 };
        Ledger ledger = Outage([1, 9, 1, 1, 1, 1], rules, 12, s_ten with { InverterKw = 5 }, new SiteLimits { ManagesLoad = false });
        Assert.Equal([0, 1, 1, 0, 0, 0], ledger[LedgerColumn.Dark].ToArray());
    }

    // 6 kW on 5 and 4 kW: a half-hour of the 1 or 2 that are above is 0.5 or 1 kWh, told by what bound.
    [Fact]
    public void Unserved_IsToldByItsCause()
    {
        UnservedByCause Of(Plant plant, SiteLimits site) => Outage([6], OutageRules.None, 12, plant, site).Sums.UnservedKwh;
        Assert.Equal(new UnservedByCause { Inverter = 0.5 }, Of(s_ten with { InverterKw = 5 }, SiteLimits.None));
        Assert.Equal(new UnservedByCause { InverterBreaker = 1 }, Of(s_ten, new SiteLimits { InverterBreakerKw = 4 }));
        Assert.Equal(new UnservedByCause { Busbar = 1 }, Of(s_ten, new SiteLimits { BusbarKw = 4 }));
        Assert.Equal(new UnservedByCause { DischargeRate = 1 }, Of(s_ten with { DischargeLimitKw = 4 }, SiteLimits.None));
        Assert.Equal(new UnservedByCause { Energy = 2.5 }, Outage([6], OutageRules.None, 2.5).Sums.UnservedKwh);
    }

    // Four half-hours at 2 kW before each start are 4 kWh more than the everyday run held then; nothing above 12. The sun of half-hour 5 leaves 1.5.
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(11)]
    public void StormStarts_ChargeFromWhatWasHeld(int lead)
    {
        double[] sun = [0, 0, 0, 0, 0, 3, 0, 0, 0, 0, 0, 0];
        Plant plant = s_ten with { ChargeLimitKw = 2 };
        var everyday = new Run(Halves(new double[12]), Halves(sun), null, plant, SiteLimits.None,
            SetPoints.Always(new SetPointRow(2, 12, 0, 0, double.PositiveInfinity), 12), 2);
        double full = plant.HighestKwh;
        double[] starts = StormStarts.Of(everyday, SetPoints.Always(new SetPointRow(full, full, full, double.PositiveInfinity, double.PositiveInfinity), 12),
            lead);
        // Charged at 2 of the 3 kW of sun: 1 kWh from half-hour 6 on.
        double[] expected = [.. Enumerable.Range(0, 12).Select(s => Math.Min(full, ((s - lead + 12) % 12 > 5 ? 3 : 2) + lead))];
        Assert.Equal(expected, starts, new Within(1e-9));
    }
}
