using CsCheck;
using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Studies;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Bound.Tests;

/// <summary>
/// Mechanics that are no linear charge, on random days, each day a bill: caps, tiers by period or falling, credit that lapses, pays by order or is
/// owed, nets over unlike periods. The bill of a strategy is worked out by the biller, which shares no code with the programme.
/// </summary>
public class MechanicBoundTests
{
    // Cents that bills round and the programme does not: three bills of some lines.
    private const double Cents = 0.09;

    public static TheoryData<string> Mechanics => [.. s_mechanics.Keys];

    [Theory]
    [MemberData(nameof(Mechanics))]
    public void NoStrategy_IsBelowTheBound(string mechanic)
    {
        int exact = 0, replayed = 0;
        int asked = FixedSeed.Check(Gen.Select(s_days, Gen.Int[0, s_strategies.Length - 1].Select(i => s_strategies[i])), 16, drawn =>
        {
            (SmallCase day, Strategy strategy) = drawn;
            TariffCalendar calendar = CalendarOf(day, mechanic);
            Run like = day.Run();
            Run run = day.Run(StrategyCompiler.Compile(strategy, like, like.SolarAc, calendar));
            RunSums sums = run.Sums();
            BoundResult bound = BoundStudy.Of(run, calendar, strategy.Integrity, sums.StartKwh, sums.EndKwh);
            double bill = BillOf(sums, calendar);
            Assert.True(bound.Bill <= bill + Cents, $"{bound.Bill} above {bill}");
            if (bound.Replay.Sums().EndKwh < bound.EndKwh - 1e-6) return;
            replayed++;
            Assert.True(bound.Bill <= (double)bound.ReplayBill + Cents, $"replay {bound.ReplayBill} below {bound.Bill}");
            if (bound.LeftOpen.Count > 0 || bound.SimultaneousKwh > 1e-3) return;
            exact++;
            Assert.Equal(bound.Bill, (double)bound.ReplayBill, Cents + (0.001 * Math.Abs(bound.Bill)));
        });
        Assert.True(replayed >= 12 * asked / 16, $"{replayed} of {asked} replayed");
        if (!s_mayBeOpen.Contains(mechanic)) Assert.True(exact >= 10 * asked / 16, $"{exact} of {asked} exact");
    }

    [Theory]
    [MemberData(nameof(Mechanics))]
    public void NoBattery_IsTheBillAsItIs(string mechanic) => FixedSeed.Check(s_days, 6, day =>
    {
        SmallCase bare = day with { Plant = new Plant { HighestKwh = 0 } };
        TariffCalendar calendar = CalendarOf(bare, mechanic);
        BoundResult bound = BoundStudy.Of(bare.Run(), calendar);
        double bill = BillOf(bare.Run().Sums(), calendar);
        if (s_mayBeOpen.Contains(mechanic)) Assert.True(bound.Bill <= bill + Cents);
        else Assert.Equal(bill, bound.Bill, Cents);
    });

    [Theory]
    [MemberData(nameof(Mechanics))]
    public void BiggerBattery_IsNeverWorse(string mechanic) => FixedSeed.Check(s_days, 6, day =>
    {
        TariffCalendar calendar = CalendarOf(day, mechanic);
        BoundResult one = BoundStudy.Of(day.Run(), calendar, startKwh: 0), two = BoundStudy.Of((day with { Plant = Doubled(day.Plant) }).Run(), calendar, startKwh: 0);
        if (one.LeftOpen.Count == 0) Assert.True(two.Bill <= one.Bill + Cents, $"{two.Bill} above {one.Bill}");
    });

    private static Plant Doubled(Plant plant) => plant with
    {
        HighestKwh = 2 * plant.HighestKwh,
        ChargeLimitKw = 2 * plant.ChargeLimitKw,
        DischargeLimitKw = 2 * plant.DischargeLimitKw,
        InverterKw = 2 * plant.InverterKw,
    };

    private static double BillOf(RunSums sums, TariffCalendar calendar) => (double)Biller.Bill(MeterSums.Of(calendar, sums.Meter)).Bills.Sum(b => b.Unrounded);

    private static TariffCalendar CalendarOf(SmallCase day, string mechanic) => new(
        day.Tariff with { Versions = [s_mechanics[mechanic](s_plan)] }, day.Axis,
        new Account { ReadDates = [.. Enumerable.Range(2, 4).Select(d => new LocalDate(2025, 6, d))] });

    private static readonly Gen<SmallCase> s_days =
        from load in Gen.Double[0, 4].Array[72]
        from sun in Gen.Double[0, 6].Array[72]
        from power in Gen.Int[1, 3]
        from capacity in Gen.Int[2, 8]
        select new SmallCase
        {
            LoadKw = load,
            SolarKw = [.. sun.Select((s, i) => i % 24 is >= 8 and < 17 ? s : 0.0)],
            BuyPerKwh = new decimal[24],
            SellPerKwh = new decimal[24],
            Plant = new Plant
            {
                HighestKwh = capacity,
                ChargeLimitKw = power,
                DischargeLimitKw = power,
                InverterKw = power,
                ChargeEfficiency = 0.95,
                DischargeEfficiency = 0.95,
            },
        };

