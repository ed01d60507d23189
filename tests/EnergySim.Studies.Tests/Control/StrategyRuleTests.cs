using CsCheck;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Studies.Tests.Control;

/// <summary>Days worked by hand, one or more a rule; the rules themselves are common practice.</summary>
public class StrategyRuleTests
{
    private const double Never = double.PositiveInfinity;
    private const int Days = 24;

    // Monday 2 June 2025 on, hours of UTC.
    private static readonly TimeAxis s_axis = new(DateTimeZone.Utc, Instant.FromUtc(2025, 6, 2, 0, 0), 60, 24 * Days);

    private static readonly Plant s_ten = new() { HighestKwh = 10, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5 };

    private static readonly ClockWindow s_night = new(0, 300), s_peak = new(960, 1260);

    [Fact]
    public void KeepsForDearest_WhereEnergyIsShort_ServesTheDearestHoursFirst()
    {
        // 16–18 h cost 0.30, 18–20 h 0.60, 20–21 h 0.30; the house takes 3 kW, so 6 kWh are kept for the two dear hours.
        decimal[] buy = Prices(0.10m, (16, 0.30m), (17, 0.30m), (18, 0.60m), (19, 0.60m), (20, 0.30m));
        Strategy plain = new() { Base = Steering.PeakWindow, PeakWindows = [s_peak], ReserveFraction = 0, Overnight = new OvernightCharge(s_night, 1) };
        Ledger dearest = Run(plain with { KeepsForDearest = true }, _ => 3, _ => 0, buy).Ledger(), first = Run(plain, _ => 3, _ => 0, buy).Ledger();
        Assert.Equal([0, 2, 0, 0, 3], Evening(dearest, 10));
        Assert.Equal([0, 0, 0, 2, 3], Evening(first, 10));
    }

    [Theory]
    // The peak's five hours at 1 kW, above the reserve of 2.
    [InlineData(0.9, 0, 7)]
    // The sun leaves 2 kWh over between noon and two: so much less is bought.
    [InlineData(0.9, 2, 5)]
    [InlineData(0.6, 0, 6)]
    public void Overnight_ToWhatIsExpected_BuysTheComingDeficit(double most, double sunKw, double levelKwh)
    {
        Strategy strategy = new() { Base = Steering.PeakWindow, PeakWindows = [s_peak], Overnight = new OvernightCharge(s_night, most, 3) };
        SetPoints told = Compile(strategy, _ => 1, i => i % 24 is 12 or 13 ? sunKw : 0, Prices(0.10m));
        Assert.Equal(new SetPointRow(2, 10, levelKwh, Never, Never), told[(24 * 10) + 2]);
        Assert.Equal(0, told[(24 * 10) + 5].GridCeilingKwh);
        // Without a past nothing is expected.
        Assert.Equal(2, told[2].GridCeilingKwh);
    }

    [Fact]
    public void Overnight_OfLikeDays_AsksWorkingDaysForAWorkingDay()
    {
        // 2 kW on weekends from Saturday 7 June, else 1 kW. Monday 16 June asks Fridays and before, not the weekend.
        SetPoints told = Compile(
            new Strategy { Base = Steering.PeakWindow, PeakWindows = [s_peak], ReserveFraction = 0, Overnight = new OvernightCharge(s_night, 1, 2) }, i => i / 24 % 7 >= 5 ? 2 : 1, _ => 0, Prices(0.10m));
        Assert.Equal((5, 10), (told[24 * 14].GridCeilingKwh, told[24 * 12].GridCeilingKwh));
    }

    [Fact]
    public void Ratchet_WhenTheLevelIsBroken_RisesUntilTheBillEnds()
    {
        // 4 kWh, filled within 3 kW in two hours; 7 kW for two hours empty it after the first. From then on 7 kW are held: one kW beside 6 fills, and serves the 8.
        double[] load = [1, 1, 1, 7, 7, 6, 8, 1];
        Strategy strategy = new() { Base = Steering.DemandShaving, ShaveToKw = 3, RefillFraction = 1, Ratchets = true, ReserveFraction = 0 };
        Run like = Like(s_ten with { HighestKwh = 4 }, i => i % 48 < load.Length ? load[i % 48] : 1, _ => 0);
        TariffCalendar calendar = Calendar(Prices(0.10m), reads: [new LocalDate(2025, 6, 2), new LocalDate(2025, 6, 4), new LocalDate(2025, 6, 26)]);
        SetPoints told = StrategyCompiler.Compile(strategy, like, null, calendar);
        Assert.Equal([3, 3, 3, 3, 3, 7, 7, 7], Enumerable.Range(0, 8).Select(i => told[i].ImportTargetKw));
        Assert.Equal((7, 3), (told[47].ImportTargetKw, told[48].ImportTargetKw));
        var run = new Run(like.Load, null, null, like.Plant, like.Site, told, 0);
        Assert.Equal([3, 3, 1, 3, 7, 7, 7, 5], run.Ledger()[LedgerColumn.ImportKw][..8].ToArray(), (a, b) => Math.Abs(a - b) < 1e-9);
    }

