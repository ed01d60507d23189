namespace EnergySim.Economics;

/// <summary>A loan that pays for an offer.</summary>
public sealed record LoanTerms
{
    /// <summary>Nominal rate a year; a twelfth is charged each month.</summary>
    public required double RateFraction { get; init; }

    /// <summary>Number of monthly payments, ≥ 1.</summary>
    public required int Months { get; init; }

    /// <summary>Fees folded into the loan, as a share of the cash price, ≥ 0.</summary>
    public double FeeFraction { get; init; }

    /// <summary>Fees folded into the loan besides.</summary>
    public decimal Fee { get; init; }

    /// <summary>Paid in cash at the start.</summary>
    public decimal Down { get; init; }

    /// <summary>The payments' new beginning at a stated month; null = the payment stays.</summary>
    public Reamortisation? Reamortisation { get; init; }
}

/// <summary>
/// The first payments are worked out as if a part of the loan were paid down by a stated month; from then on they are worked out anew from
/// what is owed. Where the part is not paid down, the payment jumps.
/// </summary>
/// <param name="Month">The month, counted from 1, after whose payment it happens.</param>
/// <param name="PaydownFraction">The part, as a share of the cash price, 0–1.</param>
/// <param name="IsPaid">True when the borrower does pay it down.</param>
public sealed record Reamortisation(int Month, double PaydownFraction, bool IsPaid);

/// <summary>A lease: the system stays the lessor's, who keeps it running.</summary>
public sealed record LeaseTerms
{
    /// <summary>First monthly payment by the name of the offer.</summary>
    public required IReadOnlyDictionary<string, decimal> MonthlyByOffer { get; init; }

    /// <summary>Rise of the payment a year.</summary>
    public double EscalatorFraction { get; init; }

    /// <summary>Length, years ≥ 1.</summary>
    public required int Years { get; init; }

    /// <summary>Price at which the system is bought at its end, as a share of the cash price; null = it is taken away.</summary>
    public double? BuyoutFraction { get; init; }
}
