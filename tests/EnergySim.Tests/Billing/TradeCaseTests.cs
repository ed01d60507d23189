using EnergySim.Billing;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Billing;

/// <summary>The acceptance cases of TRADE.md §6.2 that a bill decides (common practice unless a source stands beside), by number.</summary>
public class TradeCaseTests
{
    [Fact]
    public void Case6_DemandFromQuarterHours()
    {
        TariffVersion plan = Worked.Flat() with { Demand = [new DemandCharge { Name = "demand", Minutes = 15, PricePerKw = 1m }] };
        double[] quarters = [2, 2, 2, 10];
        TimeAxis fine = Worked.June(15), coarse = Worked.June();
        BillSet measured = Worked.Bills(fine, Worked.Meter(fine, i => i / 4 == 100 ? quarters[i % 4] : 0), null, plan);
        BillSet bound = Worked.Bills(coarse, Worked.Meter(coarse, i => i == 100 ? quarters.Average() : 0), null, plan);
        Assert.Equal(10m, Worked.Line(measured.Bills[0], "demand").Quantity);
        Assert.DoesNotContain(measured.Notes, n => n.Contains("lower bound", StringComparison.Ordinal));
        Assert.Equal(4m, Worked.Line(bound.Bills[0], "demand").Quantity);
        Assert.Contains("demand: lower bound", bound.Notes);
    }

    [Fact]
    public void Case15_NoNettingInsideTheHour()
    {
        // Also CPUC D.22-12-056 (2022): no netting inside the interval, REFERENCE.md §8.2.
        TariffVersion plan = Worked.Flat(new PricePart("energy", 0.40m)) with { Export = NetBilling(0.05m) };
        TimeAxis hours = Worked.June(), halves = Worked.June(30);
        // Both registers run within the hour.
        Assert.Equal(0.70m, Worked.BillOf(hours, Worked.Meter(hours, i => i == 12 ? 2 : 0, i => i == 12 ? 2 : 0), plan).Total);
        // Half an hour of each, on a meter of hours.
        EnergySim.Engine.MeterColumns meter = Worked.Meter(halves, i => i == 24 ? 4 : 0, i => i == 25 ? 4 : 0);
        Assert.Equal(0.70m, Worked.BillOf(halves, meter, plan with { MeterMinutes = 60 }).Total);
        Assert.Equal(0m, Worked.BillOf(halves, meter, plan with { MeterMinutes = 60, NetsInsideMeterInterval = true }).Total);
    }

    [Theory]
    [InlineData(Settlement.Year)]
    [InlineData(Settlement.Carry)]
    public void Case16_CreditLapsesAtTheAnniversary_RetailNetting(Settlement settlement)
    {
        TariffVersion plan = Worked.Flat(new PricePart("energy", 0.20m)) with { Export = new ExportTerms.RetailNetting(false, settlement, 0m) };
        IReadOnlyList<Bill> bills = TwoJunes(plan, 600);
        // 600 kWh sold at 0.20: 120.00 of credit. It lapses with May; June buys 600 kWh for 120.00 and owes all of it.
        Assert.Equal(0m, bills.Take(12).Sum(b => b.Total));
        Assert.Equal(120.00m, bills.Take(12).SelectMany(b => b.Lines).Where(l => l.Kind is "settlement" or "credit").Sum(l => l.Amount));
        Assert.Equal(120.00m, bills[12].Total);
        // The loss is shown.
        if (settlement == Settlement.Year) Assert.Equal(120.00m, Assert.Single(bills[11].Lines, l => l.Name == "left-over dollars lapse").Amount);
    }

    [Theory]
    [InlineData(LeftOver.Lapses, "120.00")]
    [InlineData(LeftOver.RollsOver, "0.00")]
    public void Case16_CreditLapsesAtTheAnniversary_NetBilling(LeftOver yearEnd, string june)
    {
        TariffVersion plan = Worked.Flat(new PricePart("energy", 0.20m)) with { Export = NetBilling(0.20m) with { YearEnd = yearEnd } };
        IReadOnlyList<Bill> bills = TwoJunes(plan, 600);
        Assert.Equal(0m, bills.Take(12).Sum(b => b.Total));
        Assert.Equal(decimal.Parse(june, System.Globalization.CultureInfo.InvariantCulture), bills[12].Total);
    }

