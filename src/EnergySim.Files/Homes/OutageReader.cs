using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Reads the outage questions of a home file. What is left out has the default of <see cref="OutageTerms"/>.</summary>
/// <param name="house">The house's load; null when it could not be read (then profiles are not checked against it).</param>
/// <param name="profile">Reads a profile section; null with problems.</param>
internal sealed class OutageReader(Profile? house, Func<YamlMap, Profile?> profile)
{
    private static readonly Bounds s_sun = new(0, 2, "the share of the sun that is left lies between 0 and 2, or 0 % and 200 %");
    private readonly OutageTerms _defaults = new();

    /// <summary>The terms; meaningless where problems were reported.</summary>
    public OutageTerms Read(YamlMap home)
    {
        if (home.Map("outage", OutageSections.Outage) is not YamlMap map) return _defaults;
        bool? trips = map.Text("overload")?.Choice(("shed", false), ("trip", true));
        StartCharge charge = map.Text("charge")?.Choice(
            ("everyday", StartCharge.Everyday), ("full", StartCharge.Full), ("reserve", StartCharge.Reserve), ("storm", StartCharge.Storm)) ?? _defaults.StartCharge;
        if (map.Has("stormLeadHours") && charge != StartCharge.Storm) map.ReportWhole("stormLeadHours", "only charge: storm has a lead");
        int horizon = map.Text("horizonHours")?.Whole(1, 8760) ?? _defaults.HorizonHours;
        return new OutageTerms
        {
            NamedStart = map.Text("start") is YamlText start ? At(start) : null,
            NamedHours = map.Text("hours")?.Whole(1, 8760) ?? _defaults.NamedHours,
            HorizonHours = horizon,
            CloudFactor = map.Text("sun")?.Share(s_sun) ?? _defaults.CloudFactor,
            CloudFactorByDay = [.. map.Texts("sunByDay").Select(t => t.Share(s_sun)).OfType<double>()],
            SolarInOutage = Solar(map),
            IsTypicalYear = map.Has("typicalYear") ? map.Flag("typicalYear", false) : null,
            WeatherYears = [.. map.Maps("weatherYears", OutageSections.WeatherYear).Select(Weather).OfType<WeatherYear>()],
            StartCharge = charge,
            StormLeadHours = map.Number("stormLeadHours", new Bounds(0, 336)) ?? _defaults.StormLeadHours,
            ManagesLoad = trips != true,
            Kept = new KeptReader(house, profile).Read(map),
            Rules = Rules(map),
            Motors = [.. map.Maps("motors", OutageSections.Motor).Select(MotorReader.Read)],
            Legs = Legs(map),
            Wish = Wish(map, horizon),
            Durations = map.Map("durations", OutageSections.Durations) is YamlMap d ? Durations(d) : null,
        };
    }

    private static LocalDateTime? At(YamlText text)
    {
        if (OutageTerms.TryParseStart(text.Value, out LocalDateTime at)) return at;
        text.Report("is no local date and time; write 2025-01-15T18:00");
        return null;
    }

    private Profile? Solar(YamlMap map)
    {
        if (map.Map("solarInOutage", HomeSections.Load) is not YamlMap section || profile(section) is not Profile own) return null;
        if (house is null || own.Axis.IsSameAs(house.Axis)) return own;
        section.ReportHere($"it has {ProfileFile.Text(own.Axis)}, the load has {ProfileFile.Text(house.Axis)}; they must be the same");
        return null;
    }

    private WeatherYear? Weather(YamlMap map)
    {
        if (profile(map) is not Profile own || house is null) return null;
        LocalDateTime first = own.Axis.OffsetStartOf(0).LocalDateTime, wanted = house.Axis.OffsetStartOf(0).LocalDateTime;
        bool fits = own.Axis.StepMinutes == house.Axis.StepMinutes && own.Axis.Count == house.Axis.Count
            && (first.Month, first.Day, first.TimeOfDay) == (wanted.Month, wanted.Day, wanted.TimeOfDay);
        if (fits) return new WeatherYear(map.Name("name"), new Profile(house.Axis, own.Kw));
        map.ReportHere($"it has {ProfileFile.Text(own.Axis)}, the load has {ProfileFile.Text(house.Axis)}; but for the year they must be the same");
        return null;
    }

