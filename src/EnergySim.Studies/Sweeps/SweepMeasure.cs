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
    /// <summary>The unit of measures in the money of a home's plan.</summary>
    public const string Money = "money";

    private SweepMeasure(string name, string words, string unit, MeasureSource source, bool hasAsItIs, Func<SweptOffer, double?> of) =>
        (Name, Words, Unit, Source, HasAsItIs, Of) = (name, words, unit, source, hasAsItIs, of);

    /// <summary>All measures.</summary>
    public static IReadOnlyList<SweepMeasure> All { get; } =
    [
        new("annualBill", "bill a year", Money, MeasureSource.Bills, true, o => (double)o.Bill),
        new("annualSaving", "saved a year", Money, MeasureSource.Bills, false, o => (double)(o.AsItIsBill - o.Bill)),
        new("addedSaving", "saved a year beyond the offer before", Money, MeasureSource.Bills, false, o => (double)(o.BillBefore - o.Bill)),
        new("price", "price", Money, MeasureSource.Bills, false, o => (double?)o.Offer!.Price),
        new("importKwh", "bought", "kWh", MeasureSource.Flows, true, o => o.Flows!.Kwh(LedgerColumn.ImportKw)),
        new("exportKwh", "sold", "kWh", MeasureSource.Flows, true, o => o.Flows!.Kwh(LedgerColumn.ExportKw)),
        new("curtailedKwh", "solar lost", "kWh", MeasureSource.Flows, true, o => FlowFigures.CurtailedKwh(o.Home.Solar, o.ClippedKwh, o.Flows!)),
        new("overloadKwh", "overload", "kWh", MeasureSource.Flows, true, o => o.Flows!.Kwh(LedgerColumn.OverloadKw)),
        new("ownSupplyFraction", "own supply", "share", MeasureSource.Flows, true, o => FlowFigures.OwnSupplyFraction(o.Flows!)),
        new("equivalentFullCycles", "full cycles", "cycles", MeasureSource.Flows, false, o => FlowFigures.EquivalentFullCycles(o.Plant, o.Flows!)),
        new("netPresentValue", "present value, price taken off", Money, MeasureSource.Lifetime, false, o => o.Money!.Indicators?.NetPresentValue),
        new("simplePaybackYears", "payback", "years", MeasureSource.Lifetime, false, o => o.Money!.Indicators?.SimplePaybackYears),
        new("discountedPaybackYears", "discounted payback", "years", MeasureSource.Lifetime, false, o => o.Money!.Indicators?.DiscountedPaybackYears),
        new("totalSaving", "saved in all the years", Money, MeasureSource.Lifetime, false, o => (double)o.Money!.Years.Sum(y => y.Saving)),
        new("nineInTenLastHours", "nine in ten outages last", "h", MeasureSource.Outages, false, o => o.Outages!.Any.HoursLastedBy(0.9)),
        new("halfLastHours", "half the outages last", "h", MeasureSource.Outages, false, o => o.Outages!.Any.HoursLastedBy(0.5)),
        new("availabilityFraction", "share of demand served in outages", "share", MeasureSource.Outages, false, o => o.Outages!.Availability),
    ];

    /// <summary>Its name in plans and columns.</summary>
    public string Name { get; }

    /// <summary>What it is, in words.</summary>
    public string Words { get; }

    /// <summary>Its unit: money, kWh, h, share, cycles, years.</summary>
    public string Unit { get; }

    /// <summary>What it is made of.</summary>
    public MeasureSource Source { get; }

    /// <summary>True when the home as it is has it too.</summary>
    public bool HasAsItIs { get; }

    internal Func<SweptOffer, double?> Of { get; }
}
