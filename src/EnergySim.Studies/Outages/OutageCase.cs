using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Outages;

/// <summary>One offer in one year of weather, ready to be asked: the everyday run, the outage, and what is held at every start.</summary>
internal sealed record OutageCase
{
    private readonly Lazy<EveryStart> _starts;
    private readonly SiteSeries _series;
    private readonly Service _service;

    private OutageCase(Offer offer, string weather, (SiteSeries Series, Service Service) site, Run everyday, OutageLoads loads, Run offGrid, OutageTerms terms)
    {
        (Offer, Weather, Everyday, Loads, OffGrid) = (offer, weather, everyday, loads, offGrid);
        (_series, _service) = site;
        _starts = new Lazy<EveryStart>(() => new EveryStart(offGrid, terms.HorizonHours * 60 / offGrid.Axis.StepMinutes));
        (StartKwh, EverydayMeter) = StartEnergies(everyday, offer, terms);
    }

    public Offer Offer { get; private init; }

    /// <summary>Name of the weather; empty = the home's own.</summary>
    public string Weather { get; }

    public Run Everyday { get; private init; }

    /// <summary>What the meters see every day; null = it was not asked for.</summary>
    public MeterColumns? EverydayMeter { get; private init; }

    public Run OffGrid { get; }

    public OutageLoads Loads { get; }

    /// <summary>Energy in the cells at each start, kWh.</summary>
    public double[] StartKwh { get; private init; }

    /// <exception cref="ArgumentException">The offer cannot be run, or a profile is not on the home's axis.</exception>
    public static OutageCase Of(Home home, TariffCalendar calendar, Offer offer, OutageTerms terms, WeatherYear? weather = null)
    {
        Home then = weather is null ? home : WithSolar(home, weather.Solar);
        var series = new SiteSeries(then, calendar);
        Run everyday = Installation.Of(offer, then.Service, series).Run;
        Home clouded = then;
        if (weather is null && terms.SolarInOutage is Profile other) clouded = WithSolar(clouded, other);
        if (terms.CloudFactor != 1 && clouded.Solar is HomeSolar sun) clouded = WithSolar(clouded, sun.Profile.Map(kw => kw * terms.CloudFactor));
        Run sunThen = ReferenceEquals(clouded, then) ? everyday : Installation.Of(offer, then.Service, new SiteSeries(clouded, calendar)).Run;
        OutageLoads loads = OutageLoads.Of(home.Load, terms.Kept);
        return new OutageCase(offer, weather?.Name ?? "", (series, then.Service), everyday, loads, OffGridOf(everyday, sunThen, loads, terms), terms);
    }

    /// <summary>The offer in the data's own weather, then in each other year's.</summary>
    /// <inheritdoc cref="Of"/>
    public static OutageCase[] InEveryWeather(Home home, TariffCalendar calendar, Offer offer, OutageTerms terms) =>
        [Of(home, calendar, offer, terms), .. terms.WeatherYears.Select(w => Of(home, calendar, offer, terms, w))];

    /// <summary>The same with another reserve: another everyday run, and so other energies at the starts; the outages themselves go on as before.</summary>
    public OutageCase WithReserve(double reserveFraction, OutageTerms terms)
    {
        Offer offer = Offer with { Strategy = Offer.Strategy with { ReserveFraction = reserveFraction } };
        Run everyday = Installation.Of(offer, _service, _series).Run;
        (double[] starts, MeterColumns? meter) = StartEnergies(everyday, offer, terms);
        return this with { Offer = offer, Everyday = everyday, EverydayMeter = meter, StartKwh = starts };
    }

    /// <summary>One outage with something else kept running: what is held at its start stays.</summary>
    public Run OffGridKeeping(KeptLoad kept, OutageTerms terms) => OffGridOf(Everyday, OffGrid, OutageLoads.Of(Everyday.Load, kept), terms);

    /// <summary>Lasting hours from every start.</summary>
    public StartOutcomes Walk() => _starts.Value.Walk(StartKwh);

    private static Run OffGridOf(Run everyday, Run sun, OutageLoads loads, OutageTerms terms) => new(
        loads.Always, sun.SolarDc, sun.SolarAc, everyday.Plant, everyday.Site with { ManagesLoad = terms.ManagesLoad },
        null, null, offGrid: true, terms.Rules with { Sheddable = loads.Sheddable });

    private static Home WithSolar(Home home, Profile solar)
    {
        if (home.Solar is not HomeSolar own) throw new ArgumentException("Other weather needs a home with solar.");
        if (!solar.Axis.IsSameAs(home.Load.Axis)) throw new ArgumentException("The solar of other weather is not on the axis of the home's load.");
        return home with { Solar = own with { Profile = solar } };
    }

    private static (double[] Kwh, MeterColumns? Meter) StartEnergies(Run everyday, Offer offer, OutageTerms terms)
    {
        if (terms.StartCharge is StartCharge.Everyday or StartCharge.Storm)
        {
            int lead = terms.StartCharge == StartCharge.Storm ? (int)Math.Round(terms.StormLeadHours * 60 / everyday.Axis.StepMinutes) : 0;
            var meter = new MeterColumns(everyday.Axis.Count);
            return (StormStarts.Of(everyday, meter, Preparing(everyday, offer), Math.Min(lead, everyday.Axis.Count)), meter);
        }
        var energies = new double[everyday.Axis.Count];
        double share = terms.StartCharge == StartCharge.Full ? 1 : offer.Strategy.ReserveFraction;
        Array.Fill(energies, everyday.Plant.LowestKwh + (share * everyday.Plant.UsableKwh));
        return (energies, null);
    }

    // All of the battery as reserve, filled from the grid too where the agreement lets it, in whatever hour and whatever the everyday strategy.
    private static SetPoints Preparing(Run everyday, Offer offer) => new Strategy
    {
        Base = Steering.SelfUse,
        Storm = new StormPreparation(everyday.Axis.Start, everyday.Axis.End, 1),
        Integrity = offer.Strategy.Integrity,
    }.Compile(everyday.Plant, everyday.Axis);
}
