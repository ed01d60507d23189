using CsCheck;
using EnergySim.Profiles;
using EnergySim.Profiles.Shapes;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Profiles.Shapes;

/// <summary>Properties that any reference shape must have. The shapes are ours; there is no outside answer to compare their hours with.</summary>
public class BillYearTests
{
    private static readonly DateTimeZone s_denver = DateTimeZoneProviders.Tzdb["America/Denver"];

    private static readonly Gen<(HouseShape House, double[] Kwh, double Sharp)> s_cases =
        from climate in Gen.Int[0, Climate.All.Count - 1]
        from presence in Gen.Int[0, 2]
        from flags in Gen.Int[0, 15]
        from seed in Gen.Int[0, 1000]
        from kwh in Gen.Double[0, 2500].Array[12]
        from sharp in Gen.Double[1.3, 12]
        select (new HouseShape
        {
            Climate = Climate.All[climate],
            Presence = (Presence)presence,
            HeatsWithElectricity = (flags & 1) > 0,
            Cools = (flags & 2) > 0,
            HeatsWater = (flags & 4) > 0,
            HasPool = (flags & 8) > 0,
            Seed = (ulong)seed,
        }, kwh, sharp);

    private static MeteredBill[] Bills(double[] kwh, double? peakOverMean = null) =>
    [
        .. kwh.Select((k, m) => new MeteredBill
        {
            From = new LocalDate(2025, m + 1, 1),
            To = new LocalDate(2025, m + 1, 1).PlusMonths(1).PlusDays(-1),
            Kwh = k,
            PeakKw = peakOverMean * k / (24 * CalendarSystem.Iso.GetDaysInMonth(2025, m + 1)),
        }),
    ];

    private static double KwhOfMonth(Profile load, int month)
    {
        double sum = 0;
        for (int i = 0; i < load.Kw.Length; i++)
            if (load.Axis.LocalDateOf(i).Month == month) sum += load.Kw[i] * load.Axis.StepHours;
        return sum;
    }

    [Fact]
    public void Of_AnyBillsAndHouse_KeepsEachBillsEnergy() =>
        FixedSeed.Check(s_cases, 60, c =>
        {
            Profile load = BillYear.Of(s_denver, Bills(c.Kwh), c.House, 60);
            Assert.Equal(8760, load.Axis.Count);
            for (int m = 1; m <= 12; m++) Assert.Equal(c.Kwh[m - 1], KwhOfMonth(load, m), 1e-9 * Math.Max(1, c.Kwh[m - 1]));
        });

    [Fact]
    public void Of_BillsWithAPeak_HitsItAndKeepsTheEnergy() =>
        FixedSeed.Check(s_cases, 30, c =>
        {
            MeteredBill[] bills = Bills(c.Kwh, c.Sharp);
            Profile load = BillYear.Of(s_denver, bills, c.House, 60);
            for (int m = 1; m <= 12; m++)
            {
                Assert.Equal(c.Kwh[m - 1], KwhOfMonth(load, m), 1e-9 * Math.Max(1, c.Kwh[m - 1]));
                double peak = Enumerable.Range(0, load.Axis.Count).Where(i => load.Axis.LocalDateOf(i).Month == m).Max(i => load.Kw[i]);
                Assert.Equal(bills[m - 1].PeakKw!.Value, peak, 1e-6 * Math.Max(1, peak));
            }
        });

    [Fact]
    public void Of_SameSeed_IsTheSameAndAnotherIsNot()
    {
        double[] kwh = [.. Enumerable.Repeat(600.0, 12)];
        var house = new HouseShape { Climate = Climate.All[1] };
        Assert.Equal(BillYear.Of(s_denver, Bills(kwh), house, 15).Kw.ToArray(), BillYear.Of(s_denver, Bills(kwh), house, 15).Kw.ToArray());
        Assert.NotEqual(BillYear.Of(s_denver, Bills(kwh), house, 15).Kw.ToArray(), BillYear.Of(s_denver, Bills(kwh), house with { Seed = 2 }, 15).Kw.ToArray());
    }

    // Common practice: what a summer bill has above the mild ones is cooling, and cooling is an affair of afternoons; that of a winter bill is heating, of cold hours.
    [Theory]
    [InlineData(7, 15, 5)]
    [InlineData(1, 5, 15)]
    public void Of_BillsHighInOneSeason_PutsTheExcessIntoItsHours(int month, int moreHour, int lessHour)
    {
        double[] kwh = [.. Enumerable.Repeat(500.0, 12)];
        var house = new HouseShape { Climate = Climate.All[1], Presence = Presence.HomeByDay };
        Profile flat = BillYear.Of(s_denver, Bills(kwh), house, 60);
        kwh[month - 1] = 1500;
        Profile high = BillYear.Of(s_denver, Bills(kwh), house, 60);
        double Added(int hour) => Enumerable.Range(0, flat.Axis.Count).Where(i => flat.Axis.LocalDateOf(i).Month == month && flat.Axis.LocalMinuteOf(i) / 60 == hour).Sum(i => high.Kw[i] - flat.Kw[i]);
        Assert.True(Added(moreHour) > Added(lessHour) * 1.2, $"{Added(moreHour)} {Added(lessHour)}");
    }

    [Fact]
    public void Of_BillsThatLeaveADayOut_Throws()
    {
        MeteredBill[] bills = Bills([.. Enumerable.Repeat(500.0, 12)]);
        bills[3] = bills[3] with { From = new LocalDate(2025, 4, 2) };
        Assert.Contains("2025-04-02 does not begin the day after", Assert.Throws<ArgumentException>(() => BillYear.Of(s_denver, bills, new HouseShape { Climate = Climate.All[0] }, 60)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Vehicle_AYear_TakesItsEnergyInItsWindowAtNoMoreThanItsCharger()
    {
        TimeAxis axis = TimeAxis.OfYear(s_denver, 2025, 15);
        Profile vehicle = AddedLoads.Vehicle(axis, new VehicleCharging(63, 21 * 60, 6 * 60, 7.2));
        for (int i = 0; i < axis.Count; i++)
        {
            Assert.InRange(vehicle.Kw[i], 0, 7.2);
            if (axis.LocalMinuteOf(i) is >= 360 and < 1260) Assert.Equal(0, vehicle.Kw[i]);
        }
        // 9 kWh a night: 365 evenings and the first night's small hours, which the data begin in.
        Assert.Equal(9 * 366, vehicle.EnergyKwh, 1e-6);
    }

    [Fact]
    public void Vehicle_TooMuchForItsWindow_Throws() =>
        Assert.Throws<ArgumentException>(() => AddedLoads.Vehicle(TimeAxis.OfYear(s_denver, 2025, 60), new VehicleCharging(200, 0, 120, 7)));

    [Fact]
    public void AddedLoads_OverAYear_HaveTheEnergySaid()
    {
        TimeAxis axis = TimeAxis.OfYear(s_denver, 2025, 60);
        var house = new HouseShape { Climate = Climate.All[1] };
        Profile heat = AddedLoads.HeatPump(axis, 4000, house);
        Assert.Equal(4000, heat.EnergyKwh, 1e-6);
        Assert.Equal(350, AddedLoads.Induction(axis, 350, house).EnergyKwh, 1e-6);
        Assert.Equal(1200, AddedLoads.Pool(axis, 1200).EnergyKwh, 1e-6);
        Assert.True(KwhOfMonth(heat, 1) > 20 * KwhOfMonth(heat, 7));
    }
}
