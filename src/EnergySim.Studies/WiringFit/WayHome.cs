using EnergySim.Strategies;
using EnergySim.Wiring;

namespace EnergySim.Studies.WiringFit;

/// <summary>Turns a way to connect into a home that the engine runs: its limits become the service's, its breaker the offer's.</summary>
internal static class WayHome
{
    /// <summary>Continuous currents of the sources of an offer.</summary>
    public static SourceCurrents Sources(Home home, Offer offer, double volts)
    {
        double Amps(double kw) => kw * 1000 / volts;
        double solarKw = offer.ReplacesSolarInverter || home.Solar is not HomeSolar solar ? 0 : solar.InverterKw ?? solar.Profile.Kw.ToArray().Max();
        return new SourceCurrents(Amps(solarKw), Amps(offer.Battery.InverterKw * offer.Units));
    }

    /// <summary>The home with one offer, connected by a way.</summary>
    public static Home Of(Home home, Offer offer, WayFit fit)
    {
        ServicePanel panel = home.Wiring!.Panel;
        double mainKw = SiteLimits.ContinuousKw(fit.MainAmps, panel.Volts);
        double? guardedKw = fit.SettingAmps * panel.Volts / 1000;
        // A breaker's continuous share is 0.8 of it; a feeder's setting may lie below that.
        double breakerAmps = Math.Min(fit.BreakerAmps, fit.OutputAmps / SiteLimits.ContinuousShare);
        double exportKw = Math.Min(mainKw, Math.Min(home.Service.ExportLimitKw ?? double.PositiveInfinity, home.Agreement?.AuthorisedKw ?? double.PositiveInfinity));
        IntegrityRule rule = home.Agreement?.StorageRule ?? IntegrityRule.None;
        return home with
        {
            Service = home.Service with
            {
                Volts = panel.Volts,
                MainAmps = fit.MainAmps,
                ImportLimitKw = home.Service.ImportLimitKw is double stated ? Math.Min(stated, mainKw) : null,
                ExportLimitKw = exportKw,
                GuardedBusbarAmps = null,
                BusbarLimitKw = guardedKw / fit.GuardedLoadFraction,
            },
            Offers =
            [
                offer with
                {
                    BreakerAmps = fit.IsSetDown ? breakerAmps : fit.BreakerAmps,
                    Strategy = rule == IntegrityRule.None ? offer.Strategy : offer.Strategy with { Integrity = rule },
                },
            ],
        };
    }
}
