using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Outages;

/// <summary>One offer in one year of weather, ready to be asked: the everyday run, the outage, and what is held at every start.</summary>
internal sealed record OutageCase
{
    public required Offer Offer { get; init; }

    /// <summary>Name of the weather; empty = the home's own.</summary>
    public required string Weather { get; init; }

    public required Run Everyday { get; init; }

    public required Run OffGrid { get; init; }

    public required OutageLoads Loads { get; init; }

    /// <summary>Energy in the cells at each start, kWh.</summary>
    public required double[] StartKwh { get; init; }

    /// <exception cref="ArgumentException">The offer cannot be run, or a profile is not on the home's axis.</exception>
    public static OutageCase Of(Home home, TariffCalendar calendar, Offer offer, OutageTerms terms, WeatherYear? weather = null)
    {
        Home then = home with { Offers = [offer] };
        if (weather is not null) then = WithSolar(then, weather.Solar);
        Run everyday = Installation.Of(then, calendar)[1].Run;
        Home clouded = then;
        if (weather is null && terms.SolarInOutage is Profile other) clouded = WithSolar(clouded, other);
        if (terms.CloudFactor != 1 && clouded.Solar is HomeSolar sun) clouded = WithSolar(clouded, sun.Profile.Map(kw => kw * terms.CloudFactor));
        Run sunThen = ReferenceEquals(clouded, then) ? everyday : Installation.Of(clouded, calendar)[1].Run;
        OutageLoads loads = OutageLoads.Of(home.Load, terms.Kept);
        return new OutageCase
        {
            Offer = offer,
            Weather = weather?.Name ?? "",
            Everyday = everyday,
            Loads = loads,
            OffGrid = new Run(
                loads.Always, sunThen.SolarDc, sunThen.SolarAc, everyday.Plant, everyday.Site with { ManagesLoad = terms.ManagesLoad },
                null, null, offGrid: true, terms.Rules with { Sheddable = loads.Sheddable }),
            StartKwh = StartEnergies(everyday, offer, terms),
        };
    }

    /// <summary>Lasting hours from every start.</summary>
    public StartOutcomes Walk(OutageTerms terms) => new EveryStart(OffGrid, terms.HorizonHours * 60 / OffGrid.Axis.StepMinutes).Walk(StartKwh);

    private static Home WithSolar(Home home, Profile solar)
    {
        if (home.Solar is not HomeSolar own) throw new ArgumentException("Other weather needs a home with solar.");
        if (!solar.Axis.IsSameAs(home.Load.Axis)) throw new ArgumentException("The solar of other weather is not on the axis of the home's load.");
        return home with { Solar = own with { Profile = solar } };
    }

    private static double[] StartEnergies(Run everyday, Offer offer, OutageTerms terms)
    {
        if (terms.StartCharge is StartCharge.Everyday or StartCharge.Storm)
        {
            int lead = terms.StartCharge == StartCharge.Storm ? (int)Math.Round(terms.StormLeadHours * 60 / everyday.Axis.StepMinutes) : 0;
            return StormStarts.Of(everyday, Preparing(everyday, offer), Math.Min(lead, everyday.Axis.Count));
        }
        var energies = new double[everyday.Axis.Count];
        double share = terms.StartCharge == StartCharge.Full ? 1 : offer.Strategy.ReserveFraction;
        Array.Fill(energies, everyday.Plant.LowestKwh + (share * everyday.Plant.UsableKwh));
        return energies;
    }

    // All of the battery as reserve, filled from the grid too where the agreement lets it, in whatever hour and whatever the everyday strategy.
    private static SetPoints Preparing(Run everyday, Offer offer) => new Strategy
    {
        Base = Steering.SelfUse,
        Storm = new StormPreparation(everyday.Axis.Start, everyday.Axis.End, 1),
        Integrity = offer.Strategy.Integrity,
    }.Compile(everyday.Plant, everyday.Axis);
}
