using CsCheck;
using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Studies;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Time;
using EnergySim.Wiring;

namespace EnergySim.Bound.Tests;

public class BoundStudyTests
{
    private static readonly Plant s_four = new() { HighestKwh = 4, ChargeLimitKw = 2, DischargeLimitKw = 2, InverterKw = 2 };

    private static SmallCase TwoPrices(Plant plant) => new()
    {
        LoadKw = [.. Enumerable.Repeat(1.0, 24)],
        SolarKw = new double[24],
        BuyPerKwh = [.. Enumerable.Range(0, 24).Select(h => h < 12 ? 0.10m : 0.30m)],
        SellPerKwh = new decimal[24],
        Plant = plant,
    };

    [Fact]
    public void Of_TwoPricesWithoutLosses_MovesTheWholeBattery()
    {
        // By hand: 12 × 0.10 + 12 × 0.30 = 4.80; 4 kWh bought at 0.10 instead of 0.30 save 0.80.
        SmallCase day = TwoPrices(s_four);
        Assert.Equal(day.Fixed + 4.00, BoundStudy.Of(day.Run(), day.Calendar).Bill, 1e-6);
    }

    [Fact]
    public void Of_TwoPricesWithLosses_PaysForThem()
    {
        // By hand: 4 kWh stored give 4 × 0.9 × 0.95 = 3.42 kWh to the house, and take 4 / (0.9 × 0.95) = 4.678… kWh from the grid.
        SmallCase day = TwoPrices(s_four with { ChargeEfficiency = 0.9, DischargeEfficiency = 0.9, InverterEfficiency = 0.95, RectifierEfficiency = 0.95 });
        double saved = (3.42 * 0.30) - (4 / (0.9 * 0.95) * 0.10);
        Assert.Equal(day.Fixed + 4.80 - saved, BoundStudy.Of(day.Run(), day.Calendar).Bill, 1e-6);
    }

    [Fact]
    public void Of_TwoPricesTooNear_LeavesTheBatteryAlone()
    {
        // TRADE.md §6.2, case 7: arbitrage pays only where the low price is below the high price × round-trip efficiency.
        SmallCase day = TwoPrices(s_four with { ChargeEfficiency = 0.9, DischargeEfficiency = 0.9 }) with { BuyPerKwh = [.. Enumerable.Range(0, 24).Select(h => h < 12 ? 0.25m : 0.30m)] };
        Assert.Equal(day.Fixed + (12 * 0.25) + (12 * 0.30), BoundStudy.Of(day.Run(), day.Calendar).Bill, 1e-6);
    }

    [Fact]
    public void Of_SellingDearerThanBuying_DoesNotBuyAndSellAtOnce()
    {
        // One meter has one direction: at 0.50 to sell and 0.10 to buy the house's own 1 kW can not be bought while 2 kW are sold.
        SmallCase day = TwoPrices(s_four) with { SellPerKwh = [.. Enumerable.Range(0, 24).Select(h => h == 18 ? 0.50m : 0.0m)] };
        BoundResult bound = BoundStudy.Of(day.Run(), day.Calendar);
        // By hand: 4 kWh are bought at 0.10; at 18 h 1 kWh saves 0.30 and 1 kWh earns 0.50; 2 kWh save 0.30 each. 4.80 + 0.40 − 0.80 − 0.60.
        Assert.Equal(day.Fixed + 3.80, (double)bound.ReplayBill, 1e-6);
        // One hour can sell no more than the inverter gives above the house, and then buys nothing.
        Assert.Equal(day.Fixed + 3.80, bound.Bill, 1e-6);
    }

    [Fact]
    public void Of_TenCases_AgreesWithADynamicProgramme() => FixedSeed.Check(Cases(losses: true), 10, day =>
    {
        double expected = DynamicProgramme.LeastCost(day, startKwh: 1, grainKwh: 0.125);
        BoundResult bound = BoundStudy.Of(day.Run(startKwh: 1), day.Calendar, IntegrityRule.None, startKwh: 1, leastEndKwh: 1);
        Assert.Equal(expected, bound.Bill, 1e-6 * expected);
    });

    [Fact]
    public void Of_OneProgramme_IsTheSameWithOtherSolvers() => FixedSeed.Check(Gen.Select(Cases(losses: true), Gen.Int[0, Terms.Count - 1]), 40, drawn =>
    {
        (SmallCase day, int terms) = drawn;
        var calendar = new TariffCalendar(day.Tariff with { Versions = [Terms[terms](day.Tariff.Versions[0])] }, day.Axis);
        (Programme programme, _) = BoundStudy.Build(day.Run(), calendar, IntegrityRule.None, null, 0);
        double[]? own = InteriorPoint.Solve(programme);
        Assert.NotNull(own);
        foreach (string solver in (string[])[Solver.InteriorPoints, Solver.Simplex])
        {
            double other = programme.Objective.ValueIn(Solver.Solve(programme, solver)!);
            Assert.Equal(other, programme.Objective.ValueIn(own), 1e-8 * (1 + Math.Abs(other)));
        }
    });

