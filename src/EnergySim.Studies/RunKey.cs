using EnergySim.Equipment;
using EnergySim.Strategies;

namespace EnergySim.Studies;

/// <summary>All of an installation that can change a run on given series.</summary>
internal readonly record struct RunKey(
    Battery? Battery, int Units, double? BreakerAmps, bool ReplacesSolarInverter, double SplitFraction, Strategy? Strategy, Service Service)
{
    public static RunKey Of(Offer? offer, Service service) => offer is null
        ? new RunKey(null, 0, null, false, 0, null, service)
        : new RunKey(offer.Battery, offer.Units, offer.BreakerAmps, offer.ReplacesSolarInverter, offer.SplitFraction, offer.Strategy, service);
}
