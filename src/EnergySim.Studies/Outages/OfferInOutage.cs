using EnergySim.Tariffs;

namespace EnergySim.Studies.Outages;

/// <summary>One offer in the named outage alone: no other start is asked.</summary>
/// <param name="Offer">The offer's name.</param>
/// <param name="BatteryUnits">Number of battery units.</param>
/// <param name="Named">The outage.</param>
/// <param name="Verdicts">Can it carry the house: power, starting current, energy.</param>
public sealed record OfferInOutage(string Offer, int BatteryUnits, NamedOutage Named, CarryVerdicts Verdicts)
{
    /// <summary>Works it out.</summary>
    /// <param name="home">A home with one offer.</param>
    /// <param name="calendar">Its plan on the axis of its load.</param>
    /// <param name="terms">What is asked; <see cref="OutageTerms.NamedStart"/> must be stated.</param>
    /// <exception cref="ArgumentException">The start is not stated or not in the data, a term is out of range, or the offer cannot be run.</exception>
    public static OfferInOutage Of(Home home, TariffCalendar calendar, OutageTerms terms)
    {
        ArgumentNullException.ThrowIfNull(home);
        ArgumentNullException.ThrowIfNull(calendar);
        ArgumentNullException.ThrowIfNull(terms);
        terms.Validate();
        if (terms.NamedStart is not { } at) throw new ArgumentException("The start of the outage is not named.", nameof(terms));
        Offer offer = home.Offers[0];
        OutageCase one = OutageCase.Of(home, calendar, offer, terms);
        NamedOutage named = NamedSpell.Of(one, StartIndex.Of(home.Load.Axis, at), terms);
        return new OfferInOutage(offer.Name, offer.Units, named, CarryCheck.Of(one, terms, home.Service.Volts, named.Ledger.Sums.UnservedKwh));
    }

    /// <summary>The local start that lasts the least with the first offer.</summary>
    /// <inheritdoc cref="Of"/>
    public static NodaTime.LocalDateTime WorstStart(Home home, TariffCalendar calendar, OutageTerms terms)
    {
        ArgumentNullException.ThrowIfNull(home);
        ArgumentNullException.ThrowIfNull(terms);
        terms.Validate();
        OutageCase one = OutageCase.Of(home, calendar, home.Offers[0], terms);
        return home.Load.Axis.OffsetStartOf(WorstStarts.Of([one.Walk()]).First().Index).LocalDateTime;
    }
}
