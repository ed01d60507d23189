using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Studies.Control;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>Reads the strategy of an offer.</summary>
internal static class StrategyReader
{
    private const int MostLikeDays = 60;

    /// <summary>The strategy; meaningless where problems were reported.</summary>
    public static Strategy Read(YamlMap map, Tariff? tariff)
    {
        int before = map.Reported;
        Steering steering = map.Text("base")?.Choice([.. Enum.GetValues<Steering>().Select(s => (StrategyWords.Of(s), s))]) ?? Steering.SelfUse;
        string[] periods = tariff is null ? [] : [.. tariff.Versions.SelectMany(v => v.Periods).Select(p => p.Period).Distinct()];
        YamlMap? night = map.Map("overnight", HomeSections.Overnight), sell = map.Map("sell", HomeSections.Sell);
        YamlMap? storm = map.Map("storm", HomeSections.Storm), events = map.Map("events", HomeSections.Events);
        CheckFit(map, steering, tariff);
        var strategy = new Strategy
        {
            Base = steering,
            ReserveFraction = map.Share("reserve") ?? 0.2,
            PeakWindows = [.. map.Texts("peak").Select(t => t.Window()).OfType<ClockWindow>()],
            PeakPeriods = [.. map.Texts("peakPeriods").Select(t => tariff is null ? t.Value : t.Name("period of the tariff", periods)).OfType<string>()],
            KeepsForDearest = map.Flag("keepsForDearest", false),
            ShaveToKw = map.Number("shaveToKw", Bounds.NotNegative) ?? 0,
            RefillFraction = map.Share("refill") ?? 0,
            Ratchets = map.Flag("ratchets", false),
            PlansToSell = map.Flag("plansToSell", false),
            Overnight = night is null ? null : new OvernightCharge(night.Window(), night.Share("upTo") ?? 0, night.Text("likeDays")?.Whole(1, MostLikeDays) ?? 0),
            Sale = sell is null ? null : new BatterySale(sell.Window(), sell.Share("downTo") ?? 0),
            SellsByPrice = map.Flag("sellsByPrice", false),
            Events = events is null ? null : new EventResponse(events.Number("leadHours", new Bounds(0, 24)) ?? 0, events.Share("upTo") ?? 0),
            Storm = storm is null ? null : ReadStorm(storm),
            Integrity = map.Text("rule")?.Choice(("solar-only", IntegrityRule.SolarOnly), ("never-exports", IntegrityRule.NeverExports)) ?? IntegrityRule.None,
        };
        if (strategy.Ratchets && strategy.AsksFacts) map.ReportWhole("ratchets", "a level that ratchets goes neither with likeDays nor with sellsByPrice");
        if (map.Reported == before && BuysWhatItSells(strategy))
            map.ReportHere("it would buy and sell the same energy: in some minute the grid may charge above the level that the battery sells down to");
        return strategy;
    }

    private static void CheckFit(YamlMap map, Steering steering, Tariff? tariff)
    {
        if (map.Has("shaveToKw") && steering != Steering.DemandShaving) map.ReportWhole("shaveToKw", "only demand-shaving holds import at a level");
        if (!map.Has("shaveToKw") && steering == Steering.DemandShaving) map.ReportHere("demand-shaving needs shaveToKw");
        if (map.Has("refill") && steering != Steering.DemandShaving) map.ReportWhole("refill", "only demand-shaving refills");
        if (map.Has("ratchets") && steering != Steering.DemandShaving) map.ReportWhole("ratchets", "only demand-shaving holds import at a level");
        if (map.Has("plansToSell") && steering != Steering.Planned) map.ReportWhole("plansToSell", "only planned plans");
        foreach (string key in (string[])["overnight", "sell", "sellsByPrice", "events", "storm"])
            if (map.Has(key) && steering == Steering.Planned) map.ReportWhole(key, "a planned strategy plans it itself");
        foreach (string key in (string[])["peak", "peakPeriods", "keepsForDearest"])
            if (map.Has(key) && steering != Steering.PeakWindow) map.ReportWhole(key, "only peak-window has a peak");
        if (map.Has("peak") && map.Has("peakPeriods")) map.ReportHere("peak and peakPeriods exclude each other");
        if (map.Has("sell") && map.Has("sellsByPrice")) map.ReportHere("sell and sellsByPrice exclude each other");
        if (map.Has("events") && tariff is not null && !tariff.Versions.Any(v => v.Events is not null)) map.ReportWhole("events", "the rate plan calls no events");
    }

    private static StormPreparation ReadStorm(YamlMap map)
    {
        var times = map.Maps("times", HomeSections.StormTime).Select(TimeOf).OfType<Interval>().ToList();
        if (map.Has("from") != map.Has("to")) map.ReportHere("from and to come together");
        else if (map.Has("from") && TimeOf(map) is Interval one) times.Add(one);
        if (!map.Has("from") && !map.Has("to") && !map.Has("times") && !map.Has("darkDays")) map.ReportHere("no storm is named; state from and to, times, or darkDays");
        if (map.Has("darkBelow") && !map.Has("darkDays")) map.ReportWhole("darkBelow", "only darkDays looks for dark days");
        DarkAhead? dark = map.Text("darkDays")?.Whole(1, 14) is int days ? new DarkAhead(days, map.Share("darkBelow") ?? DarkAhead.UsualFraction) : null;
        return new StormPreparation([.. times.OrderBy(t => t.Start)], map.Share("upTo") ?? 0) { LeadHours = map.Number("leadHours", new Bounds(0, 336)) ?? 0, Dark = dark };
    }

    private static Interval? TimeOf(YamlMap map)
    {
        int before = map.Reported;
        Instant from = At(map, "from"), to = At(map, "to");
        if (map.Reported == before && to <= from) map.Report("to", "is not after from");
        return map.Reported == before ? new Interval(from, to) : null;
    }

    // Asked of one day of minutes, in which every combination of its windows occurs, so that no axis is needed.
    private static bool BuysWhatItSells(Strategy strategy)
    {
        if (strategy.Sale is null) return false;
        var unit = new Plant { HighestKwh = 1 };
        var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2001, 1, 1, 0, 0), 1, 1440);
        try
        {
            Strategy plain = strategy with
            {
                PeakWindows = [ClockWindow.WholeDay],
                KeepsForDearest = false,
                Ratchets = false,
                Overnight = strategy.Overnight is OvernightCharge night ? night with { LikeDays = 0 } : null,
                SellsByPrice = false,
                Events = null,
                Storm = null,
            };
            plain.Compile(unit, axis).CheckNoCycling();
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
