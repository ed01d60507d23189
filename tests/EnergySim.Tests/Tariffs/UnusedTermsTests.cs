using EnergySim.Tariffs;
using EnergySim.Tests.Billing;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Tariffs;

/// <summary>What a plan says in vain: each finding with a plan next to it that is not guilty of it. Sums by hand.</summary>
public class UnusedTermsTests
{
    private static readonly TariffVersion s_plain = Worked.PeakAndOff(new ClockWindow(16 * 60, 20 * 60), 0.3m, 0.1m)
        with
    { Effective = new LocalDate(2025, 1, 1) };

    private static IReadOnlyList<string> Of(params TariffVersion[] versions) => UnusedTerms.Of(Worked.Plan(Worked.Denver, versions));

    private static Tiers Tiers(double? perBill, double? perDay, params TierStep[] steps) => new()
    {
        AllowanceKwhPerBill = perBill,
        AllowanceKwhPerDay = perDay is double kwh ? new Dictionary<string, double> { ["summer"] = kwh * 2, [TariffVersion.WholeYear] = kwh } : null,
        Steps = steps,
    };

    [Fact]
    public void Of_PlainPlan_IsNothing() => Assert.Empty(Of(s_plain));

    // 200 A × 240 V × 24 h = 1,152 kWh a day. 130 × 10 = 1,300 of the lower allowance; 1 × 1,152 is just within reach; a bill counts 30 days.
    [Fact]
    public void Of_TierOutOfReach_IsFound()
    {
        Assert.Equal(
            ["step 2 of the tiers is out of reach: it begins at 1,300 kWh a day, a 200 A service carries 1,152"],
            Of(s_plain with { Tiers = Tiers(null, 10, new TierStep(0, 0m), new TierStep(130, 0.1m)) }));
        Assert.Empty(Of(s_plain with { Tiers = Tiers(null, 10, new TierStep(0, 0m), new TierStep(115.2, 0.1m)) }));
        Assert.Empty(Of(s_plain with { Tiers = Tiers(34_560, null, new TierStep(0, 0m), new TierStep(1, 0.1m)) }));
        Assert.Equal(
            ["step 2 of the tiers is out of reach: it begins at 1,200 kWh a day, a 200 A service carries 1,152"],
            Of(s_plain with { Tiers = Tiers(36_000, null, new TierStep(0, 0m), new TierStep(1, 0.1m)) }));
    }

    [Fact]
    public void Of_TierOfTheSamePrice_IsFound()
    {
        Assert.Equal(["step 3 of the tiers has the price of the step before it"],
            Of(s_plain with { Tiers = Tiers(300, null, new(0, 0.1m), new(1, 0.2m), new(2, 0.2m)) }));
        Dictionary<string, decimal> low = new() { ["peak"] = 0.2m, ["noon"] = 0.3m }, high = new() { ["peak"] = 0.4m };
        Assert.Equal(["step 1 of the tiers names noon, which never occurs"],
            Of(s_plain with { Tiers = Tiers(300, null, new(0, null, low), new(1, null, high)) }));
    }

    [Fact]
    public void Of_DaysThatThePlanLacks_AreFound()
    {
        DemandCharge top = new() { Name = "top", PricePerKw = 3, Days = [DayType.Holiday] };
        HolidayRule july = new HolidayRule.Fixed(new(7, 4), HolidayMove.None);
        Assert.Equal(["demand charge top on holidays: the plan has no such day"], Of(s_plain with { Demand = [top] }));
        Assert.Equal(["demand charge top on holidays and events: the plan has no such day"],
            Of(s_plain with { Demand = [top with { Days = [DayType.Holiday, DayType.Event] }] }));
        Assert.Empty(Of(s_plain with { Demand = [top], Holidays = [july] }));
        Assert.Empty(Of(s_plain with { Demand = [top with { Days = [DayType.Holiday, DayType.Weekend] }] }));
        Assert.Empty(Of(s_plain with { Demand = [top with { Days = [] }] }));
        TariffVersion quiet = s_plain with
        {
            Periods = [.. s_plain.Periods, new PeriodRule("quiet") { Days = [DayType.Event] }],
            EnergyPrices = [.. s_plain.EnergyPrices, new EnergyPrice { Season = TariffVersion.WholeYear, Period = "quiet", Parts = [] }],
        };
        Assert.Equal(["period quiet on events: the plan has no such day", "the energy price for all, quiet is never used"], Of(quiet));
    }