    [Fact]
    public void NoStrategy_IsBelowItsBound_UnderAnyTerms()
    {
        int replayed = 0;
        int asked = FixedSeed.Check(
        Gen.Select(Cases(losses: true), Gen.Int[0, Terms.Count - 1], Gen.Int[0, Strategies.Count - 1], Gen.Int[0, Wirings.Count - 1]), 240, drawn =>
    {
        (SmallCase day, int terms, int told, int wiring) = drawn;
        day = day with { Site = Wirings[wiring] };
        var calendar = new TariffCalendar(day.Tariff with { Versions = [Terms[terms](day.Tariff.Versions[0])] }, day.Axis);
        Strategy strategy = Strategies[told];
        Run like = day.Run();
        Run run = day.Run(StrategyCompiler.Compile(strategy, like, like.SolarAc, calendar));
        RunSums sums = run.Sums();
        double bill = (double)Biller.Bill(MeterSums.Of(calendar, sums.Meter)).Bills.Sum(b => b.Unrounded);
        BoundResult bound = BoundStudy.Of(run, calendar, strategy.Integrity, sums.StartKwh, sums.EndKwh);
        // Credits are rounded to the cent when earned.
        Assert.True(bound.Bill <= bill + 0.02, $"terms {terms}, strategy {told}, wiring {wiring}: {bound.Bill} above {bill}");
        // A replay that a guard kept from ending as full has not done the same work.
        if (bound.Replay.Sums().EndKwh < bound.EndKwh - 1e-6) return;
        replayed++;
        Assert.True(bound.Bill <= (double)bound.ReplayBill + 0.02, $"terms {terms}, wiring {wiring}: replay {bound.ReplayBill} below {bound.Bill}");
    });
        Assert.True(replayed >= 200 * asked / 240, $"{replayed} of {asked} replayed");
    }

    [Fact]
    public void Of_NewPricesWithinOneRegime_KeepTheCreditAsTheBillsDo()
    {
        // Without a battery the bound is the bill. The first bill sells far more than it can pay with; prices change before the second.
        SmallCase day = TwoPrices(new Plant { HighestKwh = 0 }) with
        {
            LoadKw = [.. Enumerable.Repeat(1.0, 72)],
            SolarKw = [.. Enumerable.Range(0, 72).Select(h => h < 48 ? 8.0 : 0)],
            SellPerKwh = [.. Enumerable.Repeat(0.08m, 24)],
        };
        TariffVersion first = day.Tariff.Versions[0] with { FixedPerDay = 0.5m };
        ExportTerms newPrice = new ExportTerms.NetBilling { Prices = [new ExportPrice { Parts = [new PricePart("energy", 0.05m)] }] };
        var tariff = day.Tariff with { Versions = [first, first with { Effective = new NodaTime.LocalDate(2025, 6, 4), Export = newPrice }] };
        var account = new Account { ReadDates = [new NodaTime.LocalDate(2025, 6, 2), new NodaTime.LocalDate(2025, 6, 4), new NodaTime.LocalDate(2025, 6, 5)] };
        var calendar = new TariffCalendar(tariff, day.Axis, account);
        double bill = (double)Biller.Bill(MeterSums.Of(calendar, day.Run().Sums().Meter)).Total;
        Assert.Equal(0, bill, 1e-9);
        Assert.Equal(bill, BoundStudy.Of(day.Run(), calendar).Bill, 1e-6);
    }

    [Fact]
    public void BiggerBattery_IsNeverWorse() => FixedSeed.Check(Cases(losses: true), 20, day =>
    {
        double before = double.PositiveInfinity;
        foreach (int units in (int[])[1, 2, 4])
        {
            SmallCase grown = day with
            {
                Plant = day.Plant with { HighestKwh = units * day.Plant.HighestKwh, ChargeLimitKw = units * day.Plant.ChargeLimitKw, DischargeLimitKw = units * day.Plant.DischargeLimitKw, InverterKw = units * day.Plant.InverterKw },
            };
            double bill = BoundStudy.Of(grown.Run(), grown.Calendar).Bill;
            Assert.True(bill <= before + 1e-6);
            before = bill;
        }
    });

    /// <summary>Three days with whole kW, so that a grid of levels holds the cheapest operation.</summary>
    private static Gen<SmallCase> Cases(bool losses) =>
        from load in Gen.Int[0, 4].Array[72]
        from sun in Gen.Int[0, 5].Array[72]
        from buy in Gen.Int[1, 9].Array[24]
        from sell in Gen.Double[0, 1].Array[24]
        from power in Gen.Int[1, 3]
        from capacity in Gen.Int[2, 6]
        from lossy in Gen.Bool
        select new SmallCase
        {
            LoadKw = [.. load.Select(l => (double)l)],
            SolarKw = [.. sun.Select((s, i) => i % 24 is >= 8 and < 17 ? s : 0.0)],
            BuyPerKwh = [.. buy.Select(p => 0.05m * p)],
            // Never dearer to sell than to buy.
            SellPerKwh = [.. sell.Select((s, h) => Math.Round(0.05m * buy[h] * (decimal)s, 2, MidpointRounding.ToZero))],
            Plant = new Plant
            {
                HighestKwh = capacity,
                ChargeLimitKw = power,
                DischargeLimitKw = power,
                InverterKw = power,
                DischargeEfficiency = lossy && losses ? 0.5 : 1,
            },
        };

