using static System.FormattableString;

namespace EnergySim.Wiring;

/// <summary>Asks a way to connect of a panel.</summary>
public static class WayFitting
{
    private const int BreakerSpaces = 2;

    /// <summary>Fits a way.</summary>
    /// <param name="way">The way.</param>
    /// <param name="plan">The panel, edition and loads.</param>
    /// <param name="sources">What the sources can give.</param>
    /// <param name="offeredBreakerAmps">The breaker that the offer names; null = the next size up from 125 %.</param>
    /// <exception cref="ArgumentException">The way names a feeder that is not there, or a main or setting out of range.</exception>
    public static WayFit Of(WayToConnect way, WiringPlan plan, SourceCurrents sources, double? offeredBreakerAmps)
    {
        ArgumentNullException.ThrowIfNull(way);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(sources);
        var ask = new AskedWay(way, plan, sources, offeredBreakerAmps ?? BusbarRules.BreakerFor(sources.BatteryAmps));
        return way.Connects switch
        {
            ConnectionKind.Breaker => Breaker(ask, plan.Panel.MainAmps),
            ConnectionKind.SmallerMain => SmallerMain(ask),
            ConnectionKind.GuardedBusbar => GuardedBusbar(ask),
            ConnectionKind.Feeder => OnFeeder(ask),
            ConnectionKind.GuardedFeeder => GuardedFeeder(ask),
            _ => SupplySide(ask),
        };
    }

    /// <summary>The largest standard breaker that a busbar rule leaves room for, and no larger than asked for; null = none.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="mainAmps">Main, A.</param>
    /// <param name="sources">The sources; the battery's own current is not asked.</param>
    /// <param name="wantedAmps">The breaker asked for, A.</param>
    /// <param name="edition">The edition.</param>
    public static double? LargestBreaker(ServicePanel panel, double mainAmps, SourceCurrents sources, double wantedAmps, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(panel);
        ArgumentNullException.ThrowIfNull(sources);
        ArgumentNullException.ThrowIfNull(edition);
        double factor = panel.SourceEnd == SourceEnd.Anywhere ? 1 : BusbarRules.OppositeEndFactor;
        double room = BusbarRules.HeadroomAmps(panel, mainAmps, sources.SolarAmps, factor);
        if (panel.LoadBreakersAmps is double loads) room = Math.Max(room, panel.BusbarAmps - loads - BusbarRules.SolarBreaker(panel, sources));
        return BreakerSizes.LargestUpTo(Math.Min(room, wantedAmps));
    }

    private static WayFit Breaker(AskedWay ask, double mainAmps)
    {
        WiringPlan plan = ask.Plan;
        double breaker = LargestBreaker(plan.Panel, mainAmps, ask.Sources, ask.WantedAmps, plan.Edition) ?? 0;
        double output = ask.OutputBehind(breaker > 0 ? breaker : ask.WantedAmps);
        List<Verdict> verdicts = [.. BusbarRules.Ask(plan.Panel, mainAmps, ask.Sources with { BatteryAmps = output }, breaker > 0 ? breaker : ask.WantedAmps, plan.Edition)];
        if (breaker > 0) verdicts.Add(BusbarRules.ContinuousBreaker(output, breaker, plan.Edition));
        Verdict spaces = Spaces(plan.Panel);
        verdicts.Add(spaces);
        string why = breaker == 0
            ? Invariant($"no breaker fits beside a {mainAmps:0.##} A main on a {plan.Panel.BusbarAmps:0.##} A busbar")
            : spaces.Standing == Standing.Beyond ? "no room for the breaker"
            : breaker < ask.WantedAmps ? Invariant($"a {breaker:0.##} A breaker fits; the inverters are set down to {output:0.##} A") : Invariant($"a {breaker:0.##} A breaker fits");
        return ask.Fit(breaker > 0 && spaces.Standing != Standing.Beyond ? Standing.Within : Standing.Beyond, why, verdicts) with
        {
            BreakerAmps = breaker,
            OutputAmps = breaker > 0 ? output : 0,
            MainAmps = mainAmps,
            IsSetDown = breaker > 0 && output < ask.Sources.BatteryAmps,
        };
    }

    private static WayFit SmallerMain(AskedWay ask)
    {
        ServicePanel panel = ask.Plan.Panel;
        if (ask.Way.MainAmps is double named && named >= panel.MainAmps)
            throw new ArgumentException(Invariant($"{ask.Way.Name}: a main of {named:0.##} A is not smaller than the {panel.MainAmps:0.##} A that stands."));
        double[] mains = ask.Way.MainAmps is double main ? [main] : [.. BreakerSizes.All.Where(a => a < panel.MainAmps).Reverse()];
        foreach (double candidate in mains)
        {
            WayFit fit = Breaker(ask, candidate);
            // Of mains not named, the largest that leaves the inverters their full power; a named one is taken as it is.
            if (ask.Way.MainAmps is null && (!fit.MayBe || fit.BreakerAmps < ask.WantedAmps)) continue;
            IReadOnlyList<Verdict> load = LoadCalculations.Ask(ask.Plan.Loads, candidate, panel.Volts, ask.HasSolar, ask.Plan.Edition);
            Standing carries = load.Any(v => v.Standing == Standing.Within) ? Standing.Within : load.Any(v => v.Standing == Standing.Beyond) ? Standing.Beyond : Standing.Unknown;
            return fit with
            {
                Standing = fit.MayBe ? carries : fit.Standing,
                Why = !fit.MayBe ? fit.Why : carries switch
                {
                    Standing.Within => Invariant($"a {candidate:0.##} A main carries the calculated load; {fit.Why}"),
                    Standing.Beyond => Invariant($"the calculated load is above a {candidate:0.##} A main"),
                    _ => Invariant($"a {candidate:0.##} A main would do, but no load calculation says that it carries the house"),
                },
                Verdicts = [.. fit.Verdicts, .. load],
            };
        }
        return ask.Fit(Standing.Beyond, "no smaller main makes room for the breaker", []) with { MainAmps = panel.MainAmps };
    }