    [Fact]
    public void Ratchet_OutsideTheHoursOfDemand_OnlyCharges()
    {
        var demand = new DemandCharge { Name = "evening", Minutes = 60, PricePerKw = 5, Window = s_peak };
        SetPoints told = StrategyCompiler.Compile(
            new Strategy { Base = Steering.DemandShaving, ShaveToKw = 2, RefillFraction = 1, Ratchets = true }, Like(s_ten, _ => 1, _ => 0), null, Calendar(Prices(0.10m), v => v with { Demand = [demand] }));
        Assert.Equal([Never, 2, 2, Never], ((int[])[15, 16, 20, 21]).Select(h => told[h].ImportTargetKw));
    }

    [Fact]
    public void Events_AreFilledForAndServed()
    {
        var called = new EventCharge([new LocalDate(2025, 6, 5)], 0.5m, new ClockWindow(960, 1200));
        Strategy strategy = new() { Base = Steering.Hold, ReserveFraction = 0.1, Events = new EventResponse(3, 0.8) };
        SetPoints told = StrategyCompiler.Compile(strategy, Like(s_ten, _ => 1, _ => 0), null, Calendar(Prices(0.10m), v => v with { Events = called }));
        SetPointRow hold = new(10, 10, 0, Never, Never);
        Assert.Equal([hold, hold with { GridCeilingKwh = 8 }, hold with { GridCeilingKwh = 8 }, new(1, 10, 0, 0, Never), new(1, 10, 0, 0, Never), hold], ((int[])[12, 13, 15, 16, 19, 20]).Select(h => told[72 + h]));
    }

    [Fact]
    public void Storm_OfDarkDaysAhead_IsFilledForInTime()
    {
        // Sunny but for a single dark day (10 June) and two in a row (16 and 17 June); noon of 15 June to the end of 17 June is kept full.
        static double Sun(int i) => (i % 24 is >= 8 and < 16 ? 4 : 0) * (i / 24 is 8 or 14 or 15 ? 0.2 : 1);
        Strategy strategy = new() { Base = Steering.SelfUse, Storm = new StormPreparation([], 1) { LeadHours = 12, Dark = new DarkAhead(2, 0.3) } };
        SetPoints told = Compile(strategy, _ => 1, Sun, Prices(0.10m));
        int[] full = [.. Enumerable.Range(0, s_axis.Count).Where(i => told[i] == new SetPointRow(10, 10, 10, Never, Never))];
        Assert.Equal(Enumerable.Range((24 * 13) + 12, 60), full);
    }

    [Fact]
    public void Storm_OfSeveralDates_HoldsInEachFromItsLeadOn()
    {
        Interval Storm(int day) => new(s_axis.Start + Duration.FromDays(day), s_axis.Start + Duration.FromDays(day) + Duration.FromHours(6));
        SetPoints told = Compile(new Strategy { Base = Steering.SelfUse, Storm = new StormPreparation([Storm(2), Storm(5)], 0.9) { LeadHours = 4 } }, _ => 1, _ => 0, Prices(0.10m));
        Assert.Equal([.. Enumerable.Range(44, 10), .. Enumerable.Range(116, 10)], Enumerable.Range(0, s_axis.Count).Where(i => told[i].FloorKwh == 9));
    }

    [Theory]
    // 0.50 at seven beats 0.30 for the house later, and the night's 0.10 fills up again: all above the reserve is sold.
    [InlineData(0.50, 0.10, 2)]
    // 0.25 does not beat 0.30: the four hours until midnight keep 4 kWh.
    [InlineData(0.25, 0.10, 6)]
    // Filling up again costs more than the sale brings.
    [InlineData(0.25, 0.26, Never)]
    public void SellsByPrice_SellsWhatNoLaterHourUsesBetter(double pays, double night, double downKwh)
    {
        decimal[] buy = [.. Enumerable.Range(0, 24).Select(h => h < 4 ? (decimal)night : 0.30m)], sell = Prices(0.05m, (19, (decimal)pays));
        SetPoints told = Compile(new Strategy { Base = Steering.SelfUse, SellsByPrice = true, Overnight = new OvernightCharge(new ClockWindow(0, 240), 1) }, _ => 1, _ => 0, buy, sell);
        Assert.Equal(downKwh, told[(24 * 9) + 19].SellDownKwh);
        Assert.All(Enumerable.Range(0, s_axis.Count).Where(i => i % 24 != 19), i => Assert.Equal(Never, told[i].SellDownKwh));
    }

    [Fact]
    public void SellsByPrice_WhereTheSunFillsUpAtTheSamePrice_DoesNotSell() =>
        // What is sold by night for 0.08 the sun would have earned by day.
        Assert.All(Compile(new Strategy { Base = Steering.SelfUse, SellsByPrice = true }, _ => 1, i => i % 24 is >= 9 and < 15 ? 5 : 0, Prices(0.30m), Prices(0.08m)).Rows.ToArray(), r => Assert.Equal(Never, r.SellDownKwh));

