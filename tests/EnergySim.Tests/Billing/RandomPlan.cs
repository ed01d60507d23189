using CsCheck;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Billing;

/// <summary>A random plan of any mechanic that a tariff file can say, and an account on it, for some ten weeks with a change of the clock and of the season.</summary>
internal sealed record RandomPlan(Tariff Tariff, Account Account)
{
    public static readonly LocalDate From = new(2025, 2, 3), Until = new(2025, 4, 13);

    private static readonly Gen<decimal> s_price = Gen.Int[-20, 500].Select(m => m / 1000m);
    private static readonly Gen<ClockWindow> s_window = Gen.Select(Gen.Int[0, 23], Gen.Int[1, 23], (from, hours) => new ClockWindow(from * 60, (from + hours) % 24 * 60));
    private static readonly Gen<LocalDate> s_date = Gen.Int[0, 68].Select(From.PlusDays);
    private static readonly string[] s_seasons = ["cool", "warm"], s_kinds = ["delivery", "supply", "tier", "fixed", "demand", "event"];

    private static Gen<T?> Maybe<T>(Gen<T> value) where T : class => Gen.Select(Gen.Bool, value, (has, v) => has ? v : null);

    private static readonly Gen<IReadOnlyList<string>> s_some = Gen.Bool.Array[s_kinds.Length].Select(b => (IReadOnlyList<string>)[.. s_kinds.Where((_, i) => b[i])]);

    private static readonly Gen<Tiers> s_tiers =
        from perBill in Gen.Bool
        from kwh in Gen.Double[1, 40].Select(v => Math.Round(v, 1)).Array[2]
        from prices in s_price.Array[3]
        from byPeriod in Gen.Bool
        from steps in Gen.Int[0, 3]
        from credit in Gen.Bool
        select new Tiers
        {
            AllowanceKwhPerBill = perBill ? kwh[0] * 20 : null,
            AllowanceKwhPerDay = perBill ? null : new Dictionary<string, double> { ["cool"] = kwh[0], ["warm"] = kwh[1] },
            Steps = [.. Enumerable.Range(0, steps).Select(i => byPeriod && i == 1
                ? new TierStep(i * 0.7, null, new Dictionary<string, decimal> { ["peak"] = prices[i], ["off"] = prices[0] })
                : new TierStep(i * 0.7, prices[i]))],
            CreditPerKwh = credit || steps == 0 ? prices[2] : null,
        };

    private static readonly Gen<DemandCharge> s_demand =
        from minutes in Gen.Int[0, 2].Select(n => 15 << n)
        from price in Gen.Int[1, 20].Array[2]
        from bySeason in Gen.Bool
        from season in Gen.Int[0, 3]
        from window in s_window
        from weekdays in Gen.Bool
        from ratchet in Gen.Int[0, 2]
        from cap in Gen.Bool
        select new DemandCharge
        {
            Name = "demand",
            Minutes = minutes,
            PricePerKw = bySeason ? null : price[0],
            PriceBySeason = bySeason ? new Dictionary<string, decimal> { ["cool"] = price[0], ["warm"] = price[1] } : null,
            Season = season < 2 ? s_seasons[season] : null,
            Window = window,
            Days = weekdays ? [DayType.Weekday] : [],
            RatchetFraction = ratchet * 0.4,
            RatchetBills = ratchet,
            CapKw = cap ? 0.5 : null,
            EarlierMeasuredKw = [7, 9.5],
            EarlierBilledKw = [3],
        };

