using EnergySim.Batches;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Wiring;

namespace EnergySim.Studies;

/// <summary>
/// What every offer to a home shares on its way to a run: the roof's power behind each inverter, windows laid onto the axis. Each is worked out once. May be asked on several threads.
/// </summary>
/// <param name="home">For its load and solar; offers and service are handed in.</param>
/// <param name="calendar">Its plan on its axis.</param>
internal sealed class SiteSeries(Home home, TariffCalendar calendar)
{
    private readonly Lock _lock = new();
    private readonly OfferSolar _solar = new(home.Solar);
    private readonly SetPoints _noBattery = SetPoints.Always(new SetPointRow(0, 0, 0, double.PositiveInfinity, double.PositiveInfinity), home.Load.Axis.Count);
    private readonly List<(IReadOnlyList<string> PeakPeriods, StrategyClock Clock)> _clocks = [];

    /// <summary>The plan on the axis.</summary>
    public TariffCalendar Calendar => calendar;

    /// <summary>The home as it is.</summary>
    public (Variant Case, double ClippedKwh) AsItIs(Service service) => (
        new Variant { Load = home.Load, SolarAc = _solar.Wall?.Ac, Plant = Plant.Nothing, Site = LimitsOf(service, null), SetPoints = _noBattery },
        _solar.Wall?.ClippedKwh ?? 0);

    /// <summary>The home with an offer, and the solar clipped above an inverter's or an input's rating, kWh in the measure of the profile.</summary>
    /// <exception cref="ArgumentException">It cannot be run.</exception>
    public (Variant Case, double ClippedKwh) Of(Offer offer, Service service)
    {
        (WallSolar? stays, Profile? moved, double clippedKwh) = _solar.Of(offer);
        SeparateSolarInverter? kept = offer.ReplacesSolarInverter ? null : new SeparateSolarInverter(home.Solar?.InverterKw);
        Plant plant = Plant.OfBatteries(offer.Battery, offer.Units, kept);
        var unasked = new Variant { Load = home.Load, SolarDc = moved, SolarAc = stays?.Ac, Plant = plant, Site = LimitsOf(service, offer.BreakerAmps), SetPoints = _noBattery };
        Variant told = unasked with { SetPoints = SetPointsOf(offer, unasked) };
        told.SetPoints.CheckNoCycling();
        return (told, stays?.ClippedKwh ?? clippedKwh);
    }

    private SetPoints SetPointsOf(Offer offer, Variant like)
    {
        Plant plant = like.Plant;
        if (StrategyCompiler.AsksOnlyTheClock(offer.Strategy)) return offer.Strategy.Compile(plant, ClockOf(offer.Strategy));
        Profile? ac = offer.ReplacesSolarInverter ? home.Solar!.Profile.Map(dc => Math.Min(dc * plant.InverterEfficiency, plant.InverterKw)) : _solar.Wall?.Ac;
        Variant resting = like with { SetPoints = SetPoints.Always(SetPoints.Outage(plant), home.Load.Axis.Count) };
        return StrategyCompiler.Compile(offer.Strategy, resting.ToRun(), ac, calendar);
    }

    private StrategyClock ClockOf(Strategy strategy)
    {
        lock (_lock)
        {
            foreach ((IReadOnlyList<string> periods, StrategyClock laid) in _clocks)
                if (laid.Fits(strategy) && periods.SequenceEqual(strategy.PeakPeriods)) return laid;
            StrategyClock clock = StrategyCompiler.Lay(strategy, calendar);
            _clocks.Add((strategy.PeakPeriods, clock));
            return clock;
        }
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
}

/// <summary>What the inverter on the wall makes of the roof's power.</summary>
/// <param name="Ac">AC behind it.</param>
/// <param name="ClippedKwh">What it clips above its rating, kWh in the measure of the profile.</param>
internal sealed record WallSolar(Profile Ac, double ClippedKwh)
{
    /// <summary>Of a home's solar; a metered AC profile stays as it is.</summary>
    public static WallSolar Of(HomeSolar solar)
    {
        if (!solar.IsDc) return new WallSolar(solar.Profile, 0);
        Profile ac = solar.Inverter().Convert(solar.Profile, out _, out double clippedDcKwh);
        return new WallSolar(ac, clippedDcKwh);
    }
}