    [Fact]
    public void NoRule_SeesTheFuture() => FixedSeed.Check(
        Gen.Select(Gen.Double[0, 4].Array[s_axis.Count], Gen.Double[0, 5].Array[s_axis.Count], Gen.Double[0, 6].Array[s_axis.Count], Gen.Int[1, Days - 6], Gen.Int[0, Rules.Count - 1]), 100, drawn =>
    {
        // TRADE.md §6.2, case 8: when tomorrow's data are altered, today's decisions are unchanged. A forecast of dark days sees as far as it says.
        (double[] load, double[] sun, double[] other, int day, int rule) = drawn;
        Strategy strategy = Rules[rule];
        int cut = 24 * day, ahead = strategy.Storm?.Dark is DarkAhead dark ? (int)strategy.Storm.LeadHours + (24 * (dark.Days + 1)) : 0;
        decimal[] buy = Prices(0.20m, (17, 0.30m), (18, 0.50m)), sell = Prices(0.05m, (19, 0.40m));
        SetPoints told = Compile(strategy, i => load[i], i => sun[i], buy, sell);
        SetPoints altered = Compile(strategy, i => i < cut ? load[i] : other[i], i => i < cut ? sun[i] : other[^(i + 1)], buy, sell);
        // A day is decided at its first minute, the level that ratchets in the interval itself.
        int decided = strategy.Storm is not null ? cut - ahead : strategy.Ratchets ? cut + 1 : cut + 24;
        for (int i = 0; i < decided; i++) Assert.Equal(told[i], altered[i]);
        told.CheckNoCycling();
    });

    private static IReadOnlyList<Strategy> Rules { get; } =
    [
        new() { Base = Steering.PeakWindow, PeakWindows = [s_peak], KeepsForDearest = true },
        new() { Base = Steering.PeakWindow, PeakWindows = [s_peak], Overnight = new OvernightCharge(s_night, 1, 4) },
        new() { Base = Steering.SelfUse, Overnight = new OvernightCharge(new ClockWindow(1320, 300), 1, 2), SellsByPrice = true },
        new() { Base = Steering.DemandShaving, ShaveToKw = 1, RefillFraction = 0.5, SellsByPrice = true },
        new() { Base = Steering.DemandShaving, ShaveToKw = 1, RefillFraction = 0.5, Ratchets = true },
        new() { Base = Steering.SelfUse, Storm = new StormPreparation([], 1) { LeadHours = 10, Dark = new DarkAhead(2, 0.9) } },
    ];

    private static decimal[] Prices(decimal always, params (int Hour, decimal Price)[] others)
    {
        decimal[] prices = [.. Enumerable.Repeat(always, 24)];
        foreach ((int hour, decimal price) in others) prices[hour] = price;
        return prices;
    }

    private static TariffCalendar Calendar(decimal[] buy, Func<TariffVersion, TariffVersion>? terms = null, decimal[]? sell = null, IReadOnlyList<LocalDate>? reads = null)
    {
        var version = new TariffVersion
        {
            Effective = new LocalDate(2025, 1, 1),
            Periods = [.. Enumerable.Range(0, 24).Select(h => new PeriodRule($"h{h:00}") { Window = new ClockWindow(60 * h, 60 * (h + 1)) })],
            EnergyPrices = [.. Enumerable.Range(0, 24).Select(h => new EnergyPrice { Period = $"h{h:00}", Parts = [new PricePart("energy", buy[h])] })],
            Export = new ExportTerms.NetBilling { Prices = [.. Enumerable.Range(0, 24).Select(h => new ExportPrice { Period = $"h{h:00}", Parts = [new PricePart("energy", sell?[h] ?? 0)] })] },
        };
        return new TariffCalendar(new Tariff { Name = "hours", Zone = DateTimeZone.Utc, Versions = [terms is null ? version : terms(version)] }, s_axis, new Account { ReadDates = reads ?? [] });
    }

    private static Profile Of(Func<int, double> kw) => new(s_axis, [.. Enumerable.Range(0, s_axis.Count).Select(kw)]);

    private static Run Like(Plant plant, Func<int, double> load, Func<int, double> sun) => new(Of(load), null, Of(sun), plant, SiteLimits.None, null);

    private static SetPoints Compile(Strategy strategy, Func<int, double> load, Func<int, double> sun, decimal[] buy, decimal[]? sell = null)
    {
        Run like = Like(s_ten, load, sun);
        return StrategyCompiler.Compile(strategy, like, like.SolarAc, Calendar(buy, sell: sell));
    }

    private static Run Run(Strategy strategy, Func<int, double> load, Func<int, double> sun, decimal[] buy)
    {
        Run like = Like(s_ten, load, sun);
        return new Run(like.Load, null, like.SolarAc, s_ten, SiteLimits.None, Compile(strategy, load, sun, buy));
    }

    private static double[] Evening(Ledger ledger, int day) => [.. Enumerable.Range((24 * day) + 16, 5).Select(i => Math.Round(ledger[LedgerColumn.ImportKw][i], 9))];
}
