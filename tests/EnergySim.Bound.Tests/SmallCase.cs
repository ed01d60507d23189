using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Bound.Tests;

/// <summary>Some days of hours in UTC, each hour of the day a period with a price to buy and one to sell at.</summary>
internal sealed record SmallCase
{
    public required double[] LoadKw { get; init; }

    public required double[] SolarKw { get; init; }

    public required decimal[] BuyPerKwh { get; init; }

    public required decimal[] SellPerKwh { get; init; }

    public required Plant Plant { get; init; }

    public SiteLimits Site { get; init; } = new();

    public TimeAxis Axis => new(DateTimeZone.Utc, Instant.FromUtc(2025, 6, 2, 0, 0), 60, LoadKw.Length);

    // The daily charge is so high that no credit is left over.
    public Tariff Tariff => new()
    {
        Name = "small",
        Zone = DateTimeZone.Utc,
        Versions =
        [
            new TariffVersion
            {
                Effective = new LocalDate(2025, 1, 1),
                Periods = [.. Enumerable.Range(0, 24).Select(h => new PeriodRule($"h{h:00}") { Window = new ClockWindow(60 * h, 60 * (h + 1)) })],
                EnergyPrices = [.. Enumerable.Range(0, 24).Select(h => new EnergyPrice { Period = $"h{h:00}", Parts = [new PricePart("energy", BuyPerKwh[h])] })],
                FixedPerDay = 1000,
                Export = new ExportTerms.NetBilling { Prices = [.. Enumerable.Range(0, 24).Select(h => new ExportPrice { Period = $"h{h:00}", Parts = [new PricePart("energy", SellPerKwh[h])] })] },
            },
        ],
    };

    public TariffCalendar Calendar => new(Tariff, Axis);

    public Run Run(SetPoints? setPoints = null, double? startKwh = null) => new(
        new Profile(Axis, LoadKw), null, new Profile(Axis, SolarKw), Plant, Site,
        setPoints ?? SetPoints.Always(new SetPointRow(Plant.LowestKwh, Plant.HighestKwh, 0, 0, double.PositiveInfinity), Axis.Count), startKwh);

    public double Fixed => 1000.0 * LoadKw.Length / 24;
}
