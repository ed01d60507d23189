using EnergySim.Economics;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Tests.Lifetime;

/// <summary>An invented home by the hour, 2025: evenings dear, a sunny roof, one battery and two. Small, so that many lifetimes are quick.</summary>
internal static class SmallHome
{
    /// <summary>Terms under which nothing changes from year to year, and money has no price.</summary>
    public static MoneyTerms Still { get; } = new()
    {
        HorizonYears = 5,
        DiscountFraction = 0,
        InflationFraction = 0,
        SolarFadeFraction = 0,
        Growth = new GrowthRates { Energy = 0, Fixed = 0, Demand = 0, Export = 0, Costs = 0 },
        Life = new BatteryLife { FadePerYear = 0, FadePerCycle = 0 },
    };

    public static DateTimeZone Zone => DateTimeZoneProviders.Tzdb["America/Denver"];

    public static TimeAxis Axis { get; } = TimeAxis.OfYear(Zone, 2025, 60);

    public static TariffVersion Prices { get; } = new()
    {
        Effective = new LocalDate(2025, 1, 1),
        Periods = [new PeriodRule("peak") { Window = new ClockWindow(16 * 60, 21 * 60) }, new PeriodRule("off") { Window = new ClockWindow(21 * 60, 16 * 60) }],
        EnergyPrices =
        [
            new EnergyPrice { Period = "peak", Parts = [new PricePart("delivery", 0.15m), new PricePart("supply", 0.25m)] },
            new EnergyPrice { Period = "off", Parts = [new PricePart("delivery", 0.06m), new PricePart("supply", 0.08m)] },
        ],
        FixedPerDay = 0.40m,
        Percentages = [new Percentage("tax", 0.05m, [])],
        Export = new ExportTerms.NetBilling { Prices = [new ExportPrice { Parts = [new PricePart("export", 0.05m)] }] },
    };

    public static Home Of(MoneyTerms money, params TariffVersion[] versions) => new()
    {
        Name = "small home (invented)",
        Load = Hourly(h => 0.5 + (h is >= 16 and < 22 ? 2 : 0)),
        Solar = new HomeSolar { Profile = Hourly(h => Math.Max(0, 5 * Math.Sin((h - 6) / 12.0 * Math.PI))), IsDc = true, InverterKw = 5 },
        Tariff = new Tariff { Name = "Peak", Zone = Zone, Versions = versions.Length > 0 ? versions : [Prices] },
        Offers = [Offer("One", 1, 4000), Offer("Two", 2, 7000)],
        Money = money,
    };

    public static Offer Offer(string name, int units, decimal? price) => new()
    {
        Name = name,
        Battery = new Battery
        {
            Name = "six",
            CapacityKwh = 6,
            ChargeLimitKw = 3,
            DischargeLimitKw = 3,
            ChargeEfficiency = 0.97,
            DischargeEfficiency = 0.97,
            InverterKw = 3,
            InverterEfficiency = 0.96,
            RectifierEfficiency = 0.96,
        },
        Units = units,
        Price = price,
        Strategy = new Strategy { Base = Steering.SelfUse, ReserveFraction = 0.1 },
    };

    public static Profile Hourly(Func<int, double> kw) => new(Axis, [.. Enumerable.Range(0, Axis.Count).Select(i => kw(Axis.LocalMinuteOf(i) / 60))]);
}
