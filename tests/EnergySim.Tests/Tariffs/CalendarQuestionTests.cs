using EnergySim.Billing;
using EnergySim.Tariffs;
using EnergySim.Tests.Billing;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Tariffs;

/// <summary>What strategies and batches ask of a plan on its axis.</summary>
public class CalendarQuestionTests
{
    // June begins on a Sunday; peak from 16 to 20 o'clock.
    private static readonly ClockWindow s_evening = new(16 * 60, 20 * 60);
    private static readonly TariffVersion s_peak = Worked.PeakAndOff(s_evening, 0.3m, 0.1m);

    private static TariffCalendar Calendar(TariffVersion version, TimeAxis? axis = null) => new(Worked.Plan(Worked.Denver, version), axis ?? Worked.June());

    private static IEnumerable<int> Hours(bool[] inside, int days = 1) => Enumerable.Range(0, 24 * days).Where(i => inside[i]);

    [Fact]
    public void InPeriods_NamedOrDearest_AreTheHoursOfThePeak()
    {
        TariffCalendar calendar = Calendar(s_peak);
        Assert.Equal([16, 17, 18, 19], Hours(calendar.InPeriods(["peak"])));
        Assert.Equal(20, Hours(calendar.InPeriods(["off"])).Count());
        Assert.Equal(24, Hours(calendar.InPeriods(["off", "peak"])).Count());
        Assert.Equal([16, 17, 18, 19], Hours(calendar.InPeriods([])));
        Assert.Throws<ArgumentException>(() => calendar.InPeriods(["peak", "noon"]));
        Assert.Empty(Hours(Calendar(Worked.Flat(new PricePart("energy", 0.2m))).InPeriods([])));
    }

    // Three prices: the dearest alone. By season: in the second the morning is dearer, and a season of one price has none.
    [Fact]
    public void InPeriods_Dearest_IsOfItsSeason()
    {
        static EnergyPrice Price(string? season, string period, decimal price) =>
            new() { Season = season, Period = period, Parts = [new PricePart("energy", price)] };
        TariffVersion plan = s_peak with
        {
            Seasons = [new Season("a", new(1, 1), new(6, 1)), new Season("b", new(6, 2), new(6, 2)), new Season("c", new(6, 3), new(12, 31))],
            Periods = [new PeriodRule("morning") { Window = new ClockWindow(360, 480) }, new PeriodRule("peak") { Window = s_evening }, new PeriodRule("off")],
            EnergyPrices = [Price(null, "off", 0.1m), Price("a", "morning", 0.2m), Price("b", "morning", 0.4m), Price("c", "morning", 0.1m),
                Price(null, "peak", 0.3m), Price("c", "peak", 0.1m)],
        };
        Assert.Equal([16, 17, 18, 19, 24 + 6, 24 + 7], Hours(Calendar(plan).InPeriods([]), 3));
    }

    [Fact]
    public void InEvents_AreTheWindowOfTheirDays()
    {
        TariffCalendar calendar = Calendar(s_peak with { Events = new EventCharge([new LocalDate(2025, 6, 2)], 0.5m, s_evening) });
        Assert.Equal([40, 41, 42, 43], Hours(calendar.InEvents(), 3));
        Assert.Empty(Hours(Calendar(s_peak).InEvents(), 30));
    }

    // Quarter-hours of two bills; half-hours from 16 to 20 o'clock on working days. 1 June is a Sunday, 30 June a Monday.
    [Fact]
    public void WatchDemand_CountsAndBeginsByTheCharge()
    {
        TimeAxis axis = Worked.Days(new LocalDate(2025, 6, 30), 2, 15);
        DemandCharge charge = new() { Name = "top", Minutes = 30, PricePerKw = 1, Window = s_evening };
        DemandWatch watch = Calendar(s_peak with { Demand = [charge] }, axis).WatchDemand();
        Assert.Equal([.. Enumerable.Range(64, 16), .. Enumerable.Range(160, 16)], Enumerable.Range(0, axis.Count).Where(i => watch.Counts[i]));
        Assert.All(Enumerable.Range(0, axis.Count), i => Assert.Equal(i % 2 == 0, watch.Begins[i]));
        Assert.All(Enumerable.Range(0, axis.Count), i => Assert.Equal(i / 96, watch.BillOf[i]));
        // Two charges: counted where either is, begun where both begin.
        DemandWatch both = Calendar(s_peak with { Demand = [charge, charge with { Name = "all", Minutes = 60, Window = ClockWindow.WholeDay }] },
            axis).WatchDemand();
        Assert.DoesNotContain(false, both.Counts);
        Assert.All(Enumerable.Range(0, axis.Count), i => Assert.Equal(i % 4 == 0, both.Begins[i]));
        DemandWatch none = Calendar(s_peak, axis).WatchDemand();
        Assert.DoesNotContain(false, none.Counts.Concat(none.Begins));
    }