    private static OutageRules Rules(YamlMap map)
    {
        YamlMap? restart = map.Map("restart", OutageSections.Restart);
        bool Itself(string key) => restart?.Text(key)?.Choice(("itself", true), ("by-hand", false)) ?? true;
        bool afterTrip = Itself("afterTrip"), afterEmpty = Itself("afterEmpty");
        if (restart is not null && restart.Has("byHandAfterHours") && afterTrip && afterEmpty)
            restart.ReportWhole("byHandAfterHours", "nothing is restarted by hand here; say so with afterTrip or afterEmpty");
        double held = restart?.Text("heldBack")?.Share(new Bounds(0, 0.9)) ?? 0;
        bool tries = restart?.Flag("triesWithSun", false) ?? false;
        if (tries && held == 0) restart!.ReportWhole("triesWithSun", "to form the grid again some energy must be held back; state heldBack");
        return new OutageRules
        {
            RestartsAfterTrip = afterTrip,
            RestartsAfterEmpty = afterEmpty,
            ByHandAfterHours = restart?.Number("byHandAfterHours", Bounds.NotNegative),
            HeldBackFraction = held,
            TriesWithSun = tries && held > 0,
            Generator = map.Map("generator", OutageSections.Generator) is YamlMap g ? GeneratorOf(g) : null,
        };
    }

    private static Generator GeneratorOf(YamlMap map)
    {
        var generator = new Generator { Kw = map.Number("kw", Bounds.AboveZero) ?? 1 };
        generator = generator with
        {
            StartBelowFraction = map.Share("startBelow") ?? generator.StartBelowFraction,
            StopAboveFraction = map.Share("stopAbove") ?? generator.StopAboveFraction,
            FuelKwh = map.Number("fuelKwh", Bounds.NotNegative) ?? generator.FuelKwh,
            RunsBesideSeparateSolar = map.Flag("besideSolar", false),
        };
        if (generator.StopAboveFraction <= generator.StartBelowFraction) map.ReportHere("stopAbove is not above startBelow");
        return generator;
    }

    private static LegShares? Legs(YamlMap map)
    {
        if (!map.Has("legs")) return null;
        double[] shares = [.. map.Texts("legs").Select(t => t.Share(Bounds.Share)).OfType<double>()];
        if (shares.Length != 2) map.ReportWhole("legs", "two shares are wanted, one a leg; what is left of them lies between the legs");
        else if (shares[0] + shares[1] > 1 + 1e-9) map.ReportWhole("legs", "the two shares are together above 1");
        else return new LegShares(shares[0], shares[1]);
        return null;
    }

    private OutageWish Wish(YamlMap map, int horizon)
    {
        OutageWish wish = _defaults.Wish;
        if (map.Map("wish", OutageSections.Wish) is YamlMap w)
            wish = new OutageWish(
                w.Number("hours", new Bounds(0, horizon, "a wish lies within the horizon", true)) ?? wish.Hours,
                w.Text("share")?.Share(new Bounds(0, 1, LeastExcluded: true)) ?? wish.ShareOfStarts);
        return wish with { Hours = Math.Min(wish.Hours, horizon) };
    }

    private static OutageDurations Durations(YamlMap map)
    {
        double Above(string key) => map.Number(key, Bounds.AboveZero) ?? 1;
        double? minutes = map.Number("ordinarySaidiMinutes", Bounds.AboveZero), count = map.Number("ordinarySaifi", Bounds.AboveZero);
        double saidi = Above("saidiMinutes"), saifi = Above("saifi");
        if (map.Has("ordinarySaidiMinutes") != map.Has("ordinarySaifi")) map.ReportHere("ordinarySaidiMinutes and ordinarySaifi come together");
        if (minutes > saidi) map.Report("ordinarySaidiMinutes", "is above saidiMinutes, which counts all events");
        if (count > saifi) map.Report("ordinarySaifi", "is above saifi, which counts all events");
        return OutageDurations.OfIndices(map.Name("source"), saidi, saifi, minutes, count);
    }
}
