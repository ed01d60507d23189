using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Benchmarks;

/// <summary>An invented home-year at 15 minutes with every rule of the step in use: what the speed figures are measured on.</summary>
internal sealed class YearOfQuarters
{
    public YearOfQuarters(bool allRules)
    {
        Zone = DateTimeZoneProviders.Tzdb["America/Denver"];
        Axis = TimeAxis.OfYear(Zone, 2025, 15);
        var load = new double[Axis.Count];
        var solar = new double[Axis.Count];
        ulong state = 1;
        double Next()
        {
            state = (state * 6364136223846793005) + 1442695040888963407;
            return (state >> 11) / (double)(1ul << 53);
        }
        for (int i = 0; i < load.Length; i++)
        {
            int minute = Axis.LocalMinuteOf(i);
            load[i] = 0.4 + (1.5 * Next()) + (minute is >= 960 and < 1260 ? 2.5 : 0);
            solar[i] = Math.Max(0, Math.Sin((minute - 360) / 720.0 * Math.PI)) * 7 * (0.3 + (0.7 * Next()));
        }
        Load = new Profile(Axis, load);
        Solar = new Profile(Axis, solar);
        Plant = new Plant
        {
            HighestKwh = 20,
            ChargeLimitKw = 10,
            DischargeLimitKw = 10,
            ChargeEfficiency = 0.97,
            DischargeEfficiency = 0.97,
            InverterKw = 10,
            InverterEfficiency = 0.96,
            RectifierEfficiency = 0.96,
            SolarInputKw = 16,
            StandbyKw = 0.08,
        };
        Site = new SiteLimits { InverterBreakerKw = 11.52, ImportKw = 38.4, ExportKw = 10 };
        Strategy strategy = new() { Base = Steering.PeakWindow, PeakWindows = [new ClockWindow(960, 1260)] };
        if (allRules)
            strategy = strategy with { Overnight = new OvernightCharge(new ClockWindow(0, 300), 0.5), Sale = new BatterySale(new ClockWindow(1140, 1260), 0.5) };
        Strategy = strategy;
        Calendar = new TariffCalendar(Tariff(Zone), Axis);
        Run = new Run(Load, Solar, null, Plant, Site, strategy.Compile(Plant, Axis));
    }

    /// <summary>The same year in steps of an hour.</summary>
    public (Run Run, TariffCalendar Calendar) ByTheHour()
    {
        Profile load = Load.Resampled(60);
        return (new Run(load, Solar.Resampled(60), null, Plant, Site, Strategy.Compile(Plant, load.Axis)), new TariffCalendar(Calendar.Tariff, load.Axis));
    }

    public DateTimeZone Zone { get; }

    public TimeAxis Axis { get; }

    public Profile Load { get; }

    public Profile Solar { get; }

    public Plant Plant { get; }

    public SiteLimits Site { get; }

    public Strategy Strategy { get; }

    public TariffCalendar Calendar { get; }

    public Run Run { get; }

    public static Tariff Tariff(DateTimeZone zone) => new()
    {
        Name = "two seasons, three periods (invented)",
        Zone = zone,
        Versions =
        [
            new TariffVersion
            {
                Effective = new LocalDate(2025, 1, 1),
                Seasons = [new Season("summer", new MonthDay(6, 1), new MonthDay(9, 30)), new Season("winter", new MonthDay(10, 1), new MonthDay(5, 31))],
                Holidays = [new HolidayRule.Fixed(new MonthDay(7, 4), HolidayMove.Nearest), new HolidayRule.Nth(11, 4, IsoDayOfWeek.Thursday)],
                Periods =
                [
                    new PeriodRule("peak") { Days = [DayType.Weekday], Window = new ClockWindow(960, 1260) },
                    new PeriodRule("mid") { Days = [DayType.Weekday], Window = new ClockWindow(360, 960) },
                    new PeriodRule("off") { Days = [DayType.Weekday], Window = new ClockWindow(1260, 360) },
                    new PeriodRule("off") { Days = [DayType.Weekend] },
                ],
                EnergyPrices =
                [
                    new EnergyPrice { Season = "summer", Period = "peak", Parts = [new PricePart("delivery", 0.19m), new PricePart("supply", 0.30m)] },
                    new EnergyPrice { Season = "winter", Period = "peak", Parts = [new PricePart("delivery", 0.14m), new PricePart("supply", 0.17m)] },
                    new EnergyPrice { Period = "mid", Parts = [new PricePart("delivery", 0.10m), new PricePart("supply", 0.11m)] },
                    new EnergyPrice { Period = "off", Parts = [new PricePart("delivery", 0.06m), new PricePart("supply", 0.07m)] },
                ],
                FixedPerDay = 0.45m,
                Export = new ExportTerms.NetBilling
                {
                    Prices =
                    [
                        new ExportPrice { Period = "peak", Parts = [new PricePart("export", 0.11m)] },
                        new ExportPrice { Parts = [new PricePart("export", 0.04m)] },
                    ],
                },
            },
        ],
    };
}
