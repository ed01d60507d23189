using EnergySim.Billing;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Billing;

/// <summary>TARIFF, lines: energy a price version × season × period × part, demand a charge × season × version; what each line is for is said.</summary>
public class LineNameTests
{
    [Fact]
    public void Lines_OfRandomPlans_AllSayWhatTheyAreFor() => FixedSeed.Check(RandomPlan.Any, 200, plan =>
    {
        var calendar = new TariffCalendar(plan.Tariff,
            Worked.Days(RandomPlan.From, (int)Period.Between(RandomPlan.From, RandomPlan.Until, PeriodUnits.Days).Days), plan.Account);
        BillSet bills = Biller.Bill(MeterSums.Of(calendar, Worked.Meter(calendar.Axis, i => i % 7, i => i % 24 is > 9 and < 16 ? 5 : 0)));
        Assert.All(bills.Bills.SelectMany(b => b.Lines), l => Assert.DoesNotContain("", new[] { l.Kind, l.Name, l.Unit }));
    });

    // Two seasons and two price versions inside June: by version, then season, then period.
    [Fact]
    public void Energy_OfSeasonsAndVersions_StandsInOrder()
    {
        TariffVersion old = Worked.PeakAndOff(new ClockWindow(960, 1200), 0.3m, 0.1m)
            with
        { Seasons = [new Season("warm", new(6, 11), new(9, 30)), new Season("cool", new(10, 1), new(6, 10))] };
        Bill bill = Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 720), old, old with { Effective = new LocalDate(2025, 6, 21) });
        Assert.Equal(
            [
                "cool off, energy (prices of 2000-01-01)", "cool peak, energy (prices of 2000-01-01)", "warm off, energy (prices of 2000-01-01)",
                "warm peak, energy (prices of 2000-01-01)", "warm off, energy (prices of 2025-06-21)", "warm peak, energy (prices of 2025-06-21)",
            ],
            bill.Lines.Select(l => l.Name));
        // A plan of one version and no seasons says neither.
        Assert.Equal(["off, energy", "peak, energy"],
            Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 720), old with { Seasons = [] }).Lines.Select(l => l.Name));
    }

    // The season changes on 11 June: 10 and 20 of 30 days. One of winter alone adds nothing to June.
    [Fact]
    public void Demand_OfTwoSeasons_SaysItsDays()
    {
        DemandCharge charge = new() { Name = "demand", Minutes = 60, PricePerKw = 3m };
        TariffVersion plan = Worked.Flat() with
        {
            Seasons = [new Season("cool", new(10, 1), new(6, 10)), new Season("warm", new(6, 11), new(9, 30))],
            Demand = [charge, charge with { Name = "winter", Season = "winter" }],
        };
        Bill bill = Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 720), plan);
        // 1 kW × 3.00 × 10/30 and × 20/30.
        Assert.Equal([("demand, cool, 10 of 30 days", 1.00m), ("demand, warm, 20 of 30 days", 2.00m)], bill.Lines.Select(l => (l.Name, l.Amount)));
        Assert.Equal(["demand"], Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 720), Worked.Flat() with { Demand = [charge] }).Lines.Select(l =>
            l.Name));
    }

    // From 21 June on nothing is charged for demand, and tiers begin: 20 and 10 of 30 days, 240 kWh of 720 in the tier.
    [Fact]
    public void Terms_OfOneVersionAlone_HoldOnItsDays()
    {
        TariffVersion old = Worked.Flat() with { Demand = [new DemandCharge { Name = "demand", Minutes = 60, PricePerKw = 3m }] };
        TariffVersion later = Worked.Flat() with
        {
            Effective = new LocalDate(2025, 6, 21),
            Tiers = new Tiers { AllowanceKwhPerBill = 1000, Steps = [new TierStep(0, 0.10m)] }
        };
        Bill bill = Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 720), old, later);
        Assert.Equal(["tier 24.00", "demand 2.00"], Worked.Lines(bill));
    }
}
