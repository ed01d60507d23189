using EnergySim.Studies.WiringFit;
using EnergySim.Wiring;

namespace EnergySim.Studies.Visit;

/// <summary>How the ways to connect one offer stand to the rules, without a run.</summary>
/// <param name="Offer">The offer's name.</param>
/// <param name="Edition">The code edition that was asked.</param>
/// <param name="Ways">The ways in the home's order.</param>
public sealed record OfferFits(string Offer, CodeEdition Edition, IReadOnlyList<WayFit> Ways)
{
    /// <summary>The first way that may be; null = none may.</summary>
    public WayFit? First => Ways.FirstOrDefault(w => w.MayBe);

    internal static OfferFits Of(Home home, WiringPlan plan, Offer offer)
    {
        SourceCurrents sources = WayHome.Sources(home, offer, plan.Panel.Volts);
        return new OfferFits(offer.Name, plan.Edition, [.. plan.Ways.Select(way => WayFitting.Of(way, plan, sources, offer.BreakerAmps))]);
    }
}
