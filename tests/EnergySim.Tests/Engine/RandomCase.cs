using CsCheck;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Tests.Engine;

/// <summary>A random plant behind random wiring with random rows and series: what properties are asked of.</summary>
internal sealed record RandomCase(
    Plant Plant, SiteLimits Site, Profile Load, Profile SolarDc, Profile SolarAc, SetPoints SetPoints, double StartKwh)
{
    public EnergySim.Engine.Run Run(bool offGrid = false) =>
        new(Load, SolarDc, SolarAc, Plant, Site, offGrid ? null : SetPoints, StartKwh, offGrid);

    private static readonly Gen<double> s_maybeNoLimit = Gen.Frequency((1, Gen.Const(double.PositiveInfinity)), (2, Gen.Double[0.5, 12]));
    private static readonly Gen<double> s_efficiency = Gen.Frequency((1, Gen.Const(1.0)), (3, Gen.Double[0.85, 1]));

    private static readonly Gen<Taper> s_taper = Gen.Frequency(
        (2, Gen.Const(Taper.None)),
        (1, Gen.Select(Gen.Double[0.05, 0.4], Gen.Double[0.6, 0.95], Gen.Double[0, 1], Gen.Double[0, 1],
            (low, high, first, last) => new Taper([(low, first), (high, 1), (1, last)]))));

    internal static readonly Gen<Plant> AnyPlant =
        from usable in Gen.Frequency((1, Gen.Const(0.0)), (9, Gen.Double[1, 40]))
        from low in Gen.Frequency((2, Gen.Const(0.0)), (1, Gen.Double[0.1, 3]))
        from rates in Gen.Double[0.5, 9].Array[3]
        from inverter in s_maybeNoLimit
        from eta in s_efficiency.Array[4]
        from solarInput in s_maybeNoLimit
        from standby in Gen.Frequency((1, Gen.Const(0.0)), (2, Gen.Double[0.01, 0.1]))
        from wakes in Gen.Bool
        from follows in Gen.Bool
        from rating in Gen.Frequency((1, Gen.Const((double?)null)), (2, Gen.Double[1, 9].Select(r => (double?)r)))
        from tapers in s_taper.Array[2]
        select new Plant
        {
            LowestKwh = low,
            HighestKwh = low + usable,
            ChargeLimitKw = rates[0],
            DischargeLimitKw = rates[1],
            InverterKw = inverter,
            ChargeEfficiency = eta[0],
            DischargeEfficiency = eta[1],
            InverterEfficiency = eta[2],
            RectifierEfficiency = eta[3],
            SolarInputKw = solarInput,
            StandbyKw = standby,
            WakesBySolar = wakes,
            ChargeTaper = tapers[0],
            DischargeTaper = tapers[1],
            SeparateSolar = new SeparateSolarInverter(rating, follows),
        };

    internal static readonly Gen<SiteLimits> AnySite =
        from kw in s_maybeNoLimit.Array[4]
        from export in Gen.Frequency((1, Gen.Const(0.0)), (2, s_maybeNoLimit))
        from flags in Gen.Bool.Array[3]
        select new SiteLimits
        {
            InverterBreakerKw = kw[0],
            ImportKw = kw[1],
            BusbarKw = kw[2],
            ExportKw = export,
            RelievesImport = flags[0],
            AcSolarOnBusbar = flags[1],
            ManagesLoad = flags[2],
        };

    internal static Gen<SetPointRow> Row(Plant plant)
    {
        Gen<double> level = Gen.Double[plant.LowestKwh, plant.HighestKwh + 1e-12];
        return from levels in level.Array[4]
               from grid in Gen.Frequency((2, Gen.Const(0.0)), (1, Gen.Const(1.0)))
               from target in Gen.Frequency((2, Gen.Const(0.0)), (1, Gen.Double[0, 5]), (2, Gen.Const(double.PositiveInfinity)))
               from sells in Gen.Bool
               let gridCeiling = levels[2] * grid
               select new SetPointRow(levels[0], levels[1], gridCeiling, target, sells ? Math.Max(levels[3], gridCeiling) : double.PositiveInfinity);
    }

    /// <summary>48 to 200 intervals of 15 or 60 minutes.</summary>
    public static readonly Gen<RandomCase> Any = On(
        from step in Gen.Bool.Select(quarters => quarters ? 15 : 60)
        from count in Gen.Int[48, 200]
        select new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 3, 8, 0, 0), step, count));

    /// <summary>Cases on a random axis.</summary>
    public static Gen<RandomCase> On(Gen<TimeAxis> axes) =>
        from plant in AnyPlant
        from site in AnySite
        from axis in axes
        from rows in Row(plant).Array[1, 6]
        from picks in Gen.Int[0, 5].Array[axis.Count]
        from load in Gen.Frequency((1, Gen.Const(0.0)), (9, Gen.Double[0, 9])).Array[axis.Count]
        from dc in Gen.Frequency((1, Gen.Const(0.0)), (1, Gen.Double[0, 10])).Array[axis.Count]
        from ac in Gen.Frequency((2, Gen.Const(0.0)), (1, Gen.Double[0, 9])).Array[axis.Count]
        from start in Gen.Double[0, 1]
        select new RandomCase(
            plant, site, new Profile(axis, load), new Profile(axis, dc), new Profile(axis, ac),
            new SetPoints(rows, picks.Select(p => p % rows.Length).ToArray()), plant.LowestKwh + (start * plant.UsableKwh));
}
