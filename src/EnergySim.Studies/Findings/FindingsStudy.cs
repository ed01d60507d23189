using EnergySim.Studies.Bills;
using EnergySim.Studies.Causes;
using EnergySim.Studies.Days;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.Outages;
using EnergySim.Studies.Solar;
using EnergySim.Studies.WiringFit;
using NodaTime;

namespace EnergySim.Studies.Findings;

/// <summary>Asks every question that a report answers. The questions are asked side by side; none knows of another.</summary>
public static class FindingsStudy
{
    /// <summary>Asks a home.</summary>
    /// <param name="home">The home, with at least one offer.</param>
    /// <param name="outage">What is asked of outages; null = the defaults.</param>
    /// <exception cref="ArgumentException">There is no offer, the plan does not fit the axis, or an offer cannot be run.</exception>
    public static HomeFindings Of(Home home, OutageTerms? outage = null)
    {
        ArgumentNullException.ThrowIfNull(home);
        if (home.Offers.Count == 0) throw new ArgumentException("The home has no offer.", nameof(home));
        OutageTerms terms = outage ?? new OutageTerms();
        Task<Comparison> comparison = Task.Run(() => ComparisonStudy.Of(home));
        Task<IReadOnlyList<SavingCauses>> causes = Task.Run(() => CauseStudy.Of(home));
        Task<OutageResult> outages = Task.Run(() => OutageStudy.Of(home, terms));
        Task<ReserveFrontier> reserve = Task.Run(() => ReserveFrontier.Of(home, terms));
        Task<(LifetimeResult? Result, string WhyNot)> lifetime = Task.Run(() => Years(home, terms));
        Task<WiringComparison?> wiring = Task.Run(() => home.Wiring is null ? null : WiringFitStudy.Of(home, terms));
        Task<(IReadOnlyList<DayFlows> Ordinary, DayFlows Mean)> days = Task.Run(() => Days(home));
        Task<IReadOnlyList<MonthHours>> months = Task.Run(() => (IReadOnlyList<MonthHours>)[.. Enumerable.Range(0, home.Offers.Count + 1).Select(c => MonthHours.Of(home, c))]);
        Comparison compared = comparison.GetAwaiter().GetResult();
        WiringComparison? ways = wiring.GetAwaiter().GetResult();
        return new HomeFindings
        {
            Place = home.Place,
            HasSolar = home.Solar is not null,
            Utility = home.Tariff.Publisher,
            Days = Period.DaysBetween(compared.From, compared.To) + 1,
            Comparison = compared,
            BillLines = [.. Enumerable.Range(1, home.Offers.Count).Select(c => OfferLines.Of(compared, c))],
            Causes = causes.GetAwaiter().GetResult(),
            OrdinaryDays = days.GetAwaiter().GetResult().Ordinary,
            MeanDay = days.GetAwaiter().GetResult().Mean,
            ByMonthAndHour = months.GetAwaiter().GetResult(),
            Sun = home.Solar is null ? null : SolarStudy.Of(home),
            Outages = outages.GetAwaiter().GetResult(),
            Reserve = reserve.GetAwaiter().GetResult(),
            Wiring = ways,
            Sheets = ways is null ? [] : [.. ways.Offers.Where(o => o.Cheapest is not null).Select(o => SetPointSheet.Of(home, ways, o, null))],
            Lifetime = lifetime.GetAwaiter().GetResult().Result,
            WhyNoLifetime = lifetime.GetAwaiter().GetResult().WhyNot,
        };
    }

    private static (IReadOnlyList<DayFlows> Ordinary, DayFlows Mean) Days(Home home) =>
        ([.. OrdinaryDays.Of(home).Select(date => DayStudy.Of(home, 1, date))], DayStudy.Average(home, 1));

    // Data that are not of a year can not be laid into years to come; that is told, not refused.
    private static (LifetimeResult? Result, string WhyNot) Years(Home home, OutageTerms terms)
    {
        try
        {
            return (LifetimeStudy.Of(home, terms), "");
        }
        catch (ArgumentException fault)
        {
            return (null, fault.Message);
        }
    }
}