    private static readonly IReadOnlyList<Func<TariffVersion, TariffVersion>> Terms =
    [
        v => v,
        v => v with { Export = new ExportTerms.Nothing() },
        v => v with { Export = new ExportTerms.RetailNetting(false, Settlement.Year, 0.02m) },
        v => v with { Export = new ExportTerms.RetailNetting(false, Settlement.Carry, 0) },
        v => v with { Export = new ExportTerms.MonthlyNetting(0.01m, false, 0) },
        v => v with { Export = new ExportTerms.MonthlyNetting(null, false, 0.01m) },
        v => v with
        {
            Export = new ExportTerms.TwoWay
            {
                ChargeWindow = new ClockWindow(600, 840), ChargePerKwh = 0.02m, FreeKwhPerBill = 3, RewardWindow = new ClockWindow(960, 1200), RewardPerKwh = 0.04m,
            },
        },
        v => v with { Export = new ExportTerms.SellAll(0.04m) },
        v => v with { Tiers = new Tiers { AllowanceKwhPerBill = 40, Steps = [new TierStep(0, 0m), new TierStep(1, 0.05m), new TierStep(2, 0.10m)] } },
        v => v with { Tiers = new Tiers { AllowanceKwhPerBill = 60, CreditPerKwh = 0.02m } },
        v => v with { Demand = [new DemandCharge { Name = "top", Minutes = 60, PricePerKw = 4 }, new DemandCharge { Name = "evening", Minutes = 60, PricePerKw = 2, Window = new ClockWindow(960, 1260) }] },
        v => v with { Events = new EventCharge([new NodaTime.LocalDate(2025, 6, 3)], 0.5m, new ClockWindow(960, 1200)), FixedPerDay = 1, Minimum = new MinimumBill(12, 0, []) },
        v => v with { FixedPerDay = 1, Percentages = [new Percentage("levy", 0.05m, []), new Percentage("discount", -0.1m, ["energy"])] },
        v => v with
        {
            FixedPerDay = 1,
            Export = new ExportTerms.NetBilling { Prices = [new ExportPrice { Parts = [new PricePart("a", 0.03m), new PricePart("b", 0.01m)] }], Pays = [new CreditUse("a", ["energy"]), new CreditUse("b", ["fixed"])] },
        },
    ];

    private static readonly IReadOnlyList<Strategy> Strategies =
    [
        new() { Base = Steering.SelfUse },
        new() { Base = Steering.Hold },
        new() { Base = Steering.PeakWindow, PeakWindows = [new ClockWindow(960, 1260)], Overnight = new OvernightCharge(new ClockWindow(0, 300), 0.8) },
        new() { Base = Steering.SelfUse, Integrity = IntegrityRule.SolarOnly, ReserveFraction = 0 },
        new() { Base = Steering.SelfUse, Integrity = IntegrityRule.NeverExports, ReserveFraction = 0, Overnight = new OvernightCharge(new ClockWindow(0, 180), 1) },
        new() { Base = Steering.DemandShaving, ShaveToKw = 2, RefillFraction = 0.5, ReserveFraction = 0 },
        new() { Base = Steering.PeakWindow, PeakWindows = [new ClockWindow(960, 1260)], Sale = new BatterySale(new ClockWindow(1080, 1200), 0.2), ReserveFraction = 0.1 },
        new() { Base = Steering.PeakWindow, PeakWindows = [new ClockWindow(960, 1260)], KeepsForDearest = true, Overnight = new OvernightCharge(new ClockWindow(0, 300), 1, 2), ReserveFraction = 0 },
        new() { Base = Steering.SelfUse, SellsByPrice = true, Overnight = new OvernightCharge(new ClockWindow(60, 240), 0.9), ReserveFraction = 0 },
        new() { Base = Steering.SelfUse, SellsByPrice = true, Overnight = new OvernightCharge(new ClockWindow(1380, 240), 0.9, 1), Events = new EventResponse(3, 1), ReserveFraction = 0.1 },
        new() { Base = Steering.DemandShaving, ShaveToKw = 1, RefillFraction = 0.8, Ratchets = true, ReserveFraction = 0 },
        new() { Base = Steering.SelfUse, Storm = new StormPreparation([], 1) { LeadHours = 5, Dark = new DarkAhead(1, 0.6) }, Events = new EventResponse(0, 0) },
    ];

    private static readonly IReadOnlyList<SiteLimits> Wirings =
    [
        new(),
        new() { InverterBreakerKw = 1.5, ExportKw = 1 },
        new() { ImportKw = 3, ExportKw = 0, RelievesImport = false },
        new() { BusbarKw = 3 },
    ];
}
