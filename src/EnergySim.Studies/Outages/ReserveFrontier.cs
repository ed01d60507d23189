using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Strategies;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Outages;

/// <summary>One reserve: what it saves and how long outages are lasted with it.</summary>
/// <param name="ReserveFraction">Share of usable energy kept back, 0–1.</param>
/// <param name="AnnualSaving">Against the home as it is, over the span of the data.</param>
/// <param name="Lasting">Hours lasted over all starts.</param>
/// <param name="WishFraction">Share of starts that last the wished hours.</param>
public sealed record FrontierPoint(double ReserveFraction, decimal AnnualSaving, Survival Lasting, double WishFraction);

/// <summary>An offer's reserves, from none to all.</summary>
public sealed record OfferFrontier
{
    /// <summary>The offer's name.</summary>
    public required string Name { get; init; }

    /// <summary>Number of battery units.</summary>
    public required int BatteryUnits { get; init; }

    /// <summary>Its reserve today.</summary>
    public required double ReserveFraction { get; init; }

    /// <summary>The points, rising reserve.</summary>
    public required IReadOnlyList<FrontierPoint> Points { get; init; }

    /// <summary>The reserve that fulfils the wish and saves the most; null = none of them fulfils it.</summary>
    public required FrontierPoint? Recommended { get; init; }
}

/// <summary>Money against hours as the reserve goes from 0 to 100 %.</summary>
public sealed record ReserveFrontier
{
    private const int StepPercent = 10;

    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>What must be said of its data under every figure.</summary>
    public required string Note { get; init; }

    /// <summary>The wish.</summary>
    public required OutageWish Wish { get; init; }

    /// <summary>ISO 4217 code of the money.</summary>
    public required string Currency { get; init; }

    /// <summary>Each offer.</summary>
    public required IReadOnlyList<OfferFrontier> Offers { get; init; }

    /// <summary>Runs and bills each offer with each reserve, and walks every start with it.</summary>
    /// <param name="home">The home.</param>
    /// <param name="terms">What is asked of outages; the charge is that of the everyday run, or after storm preparation where that is asked.</param>
    /// <exception cref="ArgumentException">A term is out of range, or the start charge does not depend on the everyday run.</exception>
    public static ReserveFrontier Of(Home home, OutageTerms terms)
    {
        ArgumentNullException.ThrowIfNull(home);
        return Of(home, terms, new TariffCalendar(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw));
    }

    /// <summary>The same under a plan that was laid before.</summary>
    internal static ReserveFrontier Of(Home home, OutageTerms terms, TariffCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(terms);
        terms.Validate();
        if (terms.StartCharge is not (StartCharge.Everyday or StartCharge.Storm))
            throw new ArgumentException("A frontier of the reserve asks what the everyday run holds: the start charge is everyday or storm.");
        decimal asItIs = BillOf(Installation.Of(home with { Offers = [] }, calendar)[0].Run.Sums().Meter, calendar);
        return new ReserveFrontier
        {
            Home = home.Name,
            Note = home.Note,
            Wish = terms.Wish,
            Currency = home.Tariff.Currency,
            Offers = SideBySide.Of(home.Offers, offer => OfferOf(home, calendar, terms, offer, asItIs)),
        };
    }

    private static OfferFrontier OfferOf(Home home, TariffCalendar calendar, OutageTerms terms, Offer offer, decimal asItIs)
    {
        var points = new List<FrontierPoint>();
        Offer none = offer with { Strategy = offer.Strategy with { ReserveFraction = 0 } };
        OutageCase[] years = OutageCase.InEveryWeather(home, calendar, none, terms);
        for (int percent = 0; percent <= 100; percent += StepPercent)
        {
            double reserve = percent / 100.0;
            if (percent > 0) years = [.. years.Select(y => y.WithReserve(reserve, terms))];
            Survival survival = OfferSums.Lasting([.. years.Select(y => y.Walk())]);
            points.Add(new FrontierPoint(reserve, asItIs - BillOf(years[0].EverydayMeter!, calendar), survival, survival.AtLeast(terms.Wish.Hours)!.Value));
        }
        return new OfferFrontier
        {
            Name = offer.Name,
            BatteryUnits = offer.Units,
            ReserveFraction = offer.Strategy.Base == Steering.Hold ? 1 : offer.Strategy.ReserveFraction,
            Points = points,
            // Of equal savings the lower reserve, which wears no more and leaves more to strategies to come.
            Recommended = points.Where(p => p.WishFraction >= terms.Wish.ShareOfStarts - 1e-12).OrderByDescending(p => p.AnnualSaving).ThenBy(p => p.ReserveFraction).FirstOrDefault(),
        };
    }

    private static decimal BillOf(MeterColumns meter, TariffCalendar calendar) => Biller.Total(MeterSums.Of(calendar, meter));
}
