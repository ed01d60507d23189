using EnergySim.Tariffs;
using EnergySim.Tests.Billing;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Tariffs;

/// <summary>What holds where, by version, season and kind of day.</summary>
public class VersionTermsTests
{
    private static readonly ClockWindow s_evening = new(16 * 60, 20 * 60);

    private static TariffCalendar Calendar(params TariffVersion[] versions) => new(Worked.Plan(Worked.Denver, versions), Worked.June());

    // An event day has periods of its own where a rule names events: Monday 2 June; else it keeps its day type.
    [Fact]
    public void Periods_OfAnEventDay_AreItsOwnWhereNamed()
    {
        TariffVersion plan = Worked.Flat(new PricePart("energy", 0.1m)) with
        {
            Events = new EventCharge([new LocalDate(2025, 6, 2)], 0.5m, s_evening),
            Periods = [new PeriodRule("critical") { Days = [DayType.Event] }, new PeriodRule("any") { Days = [DayType.Weekday, DayType.Weekend] }],
        };
        TariffCalendar calendar = Calendar(plan);
        Assert.Equal(["any", "critical", "any"], new[] { 12, 36, 60 }.Select(i => calendar.Buckets[calendar.BucketOf[i]].Period));
        calendar = Calendar(plan with { Periods = [new PeriodRule("work") { Days = [DayType.Weekday] }, new PeriodRule("rest") { Days = [DayType.Weekend] }] });
        Assert.Equal(["rest", "work", "work"], new[] { 12, 36, 60 }.Select(i => calendar.Buckets[calendar.BucketOf[i]].Period));
    }

    // Season and period before season before period before neither; of two alike the first.
    [Fact]
    public void PriceOf_TheMostExact_Holds()
    {
        static EnergyPrice Price(int price, string? season = null, string? period = null) =>
            new() { Season = season, Period = period, Parts = [new PricePart("energy", price)] };
        EnergyPrice[] rising = [Price(1), Price(2, period: "peak"), Price(3, season: "a"), Price(4, "a", "peak")];
        decimal Of(params EnergyPrice[] prices) => new DayRules(Worked.Flat() with { EnergyPrices = prices }, 2025, 2025).PriceOf("a", "peak")!.TotalPerKwh;
        for (int n = rising.Length; n > 0; n--)
        {
            Assert.Equal(n, Of(rising[..n]));
            Assert.Equal(n, Of([.. rising[..n].Reverse()]));
        }
        Assert.Equal(5, Of(Price(5, "a"), Price(6, "a"), Price(7, "b", "peak"), Price(8, "a", "off")));
    }

    [Fact]
    public void SeasonOf_ADayInNone_IsRefused()
    {
        var rules = new DayRules(Worked.Flat() with { Seasons = [new Season("a", new(1, 1), new(6, 30))] }, 2025, 2025);
        Assert.Equal("a", rules.SeasonOf(new LocalDate(2025, 6, 30)));
        Assert.Throws<InvalidOperationException>(() => rules.SeasonOf(new LocalDate(2025, 7, 1)));
    }

    // From 16 June on there is no demand charge, no longer meter interval and nothing is sold whole.
    [Fact]
    public void Calendar_OfVersionsThatDiffer_KeepsWhatOneOfThemSays()
    {
        TariffVersion first = Worked.Flat(new PricePart("energy", 0.1m)) with
        {
            Demand = [new DemandCharge { Name = "top", Minutes = 120, PricePerKw = 1 }],
            MeterMinutes = 120,
            Export = new ExportTerms.SellAll(0.1m),
        };
        TariffVersion later = Worked.Flat(new PricePart("energy", 0.1m)) with { Effective = new LocalDate(2025, 6, 16) };
        TariffCalendar calendar = Calendar(first, later);
        Assert.True(calendar.MetersLongerIntervals && calendar.SellsAll);
        DemandWatch watch = calendar.WatchDemand();
        Assert.Equal([true, false, true, false], watch.Begins.Take(4));
        Assert.All(Enumerable.Range(15 * 24, 24), i => Assert.True(watch.Begins[i] && !watch.Counts[i]));
        Assert.True(watch.Counts[(15 * 24) - 1]);
        TariffCalendar plain = Calendar(later);
        Assert.False(plain.MetersLongerIntervals || plain.SellsAll);
    }

    // Load falls from day to day: each version's highest days are its first; the first version holds before its own date too.
    [Fact]
    public void EventDays_OfFallingLoad_AreTheFirstOfEachVersion()
    {
        TimeAxis axis = Worked.Days(new LocalDate(2025, 6, 1), 61);
        TariffVersion first = Worked.Flat(new PricePart("energy", 0.1m)) with
        {
            Effective = new LocalDate(2025, 6, 15),
            Events = new EventCharge([], 0.5m, s_evening) { HighestLoadDays = 2 },
        };
        TariffVersion july = first with { Effective = new LocalDate(2025, 7, 1) }, none = first with { Effective = new LocalDate(2025, 7, 10), Events = null };
        double[] load = [.. Enumerable.Range(0, axis.Count).Select(i => 100.0 - axis.LocalDayOf(i) + axis.LocalDayOf(0))];
        IReadOnlyList<TariffVersion> chosen = new TariffCalendar(Worked.Plan(axis.Zone, first, july, none), axis, null, load).Tariff.Versions;
        Assert.Equal([new(2025, 6, 1), new(2025, 6, 2)], chosen[0].Events!.Dates);
        Assert.Equal([new(2025, 7, 1), new(2025, 7, 2)], chosen[1].Events!.Dates);
        Assert.Null(chosen[2].Events);
    }
}
