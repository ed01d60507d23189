using CsCheck;
using EnergySim.Batches;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Tests.Billing;
using EnergySim.Tests.Engine;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Batches;

/// <summary>Random variants on one axis, alike in some things and not in others, and plans that ask for every kind of sum.</summary>
internal sealed record RandomBatch(TimeAxis Axis, IReadOnlyList<TariffCalendar> Calendars, Variant[] Variants)
{
    // Ten days or nineteen (longer than the warm-up) about a change of the clock.
    private static readonly Gen<TimeAxis> s_axis =
        from step in Gen.Int[0, 2].Select(n => 15 << n)
        from days in Gen.Bool.Select(longer => longer ? 19 : 10)
        select Worked.Days(new LocalDate(2025, 3, 5), days, step);

    private static Gen<Profile> Series(TimeAxis axis, double mostKw, bool night) =>
        from kw in Gen.Frequency((1, Gen.Const(0.0)), (6, Gen.Double[0, mostKw])).Array[axis.Count]
        select new Profile(axis, night ? [.. kw.Select((v, i) => axis.LocalMinuteOf(i) is > 400 and < 1100 ? v : 0)] : kw);

    private static Gen<PickedRows> Clock(TimeAxis axis) =>
        from changes in Gen.Int[0, 5].Array[axis.Count]
        from holds in Gen.Int[1, 30]
        select new PickedRows([.. Enumerable.Range(0, axis.Count).Select(i => changes[i / holds])]);

    private static readonly Gen<double> s_factor = Gen.Frequency((2, Gen.Const(1.0)), (1, Gen.Const(0.0)), (3, Gen.Double[0.2, 2]));

    private static Gen<Variant> Any(Profile[] loads, Profile[] dcs, Profile[] acs, PickedRows[] clocks) =>
        from plant in RandomCase.AnyPlant
        from site in RandomCase.AnySite
        from rows in RandomCase.Row(plant).Array[6]
        from pick in Gen.Int[0, 11].Array[4]
        from factors in s_factor.Array[3]
        from start in Gen.Double[-1, 1]
        select new Variant
        {
            Load = loads[pick[0] % loads.Length],
            LoadFactor = factors[0],
            SolarDc = pick[1] == 11 ? null : dcs[pick[1] % dcs.Length],
            SolarDcFactor = factors[1],
            SolarAc = pick[2] > 5 ? null : acs[pick[2] % acs.Length],
            SolarAcFactor = factors[2],
            Plant = plant,
            Site = site,
            SetPoints = new SetPoints([.. rows], clocks[pick[3] % clocks.Length]),
            StartKwh = start < 0 ? null : plant.LowestKwh + (start * plant.UsableKwh),
        };

    /// <summary>So many variants.</summary>
    public static Gen<RandomBatch> Of(int fewest, int most) =>
        from axis in s_axis
        from several in Gen.Int[1, 3].Array[4]
        from loads in Series(axis, 9, night: false).Array[several[0]]
        from dcs in Series(axis, 10, night: true).Array[several[1]]
        from acs in Series(axis, 9, night: true).Array[several[2]]
        from clocks in Clock(axis).Array[several[3]]
        from variants in Any(loads, dcs, acs, clocks).Array[fewest, most]
        select new RandomBatch(axis, Plans(axis), variants);

    private static TariffCalendar[] Plans(TimeAxis axis)
    {
        TariffVersion peak = Worked.PeakAndOff(new ClockWindow(960, 1260), 0.4m, 0.2m, DayType.Weekday);
        TariffVersion billed = peak with
        {
            Demand = [new DemandCharge { Name = "any hour", Minutes = 60, PricePerKw = 10 }, new DemandCharge { Name = "peak", Minutes = 15, PricePerKw = 5, Window = new ClockWindow(960, 1260) }],
            Events = new EventCharge([new LocalDate(2025, 3, 7), new LocalDate(2025, 3, 11)], 0.5m, new ClockWindow(900, 1200)),
            Export = new ExportTerms.NetBilling { Prices = [new ExportPrice { Period = "peak", Parts = [new PricePart("supply", 0.11m), new PricePart("bonus", 0.02m)] }, new ExportPrice { Parts = [new PricePart("supply", 0.04m)] }] },
        };
        TariffVersion metered = peak with
        {
            MeterMinutes = 60,
            NetsInsideMeterInterval = true,
            Demand = [new DemandCharge { Name = "half hours", Minutes = 30, PricePerKw = 3 }],
            Export = new ExportTerms.TwoWay { ChargeWindow = new ClockWindow(600, 900), ChargePerKwh = 0.01m, RewardWindow = new ClockWindow(960, 1200), RewardPerKwh = 0.02m },
        };
        TariffVersion sold = peak with { Export = new ExportTerms.SellAll(0.1m) };
        TariffVersion plain = peak with { Export = new ExportTerms.NetBilling { Prices = [new ExportPrice { Period = "peak", Parts = [new PricePart("supply", 0.11m)] }, new ExportPrice { Parts = [new PricePart("supply", 0.04m)] }] } };
        TariffVersion later = Worked.Flat(new PricePart("energy", 0.3m)) with { Effective = new LocalDate(2025, 3, 9) };
        return
        [
            new TariffCalendar(Worked.Plan(axis.Zone, billed), axis),
            new TariffCalendar(Worked.Plan(axis.Zone, metered), axis, new Account { ReadDates = [new LocalDate(2025, 3, 5), new LocalDate(2025, 3, 10), new LocalDate(2025, 3, 24)] }),
            new TariffCalendar(Worked.Plan(axis.Zone, sold), axis),
            new TariffCalendar(Worked.Plan(axis.Zone, peak, later), axis),
            new TariffCalendar(Worked.Plan(axis.Zone, plain), axis),
        ];
    }
}