    private static readonly TariffVersion s_plan = new()
    {
        Effective = new LocalDate(2025, 1, 1),
        Periods = [new PeriodRule("low") { Window = new ClockWindow(0, 1020) }, new PeriodRule("high") { Window = new ClockWindow(1020, 1440) }],
        EnergyPrices = [new EnergyPrice { Period = "low", Parts = [new PricePart("energy", 0.12m)] }, new EnergyPrice { Period = "high", Parts = [new PricePart("energy", 0.30m)] }],
        FixedPerDay = 0.5m,
        Export = Sold((11, 0.05m)),
    };

    private static ExportTerms.NetBilling Sold(params (int Hour, decimal Price)[] prices) => new()
    {
        Prices = [.. prices.Select(p => new ExportPrice { Hour = p.Hour, Parts = [new PricePart("credit of export", p.Price)] }), new ExportPrice { Parts = [new PricePart("credit of export", 0.09m)] }],
    };

    private static readonly Dictionary<string, Func<TariffVersion, TariffVersion>> s_mechanics = new()
    {
        ["cap on demand"] = v => v with { Demand = [new DemandCharge { Name = "top", Minutes = 60, PricePerKw = 0.6m, CapKw = 0.8, EarlierBilledKw = [1.5] }] },
        ["cap and ratchet"] = v => v with
        {
            Demand = [new DemandCharge { Name = "top", Minutes = 60, PricePerKw = 0.6m, CapKw = 0.5, RatchetBills = 2, RatchetFraction = 0.8, EarlierMeasuredKw = [3], EarlierBilledKw = [2] }],
        },
        ["falling tiers"] = v => v with { Tiers = new Tiers { AllowanceKwhPerBill = 20, Steps = [new TierStep(0, 0.10m), new TierStep(1, 0.04m)] } },
        ["tiers by period"] = v => v with { Tiers = ByPeriod },
        ["tiers by period, netted"] = v => v with { Tiers = ByPeriod, Export = new ExportTerms.RetailNetting(false, Settlement.Year, 0.02m) },
        ["credit under an allowance, netted"] = v => v with
        {
            Tiers = new Tiers { AllowanceKwhPerBill = 20, CreditPerKwh = 0.03m },
            Export = new ExportTerms.RetailNetting(true, Settlement.Carry, 0.02m, 1),
        },
        ["netting over unlike periods, sold"] = v => v with { Export = new ExportTerms.MonthlyNetting(0.04m, true, 0) },
        ["netting over unlike periods, kept"] = v => v with { Export = new ExportTerms.MonthlyNetting(null, true, 0.01m) },
        ["surplus above retail"] = v => v with { Export = new ExportTerms.MonthlyNetting(0.20m, false, 0) },
        ["kWh kept for one bill"] = v => v with { Export = new ExportTerms.MonthlyNetting(null, false, 0.01m, 1) },
        ["carried credit that lapses, minimum"] = v => v with
        {
            Export = new ExportTerms.RetailNetting(false, Settlement.Carry, 0.02m, 1),
            Minimum = new MinimumBill(0.8m, 0, ["energy", "credit", "fixed"]),
        },
        ["credit that lapses"] = v => v with { Export = Sold((13, 0.02m)) with { CreditLastsBills = 0 } },
        ["credit that lapses after a bill"] = v => v with { Export = Sold((13, 0.02m)) with { CreditLastsBills = 1, CashOutFraction = 0.5m } },
        ["credit below zero"] = v => v with { Export = Sold((12, -0.20m), (13, -0.40m)) },
        ["credit below zero, paid out"] = v => v with { Export = Sold((12, -0.20m), (13, -0.40m)) with { CashOutFraction = 0.6m, Pays = [new CreditUse("*", ["energy"])] } },
        ["credit pays a minimum"] = v => v with { Export = Sold((12, 0.01m)), Minimum = new MinimumBill(1.2m, 0, []) },
    };

    // Shares in proportion are no choice between two sides; credit below a minimum may take more tries than are made.
    private static readonly string[] s_mayBeOpen =
        ["tiers by period", "tiers by period, netted", "netting over unlike periods, sold", "netting over unlike periods, kept", "carried credit that lapses, minimum", "credit pays a minimum"];

    private static Tiers ByPeriod => new()
    {
        AllowanceKwhPerBill = 18,
        Steps = [new TierStep(0, 0m), new TierStep(1, null, new Dictionary<string, decimal> { ["low"] = 0.03m, ["high"] = 0.08m })],
    };

    private static readonly Strategy[] s_strategies =
    [
        new() { Base = Steering.SelfUse, ReserveFraction = 0 },
        new() { Base = Steering.Hold },
        new() { Base = Steering.PeakWindow, PeakWindows = [new ClockWindow(1020, 1440)], Overnight = new OvernightCharge(new ClockWindow(0, 300), 0.8), ReserveFraction = 0 },
        new() { Base = Steering.DemandShaving, ShaveToKw = 2, RefillFraction = 0.5, ReserveFraction = 0 },
        new() { Base = Steering.PeakWindow, PeakWindows = [new ClockWindow(1020, 1260)], Sale = new BatterySale(new ClockWindow(1080, 1200), 0.1), ReserveFraction = 0 },
        new() { Base = Steering.SelfUse, Integrity = IntegrityRule.SolarOnly, ReserveFraction = 0 },
    ];
}