    [Fact]
    public void Case17_AllowanceOfTwoSeasons()
    {
        // 12 winter days at 10 kWh and 18 summer days at 14: allowance 372 kWh.
        TariffVersion plan = Worked.Flat() with
        {
            Seasons = [new Season("winter", new(10, 1), new(6, 12)), new Season("summer", new(6, 13), new(9, 30))],
            Tiers = new Tiers
            {
                AllowanceKwhPerDay = new Dictionary<string, double> { ["winter"] = 10, ["summer"] = 14 },
                Steps = [new TierStep(0, 0.10m), new TierStep(1, 0.30m)],
                CreditPerKwh = 0.02m,
            },
        };
        Bill bill = Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 1000), plan);
        Assert.Equal([372m, 628m, -372m], bill.Lines.Where(l => l.Kind == "tier").Select(l => decimal.Round(l.Quantity, 6)));
        Assert.Equal(37.20m + 188.40m - 7.44m, bill.Total);
    }

    [Fact]
    public void Case18_PeakFallsInTheBillOfItsDay()
    {
        // Reads on the 17th: a peak of 18 July belongs to the bill from 17 July.
        TimeAxis axis = Worked.Days(new(2025, 6, 17), 61);
        TariffVersion plan = Worked.Flat() with { Demand = [new DemandCharge { Name = "demand", Minutes = 60, PricePerKw = 1m }] };
        var account = new Account { ReadDates = [new(2025, 6, 17), new(2025, 7, 17), new(2025, 8, 17)] };
        BillSet bills = Worked.Bills(axis, Worked.Meter(axis, i => axis.LocalDateOf(i) == new LocalDate(2025, 7, 18) && axis.LocalMinuteOf(i) == 18 * 60 ? 9 : 1), account, plan);
        Assert.Equal([(new LocalDate(2025, 6, 17), 1m), (new LocalDate(2025, 7, 17), 9m)], bills.Bills.Select(b => (b.From, b.Total)));
        Assert.Equal([new LocalDate(2025, 7, 16), new LocalDate(2025, 8, 16)], bills.Bills.Select(b => b.To));
    }

    [Fact]
    public void Case19_PriceChangeInsideABill()
    {
        // 20 days at the old price, 10 at the new; 1 kW by day, 3 kW in the first hour of the new price's first day.
        TariffVersion old = Worked.Flat(new PricePart("energy", 0.20m));
        TariffVersion raised = Worked.Flat(new PricePart("energy", 0.30m)) with { Effective = new LocalDate(2025, 6, 21) };
        TimeAxis axis = Worked.June();
        Bill bill = Worked.BillOf(axis, Worked.Meter(axis, i => i == 480 ? 3 : 1), old, raised);
        Assert.Equal([(480m, 0.20m), (242m, 0.30m)], bill.Lines.Select(l => (l.Quantity, l.UnitPrice)));
        Assert.Equal(96.00m + 72.60m, bill.Total);
    }

    [Theory]
    [InlineData(30, "6.00", "10.50", "4.50")]
    [InlineData(60, "12.00", "12.00", null)]
    public void Case20_MinimumBill(double kwh, string chargeable, string total, string? topUp)
    {
        TariffVersion plan = Worked.Flat(new PricePart("energy", 0.20m)) with { Minimum = new MinimumBill(10.50m, 0, []) };
        Bill bill = Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), kwh), plan);
        string[] expected = topUp is null ? ["energy " + chargeable] : ["energy " + chargeable, "minimum " + topUp];
        Assert.Equal(expected, Worked.Lines(bill));
        Assert.Equal(decimal.Parse(total, System.Globalization.CultureInfo.InvariantCulture), bill.Total);
    }

    [Fact]
    public void Case21_TwoWay()
    {
        // TRADE.md §1.6, S20 (an Australian network's published example): 307 kWh in the charge window, 205 free, 102 charged 1.19; 52 kWh rewarded
        // 1.21; net −0.02. The prices are implied: of those with four places, 0.0117 alone gives 1.19; 0.0232 and 0.0233 both give 1.21.
        TariffVersion plan = Worked.Flat() with
        {
            Export = new ExportTerms.TwoWay
            {
                ChargeWindow = new ClockWindow(10 * 60, 15 * 60),
                ChargePerKwh = 0.0117m,
                FreeKwhPerBill = 205,
                RewardWindow = new ClockWindow(16 * 60, 21 * 60),
                RewardPerKwh = 0.0232m,
            },
        };
        TimeAxis axis = Worked.June();
        // 150 hours of each window; 10 kWh outside both, neither charged nor rewarded.
        Bill bill = Worked.BillOf(axis, Worked.Meter(axis, _ => 0, i => axis.LocalMinuteOf(i) switch
        {
            >= 600 and < 900 => 307 / 150.0,
            >= 960 and < 1260 => 52 / 150.0,
            _ => 10 / 420.0,
        }), plan);
        Assert.Equal(["export charge 1.19", "export -1.21"], Worked.Lines(bill));
        Assert.Equal([102m, -52m], bill.Lines.Select(l => l.Quantity));
        Assert.Equal(-0.02m, bill.Total);
    }

    [Fact]
    public void Case22_DemandCap()
    {
        // S8: earlier high 5, use 10, cap +3: billed 8, and 8 is the new high: the next bill, use 20, is billed 11.
        TariffVersion plan = Worked.Flat() with
        {
            Demand = [new DemandCharge { Name = "demand", Minutes = 60, PricePerKw = 1m, CapKw = 3, EarlierMeasuredKw = [5], EarlierBilledKw = [5] }],
        };
        TimeAxis axis = Worked.Days(new(2025, 6, 1), 61);
        BillSet bills = Worked.Bills(axis, Worked.Meter(axis, i => i switch { 100 => 10, 1000 => 20, _ => 0 }), null, plan);
        Assert.Equal([8m, 11m], bills.Bills.Select(b => Worked.Line(b, "demand").Quantity));
    }

    [Theory]
    [InlineData(false, "1.00")]
    [InlineData(true, "0.30")]
    public void Case23_Holiday(bool relief, string expected)
    {
        // 4 July 2025 is a Friday. S2: a residential plan without holiday relief has peak prices on it.
        Assert.Equal(IsoDayOfWeek.Friday, new LocalDate(2025, 7, 4).DayOfWeek);
        TariffVersion plan = Worked.PeakAndOff(new ClockWindow(16 * 60, 21 * 60), 1.00m, 0.30m, DayType.Weekday) with
        {
            Holidays = relief ? [new HolidayRule.Fixed(new(7, 4), HolidayMove.Nearest)] : [],
        };
        TimeAxis axis = Worked.Days(new(2025, 7, 1), 31);
        Bill bill = Worked.BillOf(axis, Worked.Meter(axis, i => axis.LocalDateOf(i) == new LocalDate(2025, 7, 4) && axis.LocalMinuteOf(i) == 17 * 60 ? 1 : 0), plan);
        Assert.Equal(decimal.Parse(expected, System.Globalization.CultureInfo.InvariantCulture), bill.Total);
    }

    private static ExportTerms.NetBilling NetBilling(decimal pricePerKwh) => new() { Prices = [new ExportPrice { Parts = [new PricePart("supply", pricePerKwh)] }] };

    // From June to June of the next year, settled on 1 June: so much is sold in the first June, as much bought in the second.
    private static IReadOnlyList<Bill> TwoJunes(TariffVersion plan, double kwh)
    {
        TimeAxis axis = Worked.Days(new(2025, 6, 1), 365 + 30);
        double kw = kwh / 720;
        BillSet bills = Worked.Bills(axis, Worked.Meter(axis, i => axis.LocalDateOf(i) is { Year: 2026, Month: 6 } ? kw : 0, i => axis.LocalDateOf(i) is { Year: 2025, Month: 6 } ? kw : 0),
            new Account { Anniversary = new LocalDate(2024, 6, 1) }, plan);
        Assert.Equal(13, bills.Bills.Count);
        return bills.Bills;
    }
}
