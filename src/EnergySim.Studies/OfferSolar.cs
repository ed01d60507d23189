using EnergySim.Profiles;

namespace EnergySim.Studies;

/// <summary>
/// The roof's power on its way to an offer's inverters: what today's inverter makes of it, panels moved to the battery's inputs. Each is worked out
/// once. May be asked on several threads.
/// </summary>
internal sealed class OfferSolar
{
    private readonly HomeSolar? _solar;
    private readonly Lock _lock = new();
    private readonly Dictionary<double, (WallSolar Stays, Profile Moved)> _splits = [];
    private readonly Dictionary<double, (Profile Moved, double ClippedKwh)> _strings = [];

    /// <param name="solar">The data's solar; null = none.</param>
    /// <param name="factor">What all its power is multiplied by, ≥ 0.</param>
    public OfferSolar(HomeSolar? solar, double factor = 1)
    {
        _solar = solar is null ? null : solar with { Profile = solar.Profile.Scaled(factor) };
        Wall = _solar is null ? null : WallSolar.Of(_solar);
    }

    /// <summary>What the panels give, kWh in the measure of the profile.</summary>
    public double Kwh => _solar?.Profile.EnergyKwh ?? 0;

    /// <summary>All of it behind today's inverter; null = there is none.</summary>
    public WallSolar? Wall { get; }

    /// <summary>What stays behind today's inverter, what goes to the battery's inputs, and the latter's clipping, kWh DC.</summary>
    /// <param name="offer">The offer.</param>
    /// <exception cref="ArgumentException">It moves panels, and no DC profile is known.</exception>
    public (WallSolar? Stays, Profile? Moved, double ClippedKwh) Of(Offer offer)
    {
        if (offer.ReplacesSolarInverter && _solar is not { IsDc: true })
            throw new ArgumentException("it replaces the solar inverter, which needs a DC solar profile.");
        if (offer.SplitFraction > 0 && (offer.ReplacesSolarInverter || _solar is not { IsDc: true }))
            throw new ArgumentException("it splits the panels, which needs a DC solar profile and an inverter that stays.");
        if (offer.SplitFraction > 0)
        {
            (WallSolar stays, Profile moved) = Split(offer.SplitFraction);
            return (stays, moved, 0);
        }
        if (!offer.ReplacesSolarInverter) return (Wall, null, 0);
        (Profile all, double clippedKwh) = Strings(offer.Battery.SolarInputEachKw);
        return (null, all, clippedKwh);
    }

    private (WallSolar Stays, Profile Moved) Split(double fraction)
    {
        lock (_lock)
        {
            if (_splits.TryGetValue(fraction, out (WallSolar Stays, Profile Moved) split)) return split;
            Profile all = _solar!.Profile;
            return _splits[fraction] = (WallSolar.Of(_solar with { Profile = all.Map(dc => dc * (1 - fraction)) }), all.Map(dc => dc * fraction));
        }
    }

    // A profile of unknown planes has no strings to clip one by one.
    private (Profile Moved, double ClippedKwh) Strings(double inputEachKw)
    {
        if (_solar!.Modelled is not ModelledRoof roof || double.IsInfinity(inputEachKw)) return (_solar.Profile, 0);
        lock (_lock)
        {
            if (_strings.TryGetValue(inputEachKw, out (Profile Moved, double ClippedKwh) strings)) return strings;
            return _strings[inputEachKw] = (roof.Output.PastInputs(_solar.Profile, inputEachKw, out double clippedKwh), clippedKwh);
        }
    }
}
