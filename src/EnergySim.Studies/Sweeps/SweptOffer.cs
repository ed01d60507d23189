using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.Outages;

namespace EnergySim.Studies.Sweeps;

/// <summary>A home of a variant, and what is asked of its outages.</summary>
/// <param name="Home">The home.</param>
/// <param name="Outage">What is asked of outages.</param>
public sealed record SweptHome(Home Home, OutageTerms Outage)
{
    /// <summary>Why there is no home, as a sentence without a place; the home then stands for nothing.</summary>
    public string? Error { get; init; }
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
