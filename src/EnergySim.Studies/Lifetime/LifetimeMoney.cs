using EnergySim.Billing;
using EnergySim.Economics;
using EnergySim.Tariffs;
using NodaTime;

namespace EnergySim.Studies.Lifetime;

/// <summary>The simulated years in money: bills at each year's prices, and what each offer comes to.</summary>
/// <param name="AsItIs">The bills of the home as it is.</param>
/// <param name="Offers">The offers.</param>
internal sealed record LifetimeMoney(IReadOnlyList<AsItIsYear> AsItIs, IReadOnlyList<OfferMoney> Offers)
{
    /// <summary>Prices the years.</summary>
    /// <param name="flows">The years.</param>
    /// <param name="terms">What is assumed, nominal.</param>
    /// <param name="plans">For the dates of the years.</param>
    /// <param name="savingFactors">By offer, what every year's saving is multiplied by; null = as simulated.</param>
    public static LifetimeMoney Of(LifetimeFlows flows, MoneyTerms terms, PlanByYear plans, IReadOnlyList<double>? savingFactors = null)
    {
        var asItIs = new decimal[flows.Years.Count];
        decimal[][] bills = [.. flows.Offers.Select(_ => new decimal[flows.Years.Count])];
        for (int t = 0; t < asItIs.Length; t++)
        {
            YearConditions year = flows.Years[t];
            Tariff grown = GrownPlan.Of(year.Plan, terms.Growth);
            bool isGrown = !ReferenceEquals(grown, year.Plan.Tariff);
            TariffCalendar calendar = isGrown ? year.Calendar.WithPrices(grown) : year.Calendar;
            double export = GrownPlan.Factor(terms.Growth.Export, year.Plan.ExportGrowthYears);
            decimal Bill(MeterSums sums) => Biller.Total(isGrown ? sums.AtPrices(calendar, export) : sums);
            asItIs[t] = Bill(year.AsItIs);
            for (int i = 0; i < bills.Length; i++) bills[i][t] = Bill(flows.Offers[i].Years[t].Sums);
        }
        (LocalDate, int) first = (plans.FirstDayOf(1), plans.FirstDayOf(1).Year);
        return new LifetimeMoney(
            [.. flows.Years.Select((y, t) => new AsItIsYear(y.Year, plans.FirstDayOf(y.Year).Year, asItIs[t], y.LoadKwh, y.SolarKwh))],
            [.. flows.Offers.Select((o, i) => new OfferMoney(o, terms, first, asItIs, bills[i], savingFactors?[i] ?? 1))]);
    }
}
