using System.Runtime.ExceptionServices;
using EnergySim.Studies.Outages;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Visit;

/// <summary>What must move at once when something is tried out: the columns side by side and the named outage.</summary>
public sealed record VisitAnswer
{
    /// <summary>The home as chosen.</summary>
    public required VisitHome Visit { get; init; }

    /// <summary>The columns.</summary>
    public required Comparison Comparison { get; init; }

    /// <summary>The named outage, an offer each; empty = the chosen way keeps nothing running.</summary>
    public required IReadOnlyList<OfferInOutage> Outage { get; init; }

    /// <summary>Works it out.</summary>
    /// <param name="visit">The home as chosen; its terms name the outage's start.</param>
    /// <param name="calendar">Its plan on the axis of its load.</param>
    /// <exception cref="ArgumentException">The start is not named or not in the data, a term is out of range, or an offer cannot be run.</exception>
    public static VisitAnswer Of(VisitHome visit, TariffCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(visit);
        OfferInOutage[] outage = new OfferInOutage[visit.KeepsNothing ? 0 : visit.Home.Offers.Count];
        try
        {
            Parallel.For(0, outage.Length, i => outage[i] = OfferInOutage.Of(visit.With(i), calendar, visit.Terms));
        }
        catch (AggregateException faults)
        {
            ExceptionDispatchInfo.Throw(faults.InnerExceptions[0]);
        }
        return new VisitAnswer
        {
            Visit = visit,
            Comparison = ComparisonStudy.Of(visit.Home, calendar, visit.Connected),
            Outage = outage,
        };
    }
}
