using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>Reads an offer and its strategy.</summary>
internal static class OfferReader
{
    /// <summary>The offer; null, with problems, when something of it does not fit.</summary>
    public static Offer? Read(YamlMap map, IReadOnlyDictionary<string, Battery> batteries, Tariff? tariff, HomeSolar? solar)
    {
        int before = map.Reported;
        string? battery = map.Text("battery")?.Name("battery of this home", [.. batteries.Keys]);
        bool replaces = map.Flag("replacesSolarInverter", false);
        if (replaces && solar is not { IsDc: true }) map.ReportWhole("replacesSolarInverter", "the battery's inverter can take the place of the solar inverter only where a dc solar profile or roof planes are given");
        double split = map.Share("splitFraction") ?? 0;
        if (split > 0 && (replaces || solar is not { IsDc: true })) map.ReportWhole("splitFraction", "part of the panels can go onto the battery's inputs only where a dc solar profile is given and today's inverter stays");
        var offer = new Offer
        {
            Name = map.Name("offer"),
            Battery = battery is null ? new Battery { Name = "", CapacityKwh = 1, ChargeLimitKw = 1, DischargeLimitKw = 1, InverterKw = 1 } : batteries[battery],
            Units = map.Text("units")?.Whole(1, 50) ?? 1,
            Price = map.Money("price", negative: false),
            BreakerAmps = map.Number("breakerAmps", Bounds.AboveZero),
            ReplacesSolarInverter = replaces,
            SplitFraction = split,
            Strategy = map.Map("strategy", HomeSections.Strategy) is YamlMap s ? ReadStrategy(s, tariff) : new Strategy { Base = Steering.SelfUse },
        };
        if (replaces && solar?.Modelled is { } roof && offer.Battery.SolarInputs * offer.Units is int inputs && roof.Roof.Planes.Sum(p => p.Strings) is int strings && strings > inputs)
            map.ReportWhole("replacesSolarInverter", $"the roof's planes make {strings} strings, the battery inverter has {inputs} solar {(inputs == 1 ? "input" : "inputs")}");
        return map.Reported == before ? offer : null;
    }

    private static Strategy ReadStrategy(YamlMap map, Tariff? tariff)
    {
        int before = map.Reported;
        Steering steering = map.Text("base")?.Choice(
            ("hold", Steering.Hold), ("self-use", Steering.SelfUse), ("peak-window", Steering.PeakWindow), ("demand-shaving", Steering.DemandShaving),
            ("planned", Steering.Planned)) ?? Steering.SelfUse;
        string[] periods = tariff is null ? [] : [.. tariff.Versions.SelectMany(v => v.Periods).Select(p => p.Period).Distinct()];
        YamlMap? night = map.Map("overnight", HomeSections.Overnight), sell = map.Map("sell", HomeSections.Sell), storm = map.Map("storm", HomeSections.Storm);
        if (map.Has("shaveToKw") && steering != Steering.DemandShaving) map.ReportWhole("shaveToKw", "only demand-shaving holds import at a level");
        if (!map.Has("shaveToKw") && steering == Steering.DemandShaving) map.ReportHere("demand-shaving needs shaveToKw");
        if (map.Has("refill") && steering != Steering.DemandShaving) map.ReportWhole("refill", "only demand-shaving refills");
        if (map.Has("plansToSell") && steering != Steering.Planned) map.ReportWhole("plansToSell", "only planned plans");
        foreach (string key in (string[])["overnight", "sell", "storm"])
            if (map.Has(key) && steering == Steering.Planned) map.ReportWhole(key, "a planned strategy plans it itself");
        foreach (string key in (string[])["peak", "peakPeriods"])
            if (map.Has(key) && steering != Steering.PeakWindow) map.ReportWhole(key, "only peak-window has a peak");
        if (map.Has("peak") && map.Has("peakPeriods")) map.ReportHere("peak and peakPeriods exclude each other");
        var strategy = new Strategy
        {
            Base = steering,
            ReserveFraction = map.Share("reserve") ?? 0.2,
            PeakWindows = [.. map.Texts("peak").Select(t => t.Window()).OfType<ClockWindow>()],
            PeakPeriods = [.. map.Texts("peakPeriods").Select(t => tariff is null ? t.Value : t.Name("period of the tariff", periods)).OfType<string>()],
            ShaveToKw = map.Number("shaveToKw", Bounds.NotNegative) ?? 0,
            RefillFraction = map.Share("refill") ?? 0,
            PlansToSell = map.Flag("plansToSell", false),
            Overnight = night is null ? null : new OvernightCharge(night.Window(), night.Share("upTo") ?? 0),
            Sale = sell is null ? null : new BatterySale(sell.Window(), sell.Share("downTo") ?? 0),
            Storm = storm is null ? null : ReadStorm(storm),
            Integrity = map.Text("rule")?.Choice(("solar-only", IntegrityRule.SolarOnly), ("never-exports", IntegrityRule.NeverExports)) ?? IntegrityRule.None,
        };
        if (map.Reported == before && BuysWhatItSells(strategy))
            map.ReportHere("it would buy and sell the same energy: in some minute the grid may charge above the level that the battery sells down to");
        return strategy;
    }

    private static StormPreparation ReadStorm(YamlMap map)
    {
        int before = map.Reported;
        var storm = new StormPreparation(At(map, "from"), At(map, "to"), map.Share("upTo") ?? 0);
        if (map.Reported == before && storm.To <= storm.From) map.Report("to", "is not after from");
        return storm;
    }

    // Asked of one day of minutes, in which every combination of its windows occurs, so that no axis is needed.
    private static bool BuysWhatItSells(Strategy strategy)
    {
        if (strategy.Sale is null) return false;
        var unit = new Plant { HighestKwh = 1 };
        var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2001, 1, 1, 0, 0), 1, 1440);
        try
        {
            (strategy with { PeakWindows = [ClockWindow.WholeDay], Storm = null }).Compile(unit, axis).CheckNoCycling();
            return false;
        }
        catch (ArgumentException)
        {
            return true;
        }
    }

    private static Instant At(YamlMap map, string key)
    {
        if (map.Text(key) is not YamlText text) return default;
        ParseResult<OffsetDateTime> at = OffsetDateTimePattern.Rfc3339.Parse(text.Value);
        if (at.Success) return at.Value.ToInstant();
        text.Report("is no instant; write 2025-11-28T18:00:00-07:00");
        return default;
    }
}
