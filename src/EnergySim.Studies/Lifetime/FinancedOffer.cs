using EnergySim.Studies.Finance;

namespace EnergySim.Studies.Lifetime;

/// <summary>How an offer is paid for.</summary>
public enum PaymentWay
{
    /// <summary>At once.</summary>
    Cash,

    /// <summary>By a loan.</summary>
    Loan,

    /// <summary>Not at all: it is leased.</summary>
    Lease,
}

/// <summary>An offer paid for in one way, so that cash and finance stand side by side.</summary>
public sealed record FinancedOffer
{
    /// <summary>The way.</summary>
    public required PaymentWay Way { get; init; }

    /// <summary>Paid at the start, less incentives paid once.</summary>
    public required decimal PaidAtStart { get; init; }

    /// <summary>Lent, fees included; 0 without a loan.</summary>
    public required decimal Financed { get; init; }

    /// <summary>Of that, fees.</summary>
    public required decimal Fees { get; init; }

    /// <summary>First monthly payment; null for cash.</summary>
    public required decimal? FirstMonthly { get; init; }

    /// <summary>Last monthly payment; null for cash.</summary>
    public required decimal? LastMonthly { get; init; }

    /// <summary>Paid down besides the monthly payments.</summary>
    public required decimal PaidDown { get; init; }

    /// <summary>The yearly rate at which the payments are worth the cash price; null where there is none.</summary>
    public required double? AnnualPercentageRate { get; init; }

    /// <summary>Paid for the system over the whole contract, incentives not taken off.</summary>
    public required decimal TotalPaid { get; init; }

    /// <summary>What the first year leaves: saving and incentives of the year less upkeep and payments.</summary>
    public required decimal FirstYearNet { get; init; }

    /// <summary>Present value of everything within the horizon.</summary>
    public required double NetPresentValue { get; init; }

    /// <summary>Everything within the horizon, nominal. What a loan still claims at its end is counted in the last year.</summary>
    public required CashFlows Flows { get; init; }

    /// <summary>What happens at the contract's end, in words; empty for cash.</summary>
    public required string AtEnd { get; init; }
}
