using System.Globalization;
using EnergySim.Studies.Days;
using EnergySim.Studies.Outages;
using EnergySim.Studies.WiringFit;
using EnergySim.Tariffs;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Studies.Visit;

/// <summary>A home with the choices of the table laid over it.</summary>
public sealed record VisitHome
{
    private static readonly string[] s_numbers = ["No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten"];

    /// <summary>The home with its offers as chosen, at its own service.</summary>
    public required Home Home { get; init; }

    /// <summary>For each offer the home as the chosen way connects it; null = no way was chosen.</summary>
    public required IReadOnlyList<Home>? Connected { get; init; }

    /// <summary>What is asked of outages.</summary>
    public required OutageTerms Terms { get; init; }

    /// <summary>For each offer how the ways stand to the rules, without a run; empty = no wiring is stated.</summary>
    public required IReadOnlyList<OfferFits> Fits { get; init; }

    /// <summary>What the choices bring with them, a sentence each.</summary>
    public required IReadOnlyList<string> Notes { get; init; }

    /// <summary>True when the chosen way keeps nothing running in an outage.</summary>
    public bool KeepsNothing { get; init; }

    /// <summary>The home with one offer, as connected.</summary>
    /// <param name="offer">Its index.</param>
    public Home With(int offer) => Connected?[offer] ?? Home with { Offers = [Home.Offers[offer]] };

    /// <summary>One day of one column, hour by hour.</summary>
    /// <param name="calendar">The home's plan on the axis of its load.</param>
    /// <param name="column">0 = as it is, then the offers.</param>
    /// <param name="date">A day of the data.</param>
    /// <exception cref="ArgumentException">There is no such column, or the day is not in the data.</exception>
    public DayFlows Day(TariffCalendar calendar, int column, LocalDate date) => column > 0 && column <= Home.Offers.Count
        ? DayStudy.ByHour(With(column - 1), 1, date, calendar) : DayStudy.ByHour(Home, column, date, calendar);

    /// <summary>Lays choices over a home.</summary>
    /// <param name="home">The home as its files say.</param>
    /// <param name="terms">What its files ask of outages.</param>
    /// <param name="choices">The choices.</param>
    /// <exception cref="ArgumentException">A choice is out of its range, or names what the home does not have.</exception>
    public static VisitHome Of(Home home, OutageTerms terms, VisitChoices choices)
    {
        ArgumentNullException.ThrowIfNull(home);
        ArgumentNullException.ThrowIfNull(terms);
        ArgumentNullException.ThrowIfNull(choices);
        choices.Validate();
        foreach (string name in choices.Units.Keys.Concat(choices.Prices.Keys).Where(n => home.Offers.All(o => o.Name != n)))
            throw new ArgumentException($"There is no offer called \"{name}\"; there are {string.Join(", ", home.Offers.Select(o => o.Name))}.");
        var notes = new List<string>();
        Home chosen = home with
        {
            Offers = Named(home, [.. home.Offers.Select(o => Chosen(home, o, choices, notes))]),
            Money = choices.EnergyGrowthFraction is double growth ? home.Money with { Growth = home.Money.Growth.WithEnergy(growth) } : home.Money,
        };
        OfferFits[] fits = home.Wiring is WiringPlan plan ? [.. chosen.Offers.Select(o => OfferFits.Of(chosen, plan, o))] : [];
        WayToConnect? way = choices.Way is string wanted ? WayOf(home, wanted) : null;
        return new VisitHome
        {
            Home = chosen,
            Connected = way is null ? null : [.. chosen.Offers.Select((o, i) => ConnectedBy(chosen, o, fits[i], way, notes))],
            Terms = TermsOf(home, terms, choices, way),
            Fits = fits,
            Notes = notes,
            KeepsNothing = way?.Keeps == KeptRunning.Nothing,
        };
    }

