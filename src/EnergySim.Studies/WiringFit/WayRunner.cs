using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Studies.Outages;
using EnergySim.Tariffs;
using EnergySim.Wiring;

namespace EnergySim.Studies.WiringFit;

/// <summary>Runs one offer by one way: its bill, what each limit takes, and what it gives off the grid.</summary>
internal sealed class WayRunner(Home home, TariffCalendar calendar, OutageTerms terms)
{
    private static readonly Limit[] s_asked = [Limit.InverterBreaker, Limit.Import, Limit.Export, Limit.Busbar];

    /// <summary>The bill of an offer by a way.</summary>
    public decimal Bill(Offer offer, WayFit fit, TariffCalendar on) => Priced(Installed(offer, fit, on).Run.Sums(), on);

    /// <summary>Everything about an offer by a way.</summary>
    public WayRun Of(Offer offer, WayFit fit, decimal price)
    {
        Installation installed = Installed(offer, fit, calendar);
        RunSums sums = installed.Run.Sums();
        decimal bill = Priced(sums, calendar);
        return new WayRun
        {
            Limits = installed.Run.Site,
            AnnualBill = bill,
            YearsCost = price + (home.Wiring!.Years * bill),
            Losses = [.. s_asked.Where(l => !double.IsPositiveInfinity(Of(installed.Run.Site, l))).Select(l => Loss(installed.Run, sums, bill, l))],
            OverloadKwh = sums.Kwh(LedgerColumn.OverloadKw),
            Backup = fit.Way.Keeps == KeptRunning.Nothing ? null : Backup(offer, fit, installed.Run),
        };
    }

    /// <summary>Most continuous power off the grid, kW AC.</summary>
    public static double BackupKw(Plant plant, SiteLimits site) =>
        Math.Min(Math.Min(plant.InverterKw, plant.DischargeLimitKw * plant.InverterEfficiency), Math.Min(site.InverterBreakerKw, site.BusbarKw));

    private Installation Installed(Offer offer, WayFit fit, TariffCalendar on) => Installation.Of(WayHome.Of(home, offer, fit), on)[1];

    private LimitLoss Loss(Run run, RunSums sums, decimal bill, Limit limit)
    {
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
        decimal without = matters ? Priced(new Run(run.Load, run.SolarDc, run.SolarAc, run.Plant, Without(run.Site, limit), run.SetPoints).Sums(), calendar) : bill;
        return new LimitLoss
        {
            Limit = limit,
            Hours = hours,
            ThrottledChargeKwh = Withheld(4, 6),
            ThrottledDischargeKwh = Withheld(3, 5, 8),
            CurtailedKwh = Withheld(7),
            BillCost = bill - without,
        };
    }

    private WayBackup Backup(Offer offer, WayFit fit, Run run)
    {
        double kept = fit.Way.Keeps == KeptRunning.KeptCircuits ? home.Wiring!.KeptFraction : 1;
        Home connected = WayHome.Of(home, offer, fit);
        Survival lasting = OutageStudy.Lasting(connected, calendar, connected.Offers[0], terms with { Kept = KeptLoad.Share(kept) });
        return new WayBackup { PowerKw = BackupKw(run.Plant, run.Site), KeptFraction = kept, Survival = lasting };
    }

    private static decimal Priced(RunSums sums, TariffCalendar on) => Biller.Bill(MeterSums.Of(on, sums.Meter)).Total;

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
}
