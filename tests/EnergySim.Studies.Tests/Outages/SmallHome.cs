using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

/// <summary>A home made up for a test: hourly days from a Monday on, a ten-kWh battery without losses.</summary>
internal static class SmallHome
{
    public static TimeAxis Axis(int days, int stepMinutes = 60) => new(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 6, 0, 0), stepMinutes, days * 24 * 60 / stepMinutes);

    public static Battery Ten { get; } = new() { Name = "ten", CapacityKwh = 10, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5 };

    public static Home Of(TimeAxis axis, Func<int, double> loadKw, Func<int, double>? solarKw = null, Battery? battery = null, double reserve = 0.2) => new()
    {
        Name = "Small",
        Load = new Profile(axis, [.. Enumerable.Range(0, axis.Count).Select(loadKw)]),
        Solar = solarKw is null ? null : new HomeSolar { Profile = new Profile(axis, [.. Enumerable.Range(0, axis.Count).Select(solarKw)]), IsDc = true, InverterKw = 5, InverterEfficiency = 1 },
        Tariff = new Tariff
        {
            Name = "Flat",
            Zone = DateTimeZone.Utc,
            Versions = [new TariffVersion { Effective = new LocalDate(2024, 1, 1), Periods = [new PeriodRule("any")], EnergyPrices = [new EnergyPrice { Parts = [new PricePart("energy", 0.3m)] }] }],
        },
        Offers =
        [
            new Offer
            {
                Name = "One", Battery = battery ?? Ten, Units = 1, ReplacesSolarInverter = solarKw is not null,
                Strategy = new Strategy { Base = Steering.SelfUse, ReserveFraction = reserve },
            },
        ],
    };
}