    private static Offer Chosen(Home home, Offer offer, VisitChoices choices, List<string> notes)
    {
        Offer chosen = offer;
        if (choices.ReserveFraction is double reserve) chosen = chosen with { Strategy = chosen.Strategy with { ReserveFraction = reserve } };
        if (choices.Units.TryGetValue(offer.Name, out int units) && units != offer.Units)
        {
            Offer? alike = home.Offers.FirstOrDefault(o => o.Units == units && o.Battery.Name == offer.Battery.Name);
            double amps = offer.Battery.InverterKw * units * 1000 / home.Service.Volts;
            chosen = chosen with { Units = units, Price = offer.PriceOf(units) ?? alike?.Price, BreakerAmps = offer.BreakerAmps is null ? null : BusbarRules.BreakerFor(amps) };
            if (chosen.Price is null && !choices.Prices.ContainsKey(offer.Name)) notes.Add(Say($"No price is stated for {units} of {offer.Battery.Name}: what it comes to over the years is left open."));
        }
        return choices.Prices.TryGetValue(offer.Name, out decimal price) ? chosen with { Price = price } : chosen;
    }

    // A name that says how many must not lie.
    private static Offer[] Named(Home home, Offer[] chosen)
    {
        var taken = new HashSet<string>(StringComparer.Ordinal);
        for (int i = 0; i < chosen.Length; i++)
        {
            if (chosen[i].Units != home.Offers[i].Units)
            {
                string number = chosen[i].Units < s_numbers.Length ? s_numbers[chosen[i].Units] : chosen[i].Units.ToString(CultureInfo.InvariantCulture);
                chosen[i] = chosen[i] with { Name = $"{number} {(chosen[i].Units == 1 ? "battery" : "batteries")}" };
            }
            string name = chosen[i].Name;
            for (int n = 2; !taken.Add(chosen[i].Name); n++) chosen[i] = chosen[i] with { Name = Say($"{name} ({n})") };
        }
        return chosen;
    }

    private static Home ConnectedBy(Home home, Offer offer, OfferFits fits, WayToConnect way, List<string> notes)
    {
        WayFit fit = fits.Ways.First(f => f.Way.Name == way.Name);
        if (fit.MayBe) return WayHome.Of(home, offer, fit);
        notes.Add($"{offer.Name} may not be connected by {way.Name} ({fit.Why}); its figures are those of the offer as it stands.");
        return home with { Offers = [offer] };
    }

    private static OutageTerms TermsOf(Home home, OutageTerms terms, VisitChoices choices, WayToConnect? way)
    {
        foreach (string name in choices.Parts.Keys.Where(n => terms.Kept.Parts.All(p => p.Name != n)))
            throw new ArgumentException($"There is no part of the house called \"{name}\".");
        double? byWay = way?.Keeps switch
        {
            null or KeptRunning.Nothing => null,
            KeptRunning.KeptCircuits => home.Wiring!.KeptFraction,
            _ => 1,
        };
        KeptLoad kept = (choices.KeptFraction ?? byWay) is double share ? terms.Kept with { Base = LoadSource.Share(share) } : terms.Kept;
        return terms with
        {
            CloudFactor = choices.SunFraction ?? terms.CloudFactor,
            NamedHours = choices.OutageHours ?? terms.NamedHours,
            NamedStart = choices.OutageStart ?? terms.NamedStart,
            StartCharge = choices.Charge ?? terms.StartCharge,
            Kept = choices.Parts.Count == 0 ? kept : kept with
            {
                Parts = [.. kept.Parts.Select(p => choices.Parts.TryGetValue(p.Name, out bool runs) ? p with { KeptFraction = runs ? (p.KeptFraction > 0 ? p.KeptFraction : 1) : 0 } : p)],
            },
        };
    }

    private static WayToConnect WayOf(Home home, string name)
    {
        if (home.Wiring is not WiringPlan plan) throw new ArgumentException("The home states no wiring, so that there is no way to choose.");
        return plan.Ways.FirstOrDefault(w => w.Name == name)
            ?? throw new ArgumentException($"There is no way called \"{name}\"; there are {string.Join(", ", plan.Ways.Select(w => w.Name))}.");
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
