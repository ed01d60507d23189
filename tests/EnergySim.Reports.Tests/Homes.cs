using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Reports;

/// <summary>Invented homes, the odd ones too.</summary>
internal static class Homes
{
    public const string LongName = "a name that its owner could not bring to an end, <whatever> was said & done about it, until nobody read it any more";

    private static readonly DateTimeZone s_zone = DateTimeZoneProviders.Tzdb["America/Denver"];

    public static Dictionary<string, Home> All { get; } = new()
    {
        ["usual"] = Of(),
        ["no solar"] = Of() with { Solar = null },
        ["negative bill"] = Of(solarKw: 30, export: new ExportTerms.SellAll(0.3m)),
        ["14,000 kWh"] = Of(loadFactor: 14000 / 8760.0),
        ["one month"] = Of(axis: TimeAxis.OfDates(s_zone, new LocalDate(2025, 3, 1), new LocalDate(2025, 4, 1), 60)),
        ["five offers"] = Of(offers: 5),
        ["other currency"] = Of(currency: "CHF"),
        ["long names"] = Long(Of()),
        ["no load"] = Of(loadFactor: 0),
    };

    public static Home Of(double solarKw = 5, double loadFactor = 1, int offers = 2, string currency = "USD", ExportTerms? export = null, TimeAxis? axis = null)
    {
        axis ??= TimeAxis.OfYear(s_zone, 2025, 60);
        Profile Hourly(Func<int, double> kw) => new(axis, [.. Enumerable.Range(0, axis.Count).Select(i => kw(axis.LocalMinuteOf(i) / 60))]);
        var battery = new Battery { Name = "six", CapacityKwh = 6, ChargeLimitKw = 3, DischargeLimitKw = 3, InverterKw = 3, ChargeEfficiency = 0.95, DischargeEfficiency = 0.95 };
        return new Home
        {
            Name = "Sedge Row (invented)",
            Note = "An invented home.",
            Load = Hourly(h => loadFactor * (0.5 + (h is >= 16 and < 22 ? 2 : 0))),
            Solar = new HomeSolar { Profile = Hourly(h => Math.Max(0, solarKw * Math.Sin((h - 6) / 12.0 * Math.PI))), IsDc = false },
            Tariff = new Tariff
            {
                Name = "Evening peak",
                Zone = s_zone,
                Currency = currency,
                Versions =
                [
                    new TariffVersion
                    {
                        Effective = new LocalDate(2025, 1, 1),
                        Periods = [new PeriodRule("peak") { Window = new ClockWindow(960, 1260) }, new PeriodRule("off") { Window = new ClockWindow(1260, 960) }],
                        EnergyPrices =
                        [
                            new EnergyPrice { Period = "peak", Parts = [new PricePart("delivery", 0.2m), new PricePart("supply", 0.22m)] },
                            new EnergyPrice { Period = "off", Parts = [new PricePart("delivery", 0.08m), new PricePart("supply", 0.06m)] },
                        ],
                        Export = export ?? new ExportTerms.NetBilling { Prices = [new ExportPrice { Parts = [new PricePart("energy", 0.05m)] }] },
                    },
                ],
            },
            Offers = [.. Enumerable.Range(1, offers).Select(n => new Offer { Name = FormattableString.Invariant($"Offer of {n}"), Battery = battery, Units = n, Strategy = new Strategy { Base = Steering.SelfUse, ReserveFraction = 0.2 } })],
        };
    }

    private static Home Long(Home home) => home with
    {
        Name = LongName,
        Note = LongName,
        Tariff = home.Tariff with { Name = LongName, Currency = "CHF" },
        Offers = [.. home.Offers.Select(o => o with { Name = $"{o.Name}, {LongName}" })],
    };
}
