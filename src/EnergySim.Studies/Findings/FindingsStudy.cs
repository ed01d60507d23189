using EnergySim.Studies.Bills;
using EnergySim.Studies.Causes;
using EnergySim.Studies.Days;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.Outages;
using EnergySim.Studies.Solar;
using EnergySim.Studies.WiringFit;
using EnergySim.Tariffs;
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
        // What takes longest first.
        Task<(LifetimeResult? Result, string WhyNot)> lifetime = Task.Run(() => Years(home, terms));
        var calendar = new TariffCalendar(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw);
        Task<ReserveFrontier> reserve = Task.Run(() => ReserveFrontier.Of(home, terms, calendar));
        Task<OutageResult> outages = Task.Run(() => OutageStudy.Of(home, terms, null, calendar));
        Task<WiringComparison?> wiring = Task.Run(() => home.Wiring is null ? null : WiringFitStudy.Of(home, terms, calendar));
        Task<IReadOnlyList<SavingCauses>> causes = Task.Run(() => CauseStudy.Of(home, calendar));
        Task<Comparison> comparison = Task.Run(() => ComparisonStudy.Of(home, calendar));
        Task<(MonthHours Months, DayFlows[] Ordinary, DayFlows? Mean)>[] columns = [.. Enumerable.Range(0, home.Offers.Count + 1).Select(c => Task.Run(() => Column(home, c, calendar)))];
        Task<SolarYield?> sun = Task.Run(() => home.Solar is null ? null : SolarStudy.Of(home));
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
            OrdinaryDays = columns[1].GetAwaiter().GetResult().Ordinary,
            MeanDay = columns[1].GetAwaiter().GetResult().Mean!,
            ByMonthAndHour = [.. columns.Select(c => c.GetAwaiter().GetResult().Months)],
            Sun = sun.GetAwaiter().GetResult(),
            Outages = outages.GetAwaiter().GetResult(),
            Reserve = reserve.GetAwaiter().GetResult(),
            Wiring = ways,
            Sheets = ways is null ? [] : [.. ways.Offers.Where(o => o.Cheapest is not null).Select(o => SetPointSheet.Of(home, ways, o, null))],
            Lifetime = lifetime.GetAwaiter().GetResult().Result,
            WhyNoLifetime = lifetime.GetAwaiter().GetResult().WhyNot,
        };
    }

    // The year of a column, and the days that are shown of the first offer, from one run.
    private static (MonthHours Months, DayFlows[] Ordinary, DayFlows? Mean) Column(Home home, int column, TariffCalendar calendar)
    {
        var run = new ColumnRun(home, column, calendar);
        MonthHours months = MonthHours.Of(run);
        return column != 1 ? (months, [], null) : (months, [.. OrdinaryDays.Of(home).Select(date => DayStudy.Of(run, date))], DayStudy.Average(run));
    }

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
