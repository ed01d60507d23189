using System.Globalization;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Wiring;

namespace EnergySim.Studies.WiringFit;

/// <summary>Keeps, replaces or splits today's inverter, each by the cheapest way that may be, and asks the agreement's rating guard.</summary>
internal static class InverterChoices
{
    // Share of the panels that a split moves where the offer names none.
    private const double UsualSplit = 0.5;

    public static IReadOnlyList<InverterResult> Of(Home home, WiringPlan plan, Offer offer, WayRunner runner, TariffCalendar calendar)
    {
        TariffCalendar? next = home.Agreement?.NewTariff is Tariff tariff ? new TariffCalendar(tariff, home.Load.Axis, home.Account, home.Load.Kw) : null;
        return [.. Enum.GetValues<InverterChoice>().Select(c => One(home, plan, offer, c, runner, calendar, next))];
    }

    private static InverterResult One(Home home, WiringPlan plan, Offer offered, InverterChoice choice, WayRunner runner, TariffCalendar calendar, TariffCalendar? next)
    {
        Offer offer = offered with
        {
            ReplacesSolarInverter = choice == InverterChoice.Replace,
            SplitFraction = choice != InverterChoice.Split ? 0 : offered.SplitFraction > 0 ? offered.SplitFraction : UsualSplit,
        };
        var none = new InverterResult { Choice = choice };
        if (choice != InverterChoice.Keep && home.Solar is not { IsDc: true }) return none with { WhyNot = "the solar profile is metered behind the inverter; a DC profile is needed" };
        if (choice != InverterChoice.Keep && offer.Battery.SolarInputKw == 0) return none with { WhyNot = "the battery has no solar inputs" };
        double capacity = Capacity(home, offer, choice);
        var result = none with
        {
            CapacityKw = capacity,
            KeepsAgreement = home.Agreement is Agreement a ? capacity <= a.MostKw + 1e-9 : null,
            AgreementArithmetic = home.Agreement is Agreement b ? Arithmetic(b, capacity) : null,
            WorkPrice = choice switch { InverterChoice.Keep => 0, InverterChoice.Replace => plan.ReplaceWorkPrice ?? PlaceholderCosts.ReplaceWork, _ => plan.SplitWorkPrice ?? PlaceholderCosts.SplitWork },
        };
        result = result with { WorkIsPlaceholder = choice switch { InverterChoice.Keep => false, InverterChoice.Replace => plan.ReplaceWorkPrice is null, _ => plan.SplitWorkPrice is null } };
        SourceCurrents sources = WayHome.Sources(home, offer, plan.Panel.Volts);
        (WayFit Fit, decimal Bill, decimal Wiring)? best = null;
        foreach (WayToConnect way in plan.Ways)
        {
            WayFit fit = WayFitting.Of(way, plan, sources, offer.BreakerAmps);
            if (!fit.MayBe) continue;
            decimal bill = runner.Bill(offer, fit, calendar);
            decimal wiring = way.CostsOrPlaceholders.Sum(c => c.Labour + c.Parts);
            if (best is null || wiring + (plan.Years * bill) < best.Value.Wiring + (plan.Years * best.Value.Bill)) best = (fit, bill, wiring);
        }
        if (best is not (WayFit chosen, decimal least, decimal price)) return result with { WhyNot = "none of the ways may be" };
        result = result with
        {
            Way = chosen.Way.Name,
            Bill = least,
            NewBill = next is null ? null : runner.Bill(offer, chosen, next),
            StorageRuleCost = RuleCost(home, offer, chosen, calendar, least),
        };
        return result with { YearsCost = (offer.Price ?? 0) + price + result.WorkPrice + (plan.Years * result.BillThatHolds) };
    }

    // Common practice (TRADE §2.1 names the utilities' count): an AC-coupled battery adds its rating where the agreement counts storage; an
    // inverter that panels are wired to always counts.
    private static double Capacity(Home home, Offer offer, InverterChoice choice)
    {
        double battery = offer.Battery.InverterKw * offer.Units, solar = home.Solar!.InverterKw ?? home.Solar.Profile.Kw.ToArray().Max();
        return choice switch
        {
            InverterChoice.Keep => solar + (home.Agreement?.CountsStorage == true ? battery : 0),
            InverterChoice.Replace => battery,
            _ => solar + battery,
        };
    }

    private static string Arithmetic(Agreement agreement, double capacity)
    {
        double share = agreement.GrowthFraction * agreement.AuthorisedKw;
        return string.Create(CultureInfo.InvariantCulture,
            $"{capacity:0.##} kW {(capacity <= agreement.MostKw + 1e-9 ? "≤" : ">")} {agreement.AuthorisedKw:0.##} kW authorised + {(agreement.GrowthRule == GrowthRule.Lesser ? "lesser" : "greater")} of {share:0.##} and {agreement.GrowthKw:0.##} kW = {agreement.MostKw:0.##} kW");
    }

    private static decimal? RuleCost(Home home, Offer offer, WayFit fit, TariffCalendar calendar, decimal bill)
    {
        if (home.Agreement is not { StorageRule: not IntegrityRule.None } agreement) return null;
        var free = new WayRunner(home with { Agreement = agreement with { StorageRule = IntegrityRule.None } }, calendar, new Outages.OutageTerms());
        return bill - free.Bill(offer, fit, calendar);
    }
}