    private static WayFit GuardedBusbar(AskedWay ask)
    {
        ServicePanel panel = ask.Plan.Panel;
        double setting = ask.Setting(panel.BusbarAmps);
        var verdicts = new List<Verdict> { BusbarRules.Guarded("busbar", panel.BusbarAmps, setting, ask.Plan.Edition) };
        Verdict spaces = Spaces(panel);
        verdicts.Add(BusbarRules.ContinuousBreaker(ask.OutputBehind(ask.WantedAmps), ask.WantedAmps, ask.Plan.Edition));
        verdicts.Add(spaces);
        // A source that the system does not control must meet the busbar rules by itself.
        bool solarFits = true;
        if (ask.HasSolar)
        {
            IReadOnlyList<Verdict> solar = BusbarRules.Ask(panel, panel.MainAmps, ask.Sources with { BatteryAmps = 0 }, 0, ask.Plan.Edition);
            solarFits = solar.Any(v => v.Standing == Standing.Within);
            verdicts.AddRange(solar);
        }
        Verdict guard = verdicts[0];
        string why = guard.Standing != Standing.Within ? guard.Arithmetic
            : !solarFits ? "today's solar inverter, not controlled, is itself beyond the busbar rules"
            : spaces.Standing == Standing.Beyond ? "no room for the breaker"
            : Invariant($"a power control system holds the busbar at {setting:0.##} A");
        Standing standing = guard.Standing != Standing.Within ? guard.Standing : solarFits && spaces.Standing != Standing.Beyond ? Standing.Within : Standing.Beyond;
        return ask.Full(standing, why, verdicts) with { SettingAmps = setting };
    }

    private static WayFit OnFeeder(AskedWay ask)
    {
        Feeder feeder = ask.FeederNamed();
        WayFit panel = Breaker(ask, ask.Plan.Panel.MainAmps);
        var verdicts = new List<Verdict> { BusbarRules.OnFeeder(feeder, ask.Sources.BatteryAmps, ask.Plan.Edition) };
        if (feeder.TapAmps is not null) verdicts.Add(BusbarRules.Tap(feeder, ask.Sources.BatteryAmps, ask.Plan.Edition));
        Verdict? bad = verdicts.FirstOrDefault(v => v.Standing != Standing.Within);
        // The breaker sits in the sub-panel: spaces of the main panel do not matter, its busbar does.
        bool fits = panel.BreakerAmps >= ask.WantedAmps;
        string why = bad is not null ? "beyond the feeder's rule" : !fits ? "the main panel's busbar has no room for it" : "within the feeder's rule and the main panel's";
        return ask.Full(bad?.Standing ?? (fits ? Standing.Within : Standing.Beyond), why, [.. verdicts, .. panel.Verdicts.Where(v => v.Rule != WiringRule.Spaces)]);
    }

    private static WayFit GuardedFeeder(AskedWay ask)
    {
        Feeder feeder = ask.FeederNamed();
        double rated = Math.Min(feeder.BreakerAmps, feeder.ConductorAmps), setting = ask.Setting(rated);
        ServicePanel panel = ask.Plan.Panel;
        double output = Math.Min(ask.OutputBehind(ask.WantedAmps), setting);
        Verdict guard = BusbarRules.Guarded($"feeder {feeder.Name}", rated, setting, ask.Plan.Edition);
        string why = guard.Standing == Standing.Within
            ? Invariant($"a power control system holds the feeder at {setting:0.##} A; it must hold the main panel's {panel.BusbarAmps:0.##} A busbar too")
            : guard.Arithmetic;
        return ask.Full(guard.Standing, why, [guard, BusbarRules.ContinuousBreaker(ask.OutputBehind(ask.WantedAmps), ask.WantedAmps, ask.Plan.Edition)]) with
        {
            SettingAmps = setting,
            GuardedLoadFraction = feeder.LoadFraction,
            OutputAmps = output,
            IsSetDown = output < ask.Sources.BatteryAmps,
        };
    }

    private static WayFit SupplySide(AskedWay ask)
    {
        Verdict rule = BusbarRules.SupplySide(ask.Plan.Panel, ask.WantedAmps, ask.Plan.Edition);
        Verdict breaker = BusbarRules.ContinuousBreaker(ask.OutputBehind(ask.WantedAmps), ask.WantedAmps, ask.Plan.Edition);
        return ask.Full(rule.Standing, rule.Standing == Standing.Within ? "no busbar is between meter and main" : "the source breaker is above the service's rating", [rule, breaker]);
    }

    private static Verdict Spaces(ServicePanel panel) => panel.FreeSpaces is int free
        ? new Verdict(WiringRule.Spaces, null, free >= BreakerSpaces ? Standing.Within : Standing.Beyond, Invariant($"{BreakerSpaces} pole spaces for the breaker, {free} free"))
        : new Verdict(WiringRule.Spaces, null, Standing.Unknown, "free pole spaces are not stated");
}
