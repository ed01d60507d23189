using EnergySim.Engine;
using EnergySim.Tariffs;
using NodaTime;

namespace EnergySim.Studies.Outages;

/// <summary>Works out an <see cref="OutageResult"/>: each offer in an outage from every start, and one outage in detail.</summary>
public static class OutageStudy
{
    private const int NightEndMinute = 6 * 60;

    /// <summary>Asks what outages do to a home's offers.</summary>
    /// <param name="home">The home.</param>
    /// <param name="terms">What is asked.</param>
    /// <exception cref="ArgumentException">A term is out of range, the named start is not in the data, or an offer cannot be run.</exception>
    public static OutageResult Of(Home home, OutageTerms terms) => Of(home, terms, null);

    /// <summary>The same with each offer connected in a way of its own.</summary>
    /// <param name="home">The home.</param>
    /// <param name="terms">What is asked.</param>
    /// <param name="connected">For each offer the home with that offer alone, as a way to connect makes it; null = the home's own service for all.</param>
    /// <inheritdoc cref="Of(Home, OutageTerms)"/>
    public static OutageResult Of(Home home, OutageTerms terms, IReadOnlyList<Home>? connected)
    {
        ArgumentNullException.ThrowIfNull(home);
        return Of(home, terms, connected, new TariffCalendar(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw));
    }

    /// <summary>The same under a plan that was laid before.</summary>
    internal static OutageResult Of(Home home, OutageTerms terms, IReadOnlyList<Home>? connected, TariffCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(terms);
        terms.Validate();
        if (home.Offers.Count == 0) throw new ArgumentException("The home has no offer.", nameof(home));
        (int Year, int Index)? named = terms.NamedStart is LocalDateTime at ? (0, StartIndex.Of(home.Load.Axis, at)) : null;
        (Home Then, Offer Offer)[] asked = [.. home.Offers.Select((o, i) => connected is null ? (home, o) : (connected[i], connected[i].Offers[0]))];
        IReadOnlyList<Walked> walked = SideBySide.Of(asked, a => Walked.Of(a.Then, OutageCase.InEveryWeather(a.Then, calendar, a.Offer, terms)));
        // The worst start of the first offer is told for all offers, so that they can be laid side by side.
        (int year, int start) = named ?? WorstStarts.Of(walked[0].Outcomes).First();
        IReadOnlyList<OfferOutages> offers = SideBySide.Of(walked, w =>
        {
            NamedOutage spell = NamedSpell.Of(w.Years[year], start, terms);
            return OfferSums.Of(w.Years, w.Outcomes, terms, new SpellTold(
                spell,
                CarryingChanges.Of(w.Then, calendar, terms, w.Years[year], start, spell),
                CarryCheck.Of(w.Years[0], terms, w.Then.Service.Volts, spell.Ledger.Sums.UnservedKwh)));
        });
        return new OutageResult
        {
            Home = home.Name,
            Terms = terms,
            Offers = offers,
            Pairs = [.. offers.Skip(1).Select(second => Paired(home.Load.Axis, offers[0], second))],
            Notes = OutageNotes.Of(home, terms, [.. walked.Select(w => w.Years[0])]),
        };
    }

    /// <summary>How long an offer serves the house, from every start of all years of weather, and nothing else of an outage.</summary>
    /// <param name="home">The home as it is connected.</param>
    /// <param name="calendar">Its plan on its axis.</param>
    /// <param name="offer">The offer.</param>
    /// <param name="terms">What is asked.</param>
    /// <exception cref="ArgumentException">A term is out of range, or the offer cannot be run.</exception>
    internal static Survival Lasting(Home home, TariffCalendar calendar, Offer offer, OutageTerms terms)
    {
        terms.Validate();
        return OfferSums.Lasting([.. OutageCase.InEveryWeather(home, calendar, offer, terms).Select(y => y.Walk())]);
    }

    private static PairedOutages Paired(Time.TimeAxis axis, OfferOutages first, OfferOutages second)
    {
        int same = 0, more = 0, night = 0, less = 0;
        for (int year = 0; year < first.ByWeather.Count; year++)
        {
            int[] one = first.ByWeather[year].Outcomes.LastingIntervals, two = second.ByWeather[year].Outcomes.LastingIntervals;
            for (int i = 0; i < axis.Count; i++)
            {
                if (one[i] == two[i]) same++;
                else if (two[i] < one[i]) less++;
                else
                {
                    more++;
                    int minutes = NightEndMinute - axis.LocalMinuteOf(i);
                    int morning = (minutes > 0 ? minutes : minutes + (24 * 60)) / axis.StepMinutes;
                    if (one[i] < morning && two[i] >= morning) night++;
                }
            }
        }
        double all = axis.Count * first.ByWeather.Count;
        return new PairedOutages
        {
            First = first.Name,
            Second = second.Name,
            AddsNothingFraction = same / all,
            AddsHoursFraction = more / all,
            CarriesNightFraction = night / all,
            TakesHoursFraction = less / all,
        };
    }

    // An offer walked from every start of all years of weather.
    private sealed record Walked(Home Then, IReadOnlyList<OutageCase> Years, IReadOnlyList<StartOutcomes> Outcomes)
    {
        public static Walked Of(Home then, IReadOnlyList<OutageCase> years) => new(then, years, [.. years.Select(y => y.Walk())]);
    }
}
