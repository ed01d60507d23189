using EnergySim.Engine;

namespace EnergySim.Studies.Sweeps;

/// <summary>What a measure is made of: each needs the ones before it.</summary>
public enum MeasureSource
{
    /// <summary>The bills.</summary>
    Bills,

    /// <summary>The sums of every flow.</summary>
    Flows,

    /// <summary>The years to come, each simulated.</summary>
    Lifetime,

    /// <summary>Outages from every start.</summary>
    Outages,
}

/// <summary>Something that a sweep can tell of a home with an offer.</summary>
public sealed record SweepMeasure
{
    private SweepMeasure(string name, string unit, MeasureSource source, bool hasAsItIs, Func<SweptOffer, double?> of) =>
        (Name, Unit, Source, HasAsItIs, Of) = (name, unit, source, hasAsItIs, of);

    /// <summary>All measures.</summary>
    public static IReadOnlyList<SweepMeasure> All { get; } =
    [
        new("annualBill", "money", MeasureSource.Bills, true, o => (double)o.Bill),
        new("annualSaving", "money", MeasureSource.Bills, false, o => (double)(o.AsItIsBill - o.Bill)),
        new("addedSaving", "money", MeasureSource.Bills, false, o => (double)(o.BillBefore - o.Bill)),
        new("price", "money", MeasureSource.Bills, false, o => (double?)o.Offer!.Price),
        new("importKwh", "kWh", MeasureSource.Flows, true, o => o.Flows!.Kwh(LedgerColumn.ImportKw)),
        new("exportKwh", "kWh", MeasureSource.Flows, true, o => o.Flows!.Kwh(LedgerColumn.ExportKw)),
        new("curtailedKwh", "kWh", MeasureSource.Flows, true, o => FlowFigures.CurtailedKwh(o.Home.Solar, o.ClippedKwh, o.Flows!)),
        new("overloadKwh", "kWh", MeasureSource.Flows, true, o => o.Flows!.Kwh(LedgerColumn.OverloadKw)),
        new("ownSupplyFraction", "share", MeasureSource.Flows, true, o => FlowFigures.OwnSupplyFraction(o.Flows!)),
        new("equivalentFullCycles", "cycles", MeasureSource.Flows, false, o => FlowFigures.EquivalentFullCycles(o.Plant, o.Flows!)),
        new("netPresentValue", "money", MeasureSource.Lifetime, false, o => o.Money!.Indicators?.NetPresentValue),
        new("simplePaybackYears", "years", MeasureSource.Lifetime, false, o => o.Money!.Indicators?.SimplePaybackYears),
        new("discountedPaybackYears", "years", MeasureSource.Lifetime, false, o => o.Money!.Indicators?.DiscountedPaybackYears),
        new("totalSaving", "money", MeasureSource.Lifetime, false, o => (double)o.Money!.Years.Sum(y => y.Saving)),
        new("nineInTenLastHours", "h", MeasureSource.Outages, false, o => o.Outages!.Any.HoursLastedBy(0.9)),
        new("halfLastHours", "h", MeasureSource.Outages, false, o => o.Outages!.Any.HoursLastedBy(0.5)),
        new("availabilityFraction", "share", MeasureSource.Outages, false, o => o.Outages!.Availability),
    ];

    /// <summary>Its name in plans and columns.</summary>
    public string Name { get; }

    /// <summary>Its unit: money, kWh, h, share, cycles, years.</summary>
    public string Unit { get; }

    /// <summary>What it is made of.</summary>
    public MeasureSource Source { get; }

    /// <summary>True when the home as it is has it too.</summary>
    public bool HasAsItIs { get; }

    internal Func<SweptOffer, double?> Of { get; }
}
