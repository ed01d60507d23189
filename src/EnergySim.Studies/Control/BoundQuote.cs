namespace EnergySim.Studies.Control;

/// <summary>An offer's strategy beside the least that anyone with perfect foresight could pay under the same plant, wiring, plan and rule.</summary>
public sealed record BoundQuote
{
    /// <summary>The offer.</summary>
    public required string Name { get; init; }

    /// <summary>Bills of the home as it is, money.</summary>
    public required double AsItIsBill { get; init; }

    /// <summary>Bills under the offer's strategy, money.</summary>
    public required double StrategyBill { get; init; }

    /// <summary>The bound: no operation has lower bills, money, to within 1e-7 of it.</summary>
    public required double Bill { get; init; }

    /// <summary>Bills of the cheapest operation replayed in the engine, money: the least is between the bound and this.</summary>
    public required double ReplayBill { get; init; }

    /// <summary>Energy that the bound charges and discharges at once, kWh; 0 = none.</summary>
    public required double SimultaneousKwh { get; init; }

    /// <summary>What the bound leaves open, so that it may be below what anyone can reach; empty = it is exact.</summary>
    public IReadOnlyList<string> LeftOpen { get; init; } = [];

    /// <summary>What the strategy saves.</summary>
    public double Saved => AsItIsBill - StrategyBill;

    /// <summary>The most that anyone could save.</summary>
    public double MostSaved => AsItIsBill - Bill;

    /// <summary>Share of the possible saving that the strategy reaches; null where nothing can be saved.</summary>
    public double? ReachedFraction => MostSaved > 0.005 ? Saved / MostSaved : null;
}
