using EnergySim.Economics;

namespace EnergySim.Studies.Lifetime;

/// <summary>What ended a battery's warranty.</summary>
public enum WarrantyLimit
{
    /// <summary>Its years.</summary>
    Years,

    /// <summary>The energy that it gave.</summary>
    Throughput,

    /// <summary>It holds less than the warranty promises: a claim, while the warranty runs.</summary>
    Capacity,
}

/// <summary>The end of a warranty.</summary>
/// <param name="Year">At the end of which year, counted from 1.</param>
/// <param name="Limit">What came first.</param>
public sealed record WarrantyEnd(int Year, WarrantyLimit Limit);

/// <summary>The cells of one offer as they age: by the year, and by what the runs took out of them.</summary>
/// <param name="life">How they age.</param>
/// <param name="usableKwh">Usable energy when new, all units, kWh.</param>
/// <param name="units">Number of units.</param>
internal sealed class AgeingCells(BatteryLife life, double usableKwh, int units)
{
    private int _age;
    private double _outKwh;
    private bool _warrantyIsOver;

    /// <summary>What is left of the first usable energy, 0–1; a year is simulated with what it begins with.</summary>
    public double CapacityFraction { get; private set; } = 1;

    /// <summary>True once they hold too little and are not replaced.</summary>
    public bool IsOutOfService { get; private set; }

    /// <summary>When the first cells' warranty ended; null = not yet.</summary>
    public WarrantyEnd? FirstWarrantyEnd { get; private set; }

    /// <summary>Begins a year, counted from 1; true when new cells came.</summary>
    public bool BeginYear(int year)
    {
        bool isNew = life.Replacement is { } replacement && replacement.Rule switch
        {
            ReplacementRule.InYear => replacement.Year == year,
            ReplacementRule.AfterWarranty => _warrantyIsOver,
            _ => CapacityFraction < life.EndOfLifeFraction,
        };
        if (isNew)
        {
            (_age, _outKwh, _warrantyIsOver, CapacityFraction) = (0, 0, false, 1);
            IsOutOfService = false;
        }
        else if (CapacityFraction < life.EndOfLifeFraction)
        {
            (IsOutOfService, CapacityFraction) = (true, 0);
        }
        return isNew;
    }

    /// <summary>Ends a year in which so much energy left the cells, kWh DC.</summary>
    public void EndYear(int year, double outKwh)
    {
        _age++;
        _outKwh += outKwh;
        double cycles = usableKwh > 0 ? outKwh / usableKwh : 0;
        CapacityFraction = Math.Max(0, CapacityFraction - life.FadePerYear - (life.FadePerCycle * cycles));
        if (_warrantyIsOver) return;
        WarrantyLimit? limit = _age >= life.WarrantyYears ? WarrantyLimit.Years
            : _outKwh >= life.WarrantyThroughputKwh * units ? WarrantyLimit.Throughput
            : CapacityFraction < life.WarrantyFraction ? WarrantyLimit.Capacity : null;
        if (limit is not WarrantyLimit first) return;
        _warrantyIsOver = true;
        FirstWarrantyEnd ??= new WarrantyEnd(year, first);
    }
}
