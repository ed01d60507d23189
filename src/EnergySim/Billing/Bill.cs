using NodaTime;

namespace EnergySim.Billing;

/// <summary>One line of a bill.</summary>
public sealed record BillLine
{
    private readonly decimal? _amount;

    /// <summary>What minimum, taxes and credits refer to it by: a price part (delivery, supply, …), <c>tier</c>, <c>event</c>, <c>fixed</c>, <c>demand</c>, <c>export</c>, <c>export charge</c>, <c>credit</c>, <c>minimum</c>, <c>settlement</c>, <c>rounding</c>, or a percentage's name.</summary>
    public required string Kind { get; init; }

    /// <summary>What it is for, in words.</summary>
    public required string Name { get; init; }

    /// <summary>How many units; negative for what is sold or credited.</summary>
    public required decimal Quantity { get; init; }

    /// <summary>The unit: kWh, kW, day, bill, or the currency.</summary>
    public required string Unit { get; init; }

    /// <summary>Money per unit.</summary>
    public required decimal UnitPrice { get; init; }

    /// <summary>Quantity × price before rounding.</summary>
    public required decimal Unrounded { get; init; }

    /// <summary>The amount, rounded half away from zero: to the cent where the plan does not say otherwise.</summary>
    public decimal Amount
    {
        get => _amount ?? Math.Round(Unrounded, 2, MidpointRounding.AwayFromZero);
        init => _amount = value;
    }
}

/// <summary>One bill: the lines of one billing period.</summary>
public sealed record Bill
{
    /// <summary>First local date.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last local date.</summary>
    public required LocalDate To { get; init; }

    /// <summary>The lines, in the order in which they are taken.</summary>
    public required IReadOnlyList<BillLine> Lines { get; init; }

    /// <summary>The total: the sum of the rounded lines.</summary>
    public decimal Total
    {
        get
        {
            decimal total = 0;
            for (int i = 0; i < Lines.Count; i++) total += Lines[i].Amount;
            return total;
        }
    }

    /// <summary>The sum of the unrounded lines.</summary>
    public decimal Unrounded => Lines.Sum(l => l.Unrounded);
}

/// <summary>The bills of a span, with what must be said of them.</summary>
public sealed record BillSet
{
    /// <summary>ISO 4217 code.</summary>
    public required string Currency { get; init; }

    /// <summary>The bills in order.</summary>
    public required IReadOnlyList<Bill> Bills { get; init; }

    /// <summary>Sentences that belong under the bills (lower bounds, partial years, assumed dates).</summary>
    public required IReadOnlyList<string> Notes { get; init; }

    /// <summary>Sum of the bills.</summary>
    public decimal Total => Bills.Sum(b => b.Total);
}
