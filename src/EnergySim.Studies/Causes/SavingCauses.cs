namespace EnergySim.Studies.Causes;

/// <summary>Why an offer saves: the saving split into causes that sum to it to the cent.</summary>
public sealed record SavingCauses
{
    /// <summary>The offer.</summary>
    public required string Name { get; init; }

    /// <summary>The causes in a fixed order; those of nothing are left out. Negative: what the offer loses by.</summary>
    public required IReadOnlyList<SavingCause> Causes { get; init; }

    /// <summary>What the offer saves against the home as it is, money.</summary>
    public decimal Saving => Causes.Sum(c => c.Amount);
}

/// <summary>One cause of a saving.</summary>
/// <param name="Cause">Which.</param>
/// <param name="Amount">Money; negative where it costs.</param>
public sealed record SavingCause(Cause Cause, decimal Amount);

/// <summary>The causes that a saving is split into.</summary>
public enum Cause
{
    /// <summary>Energy from the cells used in the house in a dearest period.</summary>
    ShiftedIntoPeak,

    /// <summary>Energy from the cells used in the house at other times.</summary>
    UsedAtHome,

    /// <summary>Energy from the cells sold.</summary>
    SoldFromBattery,

    /// <summary>Credit forgone: solar that the cells took would have been sold.</summary>
    ForgoneCredit,

    /// <summary>Energy bought to charge the cells.</summary>
    BoughtToCharge,

    /// <summary>Losses on the way through the cells and the plant's own consumption, less what a new inverter gains.</summary>
    LossesAndStandby,

    /// <summary>Lower demand charges.</summary>
    Demand,

    /// <summary>Cheaper steps of tiers, or more credit under an allowance.</summary>
    Tiers,

    /// <summary>Less bought in the utility's events.</summary>
    Events,

    /// <summary>Minimum bill, taxes, discounts and fixed charges.</summary>
    MinimumAndTaxes,
}