    private static Gen<ExportTerms> Export(int kind) =>
        from prices in s_price.Array[4]
        from flags in Gen.Bool.Array[3]
        from lasts in Gen.Int[0, 2].Select(n => n == 2 ? (int?)null : n)
        from windows in s_window.Array[2]
        from pays in s_some
        select kind switch
        {
            0 => (ExportTerms)new ExportTerms.Nothing(),
            1 => new ExportTerms.RetailNetting(flags[0], flags[1] ? Settlement.Carry : Settlement.Year, Math.Abs(prices[0]), lasts),
            2 => new ExportTerms.NetBilling
            {
                Prices =
                [
                    new ExportPrice { Period = "peak", Parts = [new PricePart("credit a", prices[0]), new PricePart("credit b", prices[1])] },
                    new ExportPrice { Month = 3, Hour = 12, Day = DayType.Weekend, Parts = [new PricePart("credit a", prices[2])] },
                    new ExportPrice { Parts = [new PricePart("credit a", prices[3])] },
                ],
                Pays = flags[0] ? [new CreditUse("credit b", pays), new CreditUse("*", s_kinds)] : [],
                CreditLastsBills = lasts,
                CashOutFraction = flags[1] ? 0.5m : null,
                YearEnd = flags[2] ? LeftOver.RollsOver : LeftOver.Lapses,
            },
            3 => new ExportTerms.MonthlyNetting(flags[0] ? prices[0] : null, flags[1], flags[2] ? Math.Abs(prices[1]) : 0, lasts),
            4 => new ExportTerms.TwoWay
            {
                ChargeWindow = windows[0],
                ChargePerKwh = Math.Abs(prices[0]),
                FreeKwhPerBill = 15,
                FreeKwhPerDay = flags[0] ? 0.5 : 0,
                RewardWindow = windows[1],
                RewardPerKwh = prices[1],
                AnyTimePerKwh = flags[1] ? prices[2] : null,
            },
            _ => new ExportTerms.SellAll(Math.Abs(prices[0])),
        };

    private static Gen<TariffVersion> Version(LocalDate effective, int export) =>
        from peak in s_window
        from prices in s_price.Array[6]
        from fixedMoney in Gen.Int[0, 200].Array[2]
        from flags in Gen.Bool.Array[5]
        from tiers in Maybe(s_tiers)
        from charge in Maybe(s_demand)
        from kinds in s_some.Array[2]
        from least in Gen.Int[0, 60]
        from percents in Gen.Int[-10, 20].Array[2]
        from days in s_date.Array[3]
        from terms in Export(export)
        from rounding in Gen.Int[0, 3]
        select new TariffVersion
        {
            Effective = effective,
            Seasons = [new Season("cool", new(10, 1), new(3, 19)), new Season("warm", new(3, 20), new(9, 30))],
            Holidays = flags[0] ? [new HolidayRule.OnDate(days[0])] : [],
            Periods = [new PeriodRule("peak") { Window = peak, Days = flags[1] ? [DayType.Weekday] : [] }, new PeriodRule("off")],
            EnergyPrices =
            [
                new EnergyPrice { Period = "peak", Parts = [new PricePart("delivery", prices[0]), new PricePart("supply", prices[1])] },
                new EnergyPrice { Season = "warm", Parts = [new PricePart("delivery", prices[2]), new PricePart("supply", prices[3])] },
                new EnergyPrice { Parts = [new PricePart("delivery", prices[4])] },
            ],
            NeverOffsetPart = flags[2] ? "delivery" : null,
            FixedPerDay = fixedMoney[0] / 100m,
            FixedPerMonth = fixedMoney[1] / 10m,
            FixedPerMonthByDays = flags[3],
            Tiers = tiers,
            Minimum = flags[4] ? new MinimumBill(least, 0.1m, kinds[0]) : null,
            Percentages = [new Percentage("discount", percents[0] / 100m, kinds[1]), new Percentage("tax", percents[1] / 100m, [])],
            Demand = charge is null ? [] : [charge],
            Events = flags[3] ? new EventCharge([.. days[1..].Distinct()], 0.75m, peak) : null,
            MeterMinutes = flags[1] ? 60 : null,
            NetsInsideMeterInterval = flags[0],
            Export = terms,
            Rounding = rounding == 0 ? new BillRounding(true, 0.05m) : BillRounding.LinesToTheCent,
        };

    /// <summary>One version or two, of one export regime or of two; calendar months or read dates; a settlement inside the span or at its end.</summary>
    public static readonly Gen<RandomPlan> Any =
        from kinds in Gen.Int[0, 5].Array[2]
        from first in Version(new LocalDate(2020, 1, 1), kinds[0])
        from date in s_date
        from other in Version(date, kinds[1])
        from same in Version(date, kinds[0])
        from choice in Gen.Int[0, 3]
        from reads in s_date.Array[2]
        from account in Gen.Bool.Array[2]
        select new RandomPlan(
            Worked.Plan(Worked.Denver, choice switch { 0 or 1 => [first], 2 => [first, same], _ => [first, other] }),
            new Account
            {
                ReadDates = account[0] ? [.. reads.Append(From).Append(Until).Distinct().Order()] : [],
                Anniversary = account[1] ? new LocalDate(2019, 3, 17) : null,
            });
}
