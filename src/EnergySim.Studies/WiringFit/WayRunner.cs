using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Studies.Outages;
using EnergySim.Tariffs;
using EnergySim.Wiring;

namespace EnergySim.Studies.WiringFit;

/// <summary>
/// Runs an offer by one way after another: its bill, what each limit takes, and what it gives off the grid. Ways that come to the same home are
/// run once.
/// </summary>
internal sealed class WayRunner(Home home, TariffCalendar calendar, OutageTerms terms)
{
    private static readonly Limit[] s_asked = [Limit.InverterBreaker, Limit.Import, Limit.Export, Limit.Busbar];
    private readonly Dictionary<TariffCalendar, SiteSeries> _series = [];
    private readonly Dictionary<(TariffCalendar, RunKey), PricedRun> _runs = [];
    private readonly Dictionary<(RunKey, double), Survival> _lasting = [];
    private readonly Dictionary<(RunKey, Limit), decimal> _without = [];

    /// <summary>The bill of an offer by a way.</summary>
    public decimal Bill(Offer offer, WayFit fit, TariffCalendar on) => Installed(WayHome.Of(home, offer, fit), on).Bill;

    /// <summary>Everything about an offer by a way.</summary>
    public WayRun Of(Offer offer, WayFit fit, decimal price)
    {
        Home connected = WayHome.Of(home, offer, fit);
        PricedRun installed = Installed(connected, calendar);
        return new WayRun
        {
            Limits = installed.Run.Site,
            AnnualBill = installed.Bill,
            YearsCost = price + (home.Wiring!.Years * installed.Bill),
            Losses = [.. s_asked.Where(l => !double.IsPositiveInfinity(Of(installed.Run.Site, l))).Select(l => Loss(KeyOf(connected), installed, l))],
            OverloadKwh = installed.Flows.Kwh(LedgerColumn.OverloadKw),
            Backup = fit.Way.Keeps == KeptRunning.Nothing ? null : Backup(connected, fit, installed.Run),
        };
    }

    /// <summary>Most continuous power off the grid, kW AC.</summary>
    public static double BackupKw(Plant plant, SiteLimits site) =>
        Math.Min(Math.Min(plant.InverterKw, plant.DischargeLimitKw * plant.InverterEfficiency), Math.Min(site.InverterBreakerKw, site.BusbarKw));

    private static RunKey KeyOf(Home connected) => RunKey.Of(connected.Offers[0], connected.Service);

    private PricedRun Installed(Home connected, TariffCalendar on)
    {
        if (_runs.TryGetValue((on, KeyOf(connected)), out PricedRun? run)) return run;
        // Ways change service, breaker and rule; the series are the home's.
        if (!_series.TryGetValue(on, out SiteSeries? series)) _series.Add(on, series = new SiteSeries(home, on));
        Run made = Installation.Of(connected.Offers[0], connected.Service, series).Run;
        RunSums sums = made.Sums();
        return _runs[(on, KeyOf(connected))] = new PricedRun(made, sums.Flows, Priced(sums, on));
    }

    private LimitLoss Loss(RunKey key, PricedRun installed, Limit limit)
    {
        (Run run, RunFlows sums, decimal bill) = installed;
        double Withheld(params ReadOnlySpan<int> rules)
        {
            double kwh = 0;
            foreach (LimitSite site in Enum.GetValues<LimitSite>())
                if (Limits.LimitOf(site) == limit && rules.Contains(Limits.RuleOf(site))) kwh += sums.WithheldKwh(site);
            return kwh;
        }
        double hours = sums.BoundHours(limit);
        // A limit that never bound, and does not steer relief, changes nothing.
        bool matters = hours > 0 || (limit == Limit.Import && run.Site.RelievesImport);
        if (!matters) _without[(key, limit)] = bill;
        else if (!_without.ContainsKey((key, limit)))
            _without[(key, limit)] = Priced(new Run(run.Load, run.SolarDc, run.SolarAc, run.Plant, Without(run.Site, limit), run.SetPoints).Sums(), calendar);
        return new LimitLoss
        {
            Limit = limit,
            Hours = hours,
            ThrottledChargeKwh = Withheld(4, 6),
            ThrottledDischargeKwh = Withheld(3, 5, 8),
            CurtailedKwh = Withheld(7),
            BillCost = bill - _without[(key, limit)],
        };
    }

    private WayBackup Backup(Home connected, WayFit fit, Run run)
    {
        double kept = fit.Way.Keeps == KeptRunning.KeptCircuits ? home.Wiring!.KeptFraction : 1;
        if (!_lasting.TryGetValue((KeyOf(connected), kept), out Survival? lasting))
            _lasting.Add((KeyOf(connected), kept), lasting = OutageStudy.Lasting(connected, calendar, connected.Offers[0], terms with { Kept = KeptLoad.Share(kept) }));
        return new WayBackup { PowerKw = BackupKw(run.Plant, run.Site), KeptFraction = kept, Survival = lasting };
    }

    private static decimal Priced(RunSums sums, TariffCalendar on) => Biller.Total(MeterSums.Of(on, sums.Meter));

    private static double Of(SiteLimits site, Limit limit) => limit switch
    {
        Limit.InverterBreaker => site.InverterBreakerKw,
        Limit.Import => site.ImportKw,
        Limit.Export => site.ExportKw,
        _ => site.BusbarKw,
    };

    private static SiteLimits Without(SiteLimits site, Limit limit) => limit switch
    {
        Limit.InverterBreaker => site with { InverterBreakerKw = double.PositiveInfinity },
        Limit.Import => site with { ImportKw = double.PositiveInfinity },
        Limit.Export => site with { ExportKw = double.PositiveInfinity },
        _ => site with { BusbarKw = double.PositiveInfinity },
    };

    private sealed record PricedRun(Run Run, RunFlows Flows, decimal Bill);
}