    // A block may end where no interval of the meter and no mean of a demand lies across.
    [Fact]
    public void CanCutAt_MeterAndDemandIntervals_AreNotCut()
    {
        TimeAxis axis = Worked.June(15);
        TariffCalendar demand = Calendar(s_peak with { Demand = [new DemandCharge { Name = "top", Minutes = 30, PricePerKw = 1 }] }, axis);
        Assert.Equal([0, 2, 4, 6, 8], Enumerable.Range(0, 9).Where(demand.CanCutAt));
        TariffCalendar meter = Calendar(s_peak with { MeterMinutes = 60 }, axis);
        Assert.Equal([0, 4, 8], Enumerable.Range(0, 9).Where(meter.CanCutAt));
        Assert.True(meter.MetersLongerIntervals);
        // A meter as fine as the run asks nothing.
        TariffCalendar fine = Calendar(s_peak with { MeterMinutes = 15 }, axis);
        Assert.All(Enumerable.Range(0, 9), i => Assert.True(fine.CanCutAt(i)));
        Assert.False(fine.MetersLongerIntervals);
    }

    // 100 kWh at 0.20 and 40 sold at 0.05, then at 0.30 and, twice as dear, at 0.10.
    [Fact]
    public void WithPrices_PricesTheSameSumsAnew()
    {
        TariffVersion version = Worked.Flat(new PricePart("energy", 0.20m))
            with
        { Export = new ExportTerms.NetBilling { Prices = [new ExportPrice { Parts = [new PricePart("supply", 0.05m)] }] } };
        TariffCalendar calendar = Calendar(version);
        MeterSums sums = MeterSums.Of(calendar, Worked.Even(calendar.Axis, 100, 40));
        TariffVersion dearer = version with { EnergyPrices = [new EnergyPrice { Parts = [new PricePart("energy", 0.30m)] }] };
        TariffCalendar priced = calendar.WithPrices(Worked.Plan(Worked.Denver, dearer));
        Assert.Equal([20.00m, -2.00m], Biller.Bill(sums).Bills[0].Lines.Select(l => l.Amount));
        Assert.Equal([30.00m, -4.00m], Biller.Bill(sums.AtPrices(priced, 2)).Bills[0].Lines.Select(l => l.Amount));
        Assert.Throws<ArgumentException>(() => calendar.WithPrices(Worked.Plan(Worked.Denver, version, version)));
        Assert.Throws<ArgumentException>(() => sums.AtPrices(Calendar(version), 1));
        Assert.Throws<ArgumentException>(() => MeterSums.Of(calendar, Worked.Even(Worked.Days(new LocalDate(2025, 6, 1), 29), 1)));
    }

    [Fact]
    public void Calendar_OfAnotherZoneOrLoad_IsRefused()
    {
        TimeAxis elsewhere = Worked.Days(new LocalDate(2025, 6, 1), 1, 60, DateTimeZoneProviders.Tzdb["America/Chicago"]);
        Assert.Throws<ArgumentException>(() => Calendar(s_peak, elsewhere));
        Assert.Throws<ArgumentException>(() => new TariffCalendar(Worked.Plan(Worked.Denver, s_peak), Worked.June(), null, new double[3]));
        Assert.Throws<ArgumentException>(() => Calendar(s_peak with { Periods = [new PeriodRule("peak") { Window = s_evening }] }));
        Assert.Throws<ArgumentException>(() => Calendar(s_peak with { EnergyPrices = [s_peak.EnergyPrices[0]] }));
    }

    // A boundary at 16:30 lies inside an hour, not inside a half-hour.
    [Fact]
    public void Notes_BoundaryInsideAnInterval_IsSaidOnce()
    {
        TariffVersion half = Worked.PeakAndOff(new ClockWindow(990, 1230), 0.3m, 0.1m);
        static bool IsOfPeriods(string note) => note.StartsWith("the period ", StringComparison.Ordinal);
        Assert.Equal("the period peak begins inside an interval of 60 minutes; each interval is priced by its start",
            Assert.Single(Calendar(half).Notes, IsOfPeriods));
        Assert.DoesNotContain(Calendar(half, Worked.June(30)).Notes, IsOfPeriods);
    }
}
