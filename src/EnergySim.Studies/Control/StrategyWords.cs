using System.Globalization;
using EnergySim.Strategies;
using EnergySim.Time;

namespace EnergySim.Studies.Control;

/// <summary>A rule that a strategy adds to its base.</summary>
/// <param name="Key">Its key in a home file.</param>
/// <param name="Terms">Its terms in words; empty = it has none.</param>
public readonly record struct StrategyRule(string Key, string Terms);

/// <summary>What a strategy is, in words that stay the same: two strategies read alike only if they are.</summary>
public static class StrategyWords
{
    /// <summary>The word of a base, as a home file has it.</summary>
    public static string Of(Steering steering) => steering switch
    {
        Steering.Hold => "hold",
        Steering.SelfUse => "self-use",
        Steering.PeakWindow => "peak-window",
        Steering.DemandShaving => "demand-shaving",
        _ => "planned",
    };

    /// <summary>Base and added rules in one line.</summary>
    /// <param name="strategy">The strategy.</param>
    public static string Of(Strategy strategy)
    {
        ArgumentNullException.ThrowIfNull(strategy);
        return string.Join("; ", RulesOf(strategy).Select(r => r.Terms.Length == 0 ? r.Key : $"{r.Key} {r.Terms}").Prepend(Of(strategy.Base)));
    }

    /// <summary>The added rules, by their keys in a home file, in the order in which they are laid over the base.</summary>
    /// <param name="strategy">The strategy.</param>
    public static IReadOnlyList<StrategyRule> RulesOf(Strategy strategy)
    {
        ArgumentNullException.ThrowIfNull(strategy);
        var rules = new List<StrategyRule>();
        void Add(bool has, string key, string terms = "")
        {
            if (has) rules.Add(new StrategyRule(key, terms));
        }
        Add(true, "reserve", Share(strategy.ReserveFraction));
        Add(strategy.PeakWindows.Count > 0, "peak", string.Join(" and ", strategy.PeakWindows.Select(Clock)));
        Add(strategy.PeakPeriods.Count > 0, "peakPeriods", string.Join(" and ", strategy.PeakPeriods));
        Add(strategy.KeepsForDearest, "keepsForDearest");
        if (strategy.Base == Steering.DemandShaving)
            Add(true, "shaveToKw", string.Create(CultureInfo.InvariantCulture, $"{strategy.ShaveToKw:0.###}, refilled to {Share(strategy.RefillFraction)}"));
        Add(strategy.Ratchets, "ratchets");
        if (strategy.Overnight is OvernightCharge night)
        {
            string expected = night.LikeDays > 0 ? string.Create(CultureInfo.InvariantCulture, $", as {night.LikeDays} like days lead one to expect") : "";
            Add(true, "overnight", $"{Clock(night.Window)} to {Share(night.ToFraction)}{expected}");
        }
        if (strategy.Sale is BatterySale sale) Add(true, "sell", $"{Clock(sale.Window)} down to {Share(sale.DownToFraction)}");
        Add(strategy.SellsByPrice, "sellsByPrice");
        Add(strategy.PlansToSell, "plansToSell");
        if (strategy.Events is EventResponse events)
            Add(true, "events", string.Create(CultureInfo.InvariantCulture, $"filled to {Share(events.ToFraction)} from {events.LeadHours:0.##} h before"));
        if (strategy.Storm is StormPreparation storm) Add(true, "storm", Of(storm));
        if (strategy.Integrity != IntegrityRule.None)
            Add(true, "rule", strategy.Integrity == IntegrityRule.SolarOnly ? "solar-only" : "never-exports");
        return rules;
    }

    private static string Of(StormPreparation storm)
    {
        string when = string.Create(CultureInfo.InvariantCulture, $"{storm.Times.Count} by date, filled to {Share(storm.ToFraction)} from {storm.LeadHours:0.##} h before");
        return storm.Dark is DarkAhead dark
            ? when + string.Create(CultureInfo.InvariantCulture, $", and ahead of {dark.Days} days in a row below {Share(dark.BelowFraction)} of a sunny one")
            : when;
    }

    private static string Share(double fraction) => string.Create(CultureInfo.InvariantCulture, $"{100 * fraction:0.##} %");

    private static string Clock(ClockWindow window) =>
        string.Create(CultureInfo.InvariantCulture, $"{window.FromMinute / 60:00}:{window.FromMinute % 60:00}–{window.ToMinute / 60:00}:{window.ToMinute % 60:00}");
}
