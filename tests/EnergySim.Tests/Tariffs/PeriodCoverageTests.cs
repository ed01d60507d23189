using EnergySim.Tariffs;
using EnergySim.Tests.Billing;
using EnergySim.Time;

namespace EnergySim.Tests.Tariffs;

/// <summary>TARIFF: every minute of the year belongs to exactly one period; a gap or an overlap is an error that names the minute.</summary>
public class PeriodCoverageTests
{
    private static PeriodRule Rule(string period, int fromHour, int toHour, params DayType[] days) =>
        new(period) { Window = new ClockWindow(fromHour * 60, toHour * 60), Days = days };

    private static TariffVersion Plan(params PeriodRule[] rules) => Worked.Flat(new PricePart("energy", 0.1m)) with { Periods = rules };

    private static IEnumerable<string> Faults(TariffVersion version) => PeriodCoverage.Of(version).Select(f =>
        string.Join(' ', new object?[] { f.Fault, f.Day, f.Season, f.DayType, f.Minute, string.Join('/', f.Names) }.Where(o => o is not null and not "")));

    [Fact]
    public void Of_WholePlan_FindsNothing() => Assert.Empty(Faults(Plan(Rule("day", 6, 22), Rule("night", 22, 6))));

    // The first minute of each kind of day is named, once: 0 and 22 × 60 are both open. From 18:00 to 20:00 there are two.
    [Fact]
    public void Of_GapAndOverlap_NamesTheirFirstMinute() => Assert.Equal(
        [
            "MinuteWithoutPeriod all Weekday 0", "MinuteInTwoPeriods all Weekday 1080 day/evening",
            "MinuteWithoutPeriod all Weekend 0", "MinuteInTwoPeriods all Weekend 1080 day/evening",
        ],
        Faults(Plan(Rule("day", 6, 22), Rule("evening", 18, 20), Rule("late", 19, 20))));

    [Fact]
    public void Of_GapAtTheDaysEnd_IsFound() => Assert.Equal(["MinuteWithoutPeriod all Weekday 1380", "MinuteWithoutPeriod all Weekend 1380"],
        Faults(Plan(Rule("day", 0, 23))));

    // Holidays and event days are asked for where a rule names them.
    [Theory]
    [InlineData(DayType.Holiday)]
    [InlineData(DayType.Event)]
    public void Of_NamedDays_AreAsked(DayType named) =>
        Assert.Equal([$"MinuteWithoutPeriod all {named} 720"], Faults(Plan(Rule("day", 0, 24, DayType.Weekday, DayType.Weekend), Rule("quiet", 0, 12, named))));

    // Seasons: 1 April lies in none and 30 September in two; later gaps and overlaps are not told again.
    [Fact]
    public void Of_Seasons_NamesTheFirstDayOfEach()
    {
        TariffVersion plan = Plan(Rule("any", 0, 24));
        Season warm = new("warm", new(4, 2), new(9, 30)), cold = new("cold", new(9, 30), new(3, 31));
        Assert.Equal(["DayWithoutSeason 04-01", "DayInTwoSeasons 09-30 warm/cold"], Faults(plan with { Seasons = [warm, cold] }));
        Season spring = new("spring", new(4, 4), new(6, 30)), summer = new("summer", new(6, 29), new(9, 30)), august = new("august", new(6, 30), new(8, 31));
        Assert.Equal(
            ["DayWithoutSeason 04-01", "DayInTwoSeasons 06-29 spring/summer"],
            Faults(plan with { Seasons = [spring, summer, august, cold with { From = new(10, 2) }] }));
        Assert.Empty(Faults(plan with { Seasons = [warm with { From = new(4, 1) }, cold with { From = new(10, 1) }] }));
    }

    // 29 February is a day too.
    [Fact]
    public void Of_LeapDay_IsAsked() => Assert.Equal(
        ["DayWithoutSeason 02-29"], Faults(Plan(Rule("any", 0, 24))
            with
        { Seasons = [new Season("a", new(3, 1), new(12, 31)), new Season("b", new(1, 1), new(2, 28))] }));

    // Night has a price in winter only.
    [Fact]
    public void Of_PeriodWithoutAPrice_IsFoundWhereItOccurs()
    {
        TariffVersion plan = Plan(Rule("day", 6, 22), Rule("night", 22, 6)) with
        {
            Seasons = [new Season("winter", new(10, 1), new(4, 30)), new Season("summer", new(5, 1), new(9, 30))],
            EnergyPrices = [new EnergyPrice { Period = "day", Parts = [] }, new EnergyPrice { Season = "winter", Period = "night", Parts = [] }],
        };
        Assert.Equal(["NoPrice summer night"], Faults(plan));
        // A rule that another always covers does not occur: its price is not missed.
        Assert.DoesNotContain(Faults(plan with { Periods = [Rule("day", 0, 24), Rule("night", 22, 6)] }), f =>
            f.StartsWith("NoPrice", StringComparison.Ordinal));
    }
}
