using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Tests.Engine;

/// <summary>What a run does not take, and what it says by name.</summary>
public class RunGuardTests
{
    private static readonly Plant s_ten = new() { HighestKwh = 10, ChargeLimitKw = 10, DischargeLimitKw = 10, InverterKw = 10 };

    private static Profile Hours(int count, int stepMinutes = 60) =>
        Profile.Zero(new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 1, 0, 0), stepMinutes, count));

    private static SetPoints Rows(int count) => SetPoints.Always(new SetPointRow(0, 10, 0, 0, double.PositiveInfinity), count);

    private static Run OnGrid(Profile? dc = null, Profile? ac = null, Plant? plant = null, double? startKwh = 5) =>
        new(Hours(4), dc, ac, plant ?? s_ten, SiteLimits.None, Rows(4), startKwh);

    private static Run OffGrid(OutageRules? rules = null) => new(Hours(4), null, null, s_ten, SiteLimits.None, null, 5, offGrid: true, rules);

    [Fact]
    public void Run_OfWhatDoesNotFit_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => OnGrid(dc: Hours(5)));
        Assert.Throws<ArgumentException>(() => OnGrid(ac: Hours(4, 30)));
        Assert.Throws<ArgumentException>(() => OnGrid(plant: s_ten with { InverterEfficiency = 0 }));
        Assert.Throws<ArgumentOutOfRangeException>(() => OnGrid(startKwh: 11));
        Assert.Throws<ArgumentException>(() => OffGrid(new OutageRules { Sheddable = [new SheddableLoad("heater", Hours(5), 0.2, 0.4)] }));
        Assert.Throws<ArgumentException>(() => OnGrid().Sums(new MeterColumns(5)));
    }

    [Fact]
    public void Starts_OfWhatDoesNotFit_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new EveryStart(OffGrid(), 0));
        Assert.Throws<ArgumentException>(() => new EveryStart(OffGrid(), 2).Walk(new double[3]));
        Assert.Throws<ArgumentException>(() => StormStarts.Of(OnGrid(), Rows(3), 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => StormStarts.Of(OnGrid(), Rows(4), 5));
        Assert.Equal(4, StormStarts.Of(OnGrid(), Rows(4), 4).Length);
    }

    // The edges of what an outage's rules may say are allowed; what lies beyond is not.
    [Fact]
    public void OutageRules_AtTheirEdges()
    {
        static OutageRules Parts(int count, double onAbove = 1) =>
            new() { Sheddable = [.. Enumerable.Repeat(new SheddableLoad("part", Hours(4), 0, onAbove), count)] };
        static OutageRules Runs(double kw, double fuelKwh = 0) =>
            new() { Generator = new Generator { Kw = kw, FuelKwh = fuelKwh, StartBelowFraction = 0, StopAboveFraction = 1 } };
        foreach (OutageRules rules in new[] { Parts(16), Parts(1, 0), Runs(0.5), new OutageRules { ByHandAfterHours = 0 },
            new OutageRules { HeldBackFraction = 0.99 } }) rules.Validate();
        foreach (OutageRules rules in new[] { Parts(17), Parts(1, 1.01), Runs(0), Runs(double.PositiveInfinity), Runs(1, -1),
            new OutageRules { HeldBackFraction = -0.1 } })
            Assert.Throws<ArgumentException>(rules.Validate);
    }

    [Fact]
    public void MeterColumns_OfUnlikeLength_AreRefused()
    {
        double[] three = [1, 2, 3], two = [1, 2];
        Assert.Equal(3, MeterColumns.Of(three, three, three, three).ImportKw.Length);
        Assert.Throws<ArgumentException>(() => MeterColumns.Of(three, two, three, three));
        Assert.Throws<ArgumentException>(() => MeterColumns.Of(three, three, two, three));
        Assert.Throws<ArgumentException>(() => MeterColumns.Of(three, three, three, two));
    }

    // A level is no flow: it has no sum in kWh.
    [Fact]
    public void Sums_OfALevel_AreRefused() => Assert.Throws<ArgumentOutOfRangeException>(() => OnGrid().Sums().Kwh(LedgerColumn.StoredKwh));

    // 9 kW of AC solar, 5 may be sold: that limit binds, and no other.
    [Fact]
    public void Bound_IsTheLimitThatBinds()
    {
        var sun = new Profile(Hours(2).Axis, [9, 1]);
        var site = new SiteLimits { ExportKw = 5 };
        Ledger ledger = new Run(Hours(2), null, sun, s_ten, site, Rows(2), 10).Ledger();
        Assert.Equal([LimitSite.Rule7AcExport], Enum.GetValues<LimitSite>().Where(l => ledger.Bound(0, l)).Except([LimitSite.Rule4AcFull]));
        Assert.DoesNotContain(Enum.GetValues<LimitSite>(), l => l != LimitSite.Rule4AcFull && ledger.Bound(1, l));
    }

    // Every column and limit is told by a word of its own.
    [Fact]
    public void Names_AreEachTheirOwn()
    {
        string[] columns = [.. Enum.GetValues<LedgerColumn>().Select(Ledger.NameOf)], limits = [.. Enum.GetValues<Limit>().Select(Limits.NameOf)];
        Assert.Equal((Ledger.ColumnCount, Limits.Count), (columns.Distinct().Count(), limits.Distinct().Count()));
        Assert.DoesNotContain("", columns.Concat(limits));
        // The unit stands at the end, but for the column that only says yes or no.
        Assert.All(columns.SkipLast(1), c => Assert.True(c.EndsWith("_kw", StringComparison.Ordinal) || c.EndsWith("_kwh", StringComparison.Ordinal), c));
    }

    // ENGINE, the plant: wake by DC solar, default yes.
    [Fact]
    public void Plant_WhereNothingIsSaid_WakesBySolar()
    {
        Battery unit = new() { Name = "unit", CapacityKwh = 10, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5 };
        Assert.True(new Plant().WakesBySolar && unit.WakesBySolar && Plant.OfBatteries(unit, 1).WakesBySolar);
    }
}
