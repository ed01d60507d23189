using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Wiring;

namespace EnergySim.Studies;

/// <summary>One way a home can be: as it is, or with an offer. The run that stands for it, and what its solar gives.</summary>
public sealed record Installation
{
    /// <summary>Name of the first column.</summary>
    public const string AsItIs = "as it is";

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Number of battery units.</summary>
    public required int Units { get; init; }

    /// <summary>Price installed; null = none stated.</summary>
    public required decimal? Price { get; init; }

    /// <summary>The run.</summary>
    public required Run Run { get; init; }

    /// <summary>Solar that an inverter on the wall clips above its rating, or a battery's single solar inputs above theirs, kWh in the measure of the profile.</summary>
    public required double ClippedKwh { get; init; }

    /// <summary>The home as it is and with each of its offers, on the same series.</summary>
    /// <param name="home">The home.</param>
    /// <param name="calendar">Its plan on its axis.</param>
    /// <exception cref="ArgumentException">An offer cannot be run; the message begins with its name.</exception>
    public static IReadOnlyList<Installation> Of(Home home, TariffCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(home);
        ArgumentNullException.ThrowIfNull(calendar);
        WallSolar? wall = home.Solar is HomeSolar solar ? WallSolar.Of(solar) : null;
        var all = new List<Installation>
        {
            new()
            {
                Name = AsItIs,
                Units = 0,
                Price = null,
                Run = new Run(home.Load, null, wall?.Ac, Plant.Nothing, LimitsOf(home.Service, null), NoBattery(home.Load)),
                ClippedKwh = wall?.ClippedKwh ?? 0,
            },
        };
        foreach (Offer offer in home.Offers)
        {
            try
            {
                all.Add(Offered(home, offer, wall, calendar));
            }
            catch (ArgumentException fault)
            {
                throw new ArgumentException($"{offer.Name}: {fault.Message}", fault);
            }
        }
        return all;
    }

    private static Installation Offered(Home home, Offer offer, WallSolar? wall, TariffCalendar calendar)
    {
        if (offer.ReplacesSolarInverter && home.Solar is not { IsDc: true })
            throw new ArgumentException("it replaces the solar inverter, which needs a DC solar profile.");
        if (offer.SplitFraction > 0 && (offer.ReplacesSolarInverter || home.Solar is not { IsDc: true }))
            throw new ArgumentException("it splits the panels, which needs a DC solar profile and an inverter that stays.");
        WallSolar? stays = offer.SplitFraction > 0 ? WallSolar.Of(home.Solar! with { Profile = home.Solar.Profile.Map(dc => dc * (1 - offer.SplitFraction)) }) : wall;
        (Profile? moved, double clippedAtStrings) = offer.ReplacesSolarInverter
            ? Strings(home.Solar!, offer.Battery)
            : (offer.SplitFraction > 0 ? home.Solar!.Profile.Map(dc => dc * offer.SplitFraction) : null, 0);
        SeparateSolarInverter? kept = offer.ReplacesSolarInverter ? null : new SeparateSolarInverter(home.Solar?.InverterKw);
        Plant plant = Plant.OfBatteries(offer.Battery, offer.Units, kept);
        var like = new Run(home.Load, moved, offer.ReplacesSolarInverter ? null : stays?.Ac, plant, LimitsOf(home.Service, offer.BreakerAmps), Unasked(plant, home.Load));
        Profile? ac = offer.ReplacesSolarInverter ? home.Solar!.Profile.Map(dc => Math.Min(dc * plant.InverterEfficiency, plant.InverterKw)) : wall?.Ac;
        SetPoints setPoints = StrategyCompiler.Compile(offer.Strategy, like, ac, calendar);
        setPoints.CheckNoCycling();
        return new Installation
        {
            Name = offer.Name,
            Units = offer.Units,
            Price = offer.Price,
            Run = new Run(like.Load, like.SolarDc, like.SolarAc, plant, like.Site, setPoints),
            ClippedKwh = offer.ReplacesSolarInverter ? clippedAtStrings : stays?.ClippedKwh ?? 0,
        };
    }

    // A profile of unknown planes has no strings to clip one by one.
    private static (Profile Dc, double ClippedKwh) Strings(HomeSolar solar, Battery battery)
    {
        if (solar.Modelled is not ModelledRoof roof || double.IsInfinity(battery.SolarInputEachKw)) return (solar.Profile, 0);
        Profile past = roof.Output.PastInputs(battery.SolarInputEachKw, out double clippedKwh);
        return (past, clippedKwh);
    }

    private static SiteLimits LimitsOf(Service service, double? breakerAmps)
    {
        double Kw(double? amps) => amps is double a ? SiteLimits.ContinuousKw(a, service.Volts) : double.PositiveInfinity;
        return new SiteLimits
        {
            InverterBreakerKw = Kw(breakerAmps),
            ImportKw = service.ImportLimitKw ?? Kw(service.MainAmps),
            ExportKw = service.ExportLimitKw ?? double.PositiveInfinity,
            BusbarKw = service.BusbarLimitKw ?? Kw(service.GuardedBusbarAmps),
            RelievesImport = service.RelievesImport,
        };
    }

    private static SetPoints Unasked(Plant plant, Profile load) => SetPoints.Always(SetPoints.Outage(plant), load.Axis.Count);

    private static SetPoints NoBattery(Profile load) => SetPoints.Always(new SetPointRow(0, 0, 0, double.PositiveInfinity, double.PositiveInfinity), load.Axis.Count);

    /// <summary>What the inverter on the wall makes of the roof's power.</summary>
    internal sealed record WallSolar(Profile Ac, double ClippedKwh)
    {
        public static WallSolar Of(HomeSolar solar)
        {
            if (!solar.IsDc) return new WallSolar(solar.Profile, 0);
            Profile ac = solar.Inverter().Convert(solar.Profile, out _, out double clippedDcKwh);
            return new WallSolar(ac, clippedDcKwh);
        }
    }
}
