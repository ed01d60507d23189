using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.Outages;

namespace EnergySim.Studies.Sweeps;

/// <summary>A home of a variant and what is asked of its outages, or why there is none.</summary>
public sealed record SweptHome
{
    private readonly Home? _home;

    private SweptHome(Home? home, OutageTerms outage, string? error) => (_home, Outage, Error) = (home, outage, error);

    /// <summary>The home.</summary>
    /// <exception cref="InvalidOperationException">There is none.</exception>
    public Home Home => _home ?? throw new InvalidOperationException(Error);

    /// <summary>What is asked of outages.</summary>
    public OutageTerms Outage { get; }

    /// <summary>Why there is no home, as a sentence; null = there is one.</summary>
    public string? Error { get; }

    /// <summary>A home.</summary>
    public static SweptHome Of(Home home, OutageTerms outage) => new(home, outage, null);

    /// <summary>No home.</summary>
    public static SweptHome Failed(string error) => new(null, new OutageTerms(), error);
}

/// <summary>What measures of one offer of a variant are read from; what was not asked for is null.</summary>
internal sealed record SweptOffer
{
    public required Home Home { get; init; }

    public required Offer? Offer { get; init; }

    public required Plant Plant { get; init; }

    public required double ClippedKwh { get; init; }

    public required decimal Bill { get; init; }

    public required decimal AsItIsBill { get; init; }

    public required decimal BillBefore { get; init; }

    public RunFlows? Flows { get; init; }

    public OfferMoney? Money { get; init; }

    public OfferOutages? Outages { get; init; }
}