    // A price that a more exact one always covers, and one for any season of a period that is not there.
    [Fact]
    public void Of_PriceNeverUsed_IsFound() => Assert.Equal(
        ["the energy price for any season, any period is never used", "the energy price for any season, noon is never used"],
        Of(s_plain with { EnergyPrices = [.. s_plain.EnergyPrices, new EnergyPrice { Parts = [] }, new EnergyPrice { Period = "noon", Parts = [] }] }));

    [Fact]
    public void Of_ExportPriceOfAPeriodThatNeverIs_IsFound()
    {
        static ExportPrice Price(string? season, string? period) => new() { Season = season, Period = period, Parts = [] };
        Season cold = new("cold", new(1, 1), new(6, 30)), warm = new("warm", new(7, 1), new(12, 31));
        TariffVersion plan = s_plain with
        {
            Seasons = [cold, warm],
            Periods = [new PeriodRule("day") { Season = "warm" },
            new PeriodRule("flat") { Season = "cold" }],
            EnergyPrices = [new EnergyPrice { Parts = [] }]
        };
        Assert.Equal(
            ["the export price for cold, day is never used", "the export price for any season, noon is never used"],
            Of(plan with
            {
                Export = new ExportTerms.NetBilling
                {
                    Prices = [Price("cold", "day"), Price("warm", "day"), Price(null, "noon"),
                Price(null, "flat"), Price("cold", null)]
                }
            }));
    }

    [Fact]
    public void Of_EventOutsideItsPrices_IsFound()
    {
        static EventCharge On(params LocalDate[] dates) => new(dates, 0.5m, new ClockWindow(960, 1200));
        LocalDate start = s_plain.Effective, change = new(2025, 6, 1);
        Assert.Equal(
            ["the event of 2024-12-31 lies outside the days on which its prices hold"],
            Of(s_plain with { Events = On(start.PlusDays(-1), start) }));
        TariffVersion later = s_plain with { Effective = change, Events = On(change) };
        Assert.Empty(Of(s_plain with { Events = On(change.PlusDays(-1)) }, later));
        Assert.Equal(
            ["the event of 2025-06-02 lies outside the days on which its prices hold"],
            Of(s_plain with { Events = On(change.PlusDays(1)) }, later));
    }

    [Fact]
    public void Of_SeasonWithoutADay_IsFound()
    {
        Season Named(string name, MonthDay from, MonthDay to) => new(name, from, to);
        Season cold = Named("cold", new(1, 1), new(6, 30)), warm = Named("warm", new(7, 1), new(12, 31));
        TariffVersion first = s_plain with { Seasons = [cold, warm] };
        TariffVersion year = s_plain with { Effective = new LocalDate(2025, 6, 1) };
        Assert.Equal(["season warm has no day: other prices hold on all of its days"], Of(first, year));
        // On the last day before the change.
        Assert.Empty(Of(first, year with { Effective = new LocalDate(2025, 7, 2) }));
        Assert.Equal(["season warm has no day: other prices hold on all of its days"], Of(first, year with { Effective = new LocalDate(2025, 7, 1) }));
        Assert.Empty(Of(first, first with { Effective = year.Effective }));
        Assert.Equal(
            ["season leap has no day in most years: it is 29 February alone"],
            Of(s_plain with { Seasons = [Named("leap", new(2, 29), new(2, 29)), Named("rest", new(3, 1), new(2, 28))] }));
        Assert.Empty(Of(s_plain with { Seasons = [Named("leap", new(2, 28), new(2, 29)), Named("rest", new(3, 1), new(2, 27))] }));
        Assert.Empty(Of(s_plain with { Seasons = [Named("leap", new(2, 29), new(3, 29)), Named("rest", new(3, 30), new(2, 28))] }));
    }

    // With several versions each finding says whose it is.
    [Fact]
    public void Of_SeveralVersions_SaysWhich()
    {
        TariffVersion later = s_plain with
        {
            Effective = new LocalDate(2025, 6, 1),
            EnergyPrices = [.. s_plain.EnergyPrices, new EnergyPrice { Period = "noon", Parts = [] }]
        };
        Assert.Equal(["prices of 2025-06-01: the energy price for any season, noon is never used"], Of(s_plain, later));
    }
}
