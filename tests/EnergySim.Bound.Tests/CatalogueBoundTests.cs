using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Files;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Studies;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Bound.Tests;

/// <summary>Which plans of the catalogue can be bounded, each with some months of hours of an invented house: all, and exactly but for those named.</summary>
public class CatalogueBoundTests
{
    // Where something is left open, and how far the replay may then stand off.
    private static readonly Dictionary<string, double> s_open = new()
    {
        ["old-ferry-baseline"] = 0.03,
        ["pell-harbor-rollover"] = 0.25,
        // Dearer to sell than to buy in some hours.
        ["lantern-shoal-critical"] = 0.3,
        ["saltbrook-avoided-cost"] = 0.01,
        ["saltbrook-windows"] = 0.003,
        ["saltbrook-hourly"] = 0.003,
    };

    public static TheoryData<string> Plans => [.. Directory.GetFiles(Path.Combine(SharedData.RepositoryRoot, "tariffs"), "*.yaml").Select(f => Path.GetFileNameWithoutExtension(f)!).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Plans))]
    public void EachPlan_IsBounded(string plan)
    {
        Tariff tariff = TariffFile.Read(Path.Combine(SharedData.RepositoryRoot, "tariffs", plan + ".yaml"));
        // Export prices hour by hour are those of one March.
        LocalDate first = new(2025, 3, 1), end = plan == "saltbrook-hourly" ? new(2025, 4, 1) : new(2025, 8, 1);
        Instant start = first.AtStartOfDayInZone(tariff.Zone).ToInstant();
        var axis = new TimeAxis(tariff.Zone, start, 60, (int)(end.AtStartOfDayInZone(tariff.Zone).ToInstant() - start).TotalHours);
        var load = new double[axis.Count];
        var sun = new double[axis.Count];
        for (int i = 0; i < load.Length; i++)
        {
            int hour = axis.LocalMinuteOf(i) / 60, day = axis.LocalDayOf(i) - axis.LocalDayOf(0);
            load[i] = 0.5 + (0.3 * (((7 * i) + (i * i % 11)) % 5)) + (hour is >= 17 and < 22 ? 1.4 : 0);
            sun[i] = Math.Max(0, Math.Sin((hour - 5.5) / 12 * Math.PI)) * (3 - Math.Cos(2 * Math.PI * day / 365)) * (0.3 + (0.14 * (day * day % 6)));
        }
        var calendar = new TariffCalendar(tariff, axis, null, load);
        var plant = new Plant { HighestKwh = 12, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5, ChargeEfficiency = 0.96, DischargeEfficiency = 0.96, InverterEfficiency = 0.97, RectifierEfficiency = 0.97 };
        var like = new Run(new Profile(axis, load), null, new Profile(axis, sun), plant, new SiteLimits(), SetPoints.Always(new SetPointRow(0, 12, 0, 0, double.PositiveInfinity), axis.Count));
        Run run = new(like.Load, null, like.SolarAc, plant, like.Site, StrategyCompiler.Compile(new() { Base = Steering.PeakWindow, ReserveFraction = 0 }, like, like.SolarAc, calendar));
        RunSums sums = run.Sums();
        double bill = (double)Biller.Bill(MeterSums.Of(calendar, sums.Meter)).Bills.Sum(b => b.Unrounded);

        BoundResult bound = BoundStudy.Of(run, calendar, startKwh: sums.StartKwh, leastEndKwh: sums.EndKwh);

        Assert.True(bound.Bill <= bill + 0.12, $"{bound.Bill} above {bill}");
        Assert.Equal(s_open.ContainsKey(plan), bound.LeftOpen.Count > 0);
        Assert.InRange((double)bound.ReplayBill, bound.Bill - 0.12, bound.Bill + 0.12 + (s_open.GetValueOrDefault(plan, 0.001) * Math.Abs(bound.Bill)));
    }
}
