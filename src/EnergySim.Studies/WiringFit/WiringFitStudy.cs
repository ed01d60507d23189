using System.Globalization;
using EnergySim.Billing;
using EnergySim.Studies.Outages;
using EnergySim.Tariffs;
using EnergySim.Wiring;

namespace EnergySim.Studies.WiringFit;

/// <summary>Works out a <see cref="WiringComparison"/>: the same engine under each way to connect.</summary>
public static class WiringFitStudy
{
    /// <summary>Compares the ways to connect a home's offers.</summary>
    /// <param name="home">The home; its <see cref="Home.Wiring"/> must be stated.</param>
    /// <param name="terms">What is asked of outages; the kept share is the way's own. Null = the defaults.</param>
    /// <exception cref="ArgumentException">The wiring is not stated, or an offer cannot be run.</exception>
    public static WiringComparison Of(Home home, OutageTerms? terms = null)
    {
        ArgumentNullException.ThrowIfNull(home);
        return Of(home, terms ?? new OutageTerms(), new TariffCalendar(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw));
    }

    /// <summary>The same under a plan that was laid before.</summary>
    internal static WiringComparison Of(Home home, OutageTerms terms, TariffCalendar calendar)
    {
        if (home.Wiring is not WiringPlan plan) throw new ArgumentException("The home states no wiring: panel, edition and ways.", nameof(home));
        TariffVersion inForce = home.Tariff.Versions[calendar.VersionAtEndOf(calendar.Bills[0])];
        return new WiringComparison
        {
            Home = home.Name,
            Tariff = $"{home.Tariff.Name}, prices of {inForce.Effective.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture)}",
            Currency = home.Tariff.Currency,
            From = calendar.Bills[0].From,
            To = calendar.Bills[^1].To,
            Plan = plan,
            AsItIsBill = Biller.Total(MeterSums.Of(calendar, Installation.Of(home with { Offers = [] }, calendar)[0].Run.Sums().Meter)),
            Offers = SideBySide.Of(home.Offers, o => WaysOf(home, plan, o, new WayRunner(home, calendar, terms), calendar)),
            Notes = WiringNotes.Of(home, plan),
        };
    }

    private static OfferWays WaysOf(Home home, WiringPlan plan, Offer offer, WayRunner runner, TariffCalendar calendar)
    {
        SourceCurrents sources = WayHome.Sources(home, offer, plan.Panel.Volts);
        WayResult[] all = [.. plan.Ways.Select(way => Result(plan, offer, WayFitting.Of(way, plan, sources, offer.BreakerAmps), runner))];
        WayResult[] run = [.. all.Where(w => w.Run is not null).Select(w => w with { DominatedBy = Dominating(w, all)?.Fit.Way.Name }).OrderBy(w => w.Run!.YearsCost)];
        return new OfferWays
        {
            Offer = offer,
            Ways = [.. run, .. all.Where(w => w.Run is null)],
            Inverters = home.Solar is null ? [] : InverterChoices.Of(home, plan, offer, runner, calendar),
        };
    }

    private static WayResult Result(WiringPlan plan, Offer offer, WayFit fit, WayRunner runner)
    {
        IReadOnlyList<CostItem> costs = fit.Way.CostsOrPlaceholders;
        decimal wiring = costs.Sum(c => c.Labour + c.Parts);
        WayRun? run = fit.MayBe ? runner.Of(offer, fit, (offer.Price ?? 0) + wiring) : null;
        return new WayResult
        {
            Fit = fit,
            Costs = costs,
            Price = offer.Price + wiring,
            Run = run,
            BackupVerdicts = run?.Backup is WayBackup backup && fit.Way.Keeps != KeptRunning.KeptCircuits ? BackupRules.Ask(backup.PowerKw, plan) : [],
        };
    }

    private static WayResult? Dominating(WayResult one, WayResult[] all)
    {
        return all.FirstOrDefault(other => other.Run is not null && other != one && NoWorse(other) && Better(other));

        bool NoWorse(WayResult other) =>
            other.Run!.YearsCost <= one.Run!.YearsCost && Carries(other) >= Carries(one) && Hours(other) >= Hours(one) && Power(other) >= Power(one);
        bool Better(WayResult other) =>
            other.Run!.YearsCost < one.Run!.YearsCost || Carries(other) > Carries(one) || Hours(other) > Hours(one) || Power(other) > Power(one);
        static double Carries(WayResult way) => way.Run!.Backup?.KeptFraction ?? 0;
        static double Hours(WayResult way) => way.Run!.Backup?.Survival.HoursLastedBy(0.9) ?? 0;
        static double Power(WayResult way) => way.Run!.Backup?.PowerKw ?? 0;
    }
}
