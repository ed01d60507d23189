using EnergySim.Billing;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Tests.Billing;
using EnergySim.Tests.Time;
using EnergySim.Time;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Tests.Tariffs;

/// <summary>Periods and kinds of day over whole years, clock changes included.</summary>
public class LocalDayTests
{
    public static TheoryData<string> Zones => ["America/New_York", "America/Chicago", "America/Denver", "America/Los_Angeles"];

    [Theory]
    [MemberData(nameof(Zones))]
    public void Periods_OfEveryLocalDay_HoldFivePeakHours(string id)
    {
        // TRADE.md §6.2 case 1: a peak of 16–21 has 5 hours on each local day, also on the days of 23 and 25 hours. The dates and the hours of
        // each year: 15 U.S.C. 260a, reference/dst_us.csv.
        DateTimeZone zone = DateTimeZoneProviders.Tzdb[id];
        TariffVersion plan = Worked.PeakAndOff(new ClockWindow(16 * 60, 21 * 60), 0.5m, 0.25m);
        string[] lines = File.ReadAllLines(SharedData.Reference("dst_us.csv"));
        string[] header = lines[0].Split(',');
        foreach (string[] row in lines.Skip(1).Select(l => l.Split(',')))
        {
            string Cell(string column) => row[Array.IndexOf(header, column)];
            int Number(string column) => int.Parse(Cell(column), System.Globalization.CultureInfo.InvariantCulture);
            TimeAxis axis = TimeAxis.OfYear(zone, Number("year"), 60);
            var calendar = new TariffCalendar(Worked.Plan(zone, plan), axis);
            Dictionary<LocalDate, (int Peak, int All)> days = HoursByDay(calendar);
            Assert.Equal((Number("days_in_year"), Number("hours_in_year")), (days.Count, axis.Count));
            Assert.All(days.Values, d => Assert.Equal(5, d.Peak));
            LocalDate spring = LocalDatePattern.Iso.Parse(Cell("dst_start_local_0200_std")).Value, autumn = LocalDatePattern.Iso.Parse(Cell("dst_end_local_0200_dst")).Value;
            Assert.Equal([(spring, 23), (autumn, 25)], days.Where(d => d.Value.All != 24).Select(d => (d.Key, d.Value.All)).OrderBy(d => d.Key));
            Assert.Equal(Number("days_between"), Period.DaysBetween(spring, autumn));
            // 1 kW all year: 5 kWh of peak a day, the rest at the other price.
            BillSet bills = Biller.Bill(MeterSums.Of(calendar, Worked.Meter(axis, _ => 1)));
            decimal peakKwh = bills.Bills.SelectMany(b => b.Lines).Where(l => l.UnitPrice == 0.5m).Sum(l => l.Quantity);
            Assert.Equal((5 * days.Count, axis.Count), (peakKwh, bills.Bills.SelectMany(b => b.Lines).Sum(l => l.Quantity)));
        }
    }

    [Fact]
    public void DayTypes_OfFiveYears_AreThoseOfTheHolidayTable()
    {
        // Observed dates 2024–2028: reference/holidays.csv.
        HashSet<LocalDate> table = [.. File.ReadLines(SharedData.Reference("holidays.csv")).Skip(1).Select(l => LocalDatePattern.Iso.Parse(l.Split(',')[^3]).Value)];
        var rules = new DayRules(Worked.Flat() with { Holidays = [.. FederalHolidays.ByName.Values] }, 2024, 2028);
        int holidays = 0;
        for (var day = new LocalDate(2024, 1, 1); day.Year <= 2028; day = day.PlusDays(1))
        {
            DayType expected = table.Contains(day) ? DayType.Holiday : day.DayOfWeek >= IsoDayOfWeek.Saturday ? DayType.Weekend : DayType.Weekday;
            Assert.Equal(expected, rules.DayTypeOf(day));
            if (expected == DayType.Holiday) holidays++;
        }
        Assert.Equal(55, holidays);
    }

    private static Dictionary<LocalDate, (int Peak, int All)> HoursByDay(TariffCalendar calendar)
    {
        var days = new Dictionary<LocalDate, (int Peak, int All)>();
        for (int i = 0; i < calendar.Axis.Count; i++)
        {
            // The date is the zone's own, not the axis's.
            LocalDate date = calendar.Axis.StartOf(i).InZone(calendar.Axis.Zone).Date;
            (int peak, int all) = days.GetValueOrDefault(date);
            days[date] = (peak + (calendar.Buckets[calendar.BucketOf[i]].Period == "peak" ? 1 : 0), all + 1);
        }
        return days;
    }
}
