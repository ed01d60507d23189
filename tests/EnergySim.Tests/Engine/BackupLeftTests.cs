using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Tests.Engine;

/// <summary>How long what is left lasts without sun, hour by hour of an outage; 10 kWh under 2 kW, worked by hand.</summary>
public class BackupLeftTests
{
    private static readonly Plant s_ten = new() { HighestKwh = 10, ChargeLimitKw = 10, DischargeLimitKw = 10, InverterKw = 10 };

    private static Profile Hours(params double[] kw) => new(new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 1, 0, 0), 60, kw.Length), kw);

    private static Run Outage(double? startKwh = 10, double[]? dc = null, Plant? plant = null, SiteLimits? site = null, OutageRules? rules = null) =>
        new(Hours([.. Enumerable.Repeat(2.0, 12)]), dc is null ? null : Hours(dc), null, plant ?? s_ten, site ?? SiteLimits.None, null, startKwh,
            offGrid: true, rules);

    // 10 kWh are five hours; each hour takes one.
    [Fact]
    public void WithoutSun_FallsHourByHour() => Assert.Equal([5, 4, 3, 2, 1, 0, 0], BackupLeft.WithoutSun(Outage(), 7, 5));

    // The sun of the first two hours keeps the cells full; what it would bring is not counted on.
    [Fact]
    public void WithoutSun_CountsOnNoSunToCome() =>
        Assert.Equal([5, 5, 5, 4], BackupLeft.WithoutSun(Outage(dc: [5, 5, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]), 4, 6));

    // Longer than the horizon is the horizon. An unknown start is an empty battery; two held back of ten are four hours.
    [Fact]
    public void WithoutSun_StartAndRules_Count()
    {
        Assert.Equal([3, 3, 3, 2], BackupLeft.WithoutSun(Outage(), 4, 3));
        Assert.Equal([0, 0], BackupLeft.WithoutSun(Outage(startKwh: null), 2, 3));
        Assert.Equal([4, 3], BackupLeft.WithoutSun(Outage(rules: new OutageRules { HeldBackFraction = 0.2 }), 2, 6));
    }

    // 2 kW are too much for 1 kW: part is unserved from the first hour on. Without load management the inverter trips.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void WithoutSun_TooWeakAnInverter_LastsNoHour(bool managesLoad) => Assert.Equal(
        [0, 0], BackupLeft.WithoutSun(Outage(plant: s_ten with { InverterKw = 1 }, site: new SiteLimits { ManagesLoad = managesLoad }), 2, 4));

    [Fact]
    public void WithoutSun_OfNoOutageOrShortSeries_IsRefused()
    {
        Assert.Equal(6, BackupLeft.WithoutSun(Outage(), 6, 6).Length);
        Assert.Throws<ArgumentException>(() => BackupLeft.WithoutSun(Outage(), 7, 6));
        Profile load = Hours(1, 1, 1);
        var onGrid = new Run(load, null, null, s_ten, SiteLimits.None, EnergySim.Strategies.SetPoints.Always(new(0, 10, 0, 0, double.PositiveInfinity), 3), 5);
        Assert.Throws<ArgumentException>(() => BackupLeft.WithoutSun(onGrid, 1, 1));
    }
}
