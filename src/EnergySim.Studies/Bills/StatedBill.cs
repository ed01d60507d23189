using NodaTime;

namespace EnergySim.Studies.Bills;

/// <summary>A bill as somebody else states it: a utility's, or one worked by hand.</summary>
public sealed record StatedBill
{
    /// <summary>First local date.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last local date.</summary>
    public required LocalDate To { get; init; }

    /// <summary>Its lines; empty where only the total is known.</summary>
    public required IReadOnlyList<StatedLine> Lines { get; init; }

    /// <summary>Its total, money.</summary>
    public required decimal Total { get; init; }
}

/// <summary>A line of a stated bill.</summary>
/// <param name="Kind">Kind, as bill lines have it; empty = not stated.</param>
/// <param name="Name">What it is for.</param>
/// <param name="Quantity">How many units; null = not stated.</param>
/// <param name="Unit">The unit.</param>
/// <param name="UnitPrice">Money per unit; null = not stated.</param>
/// <param name="Amount">The amount.</param>
public sealed record StatedLine(string Kind, string Name, decimal? Quantity, string Unit, decimal? UnitPrice, decimal Amount);
