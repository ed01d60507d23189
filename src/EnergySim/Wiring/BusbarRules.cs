using static System.FormattableString;

namespace EnergySim.Wiring;

/// <summary>
/// The rules for sources on a busbar and on a feeder (NEC 705.12; facts as in public notes on the 2017 and 2020 editions). A source counts
/// with 125 % of its continuous current.
/// </summary>
public static class BusbarRules
{
    /// <summary>A source counts with this multiple of its continuous current.</summary>
    public const double SourceFactor = 1.25;

    /// <summary>Share of its rating that a busbar may be charged with when the sources sit opposite the main.</summary>
    public const double OppositeEndFactor = 1.2;

    /// <summary>Current left for one more source's 125 % by the rule with a factor on the busbar, A; may be negative.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="mainAmps">Main breaker, A.</param>
    /// <param name="otherSourcesAmps">Continuous current of the sources already there, A.</param>
    /// <param name="busbarFactor">1 or <see cref="OppositeEndFactor"/>.</param>
    public static double HeadroomAmps(ServicePanel panel, double mainAmps, double otherSourcesAmps, double busbarFactor)
    {
        ArgumentNullException.ThrowIfNull(panel);
        return (busbarFactor * panel.BusbarAmps) - mainAmps - (SourceFactor * otherSourcesAmps);
    }

    /// <summary>The breaker that a source needs: the next size up from 125 % of its continuous current.</summary>
    public static double BreakerFor(double continuousAmps) => BreakerSizes.NextUp(SourceFactor * continuousAmps);

    /// <summary>Each rule asked of a busbar with these sources and this main.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="mainAmps">Main breaker, A.</param>
    /// <param name="sources">The sources.</param>
    /// <param name="batteryBreakerAmps">The battery's breaker, for the sum of breakers.</param>
    /// <param name="edition">The edition.</param>
    public static IReadOnlyList<Verdict> Ask(ServicePanel panel, double mainAmps, SourceCurrents sources, double batteryBreakerAmps, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(panel);
        ArgumentNullException.ThrowIfNull(sources);
        ArgumentNullException.ThrowIfNull(edition);
        double charged = mainAmps + (SourceFactor * (sources.SolarAmps + sources.BatteryAmps));
        string left = sources.SolarAmps > 0
            ? Invariant($"{mainAmps:0.##} A main + 1.25 × ({sources.SolarAmps:0.##} A solar + {sources.BatteryAmps:0.##} A battery) = {charged:0.##} A")
            : Invariant($"{mainAmps:0.##} A main + 1.25 × {sources.BatteryAmps:0.##} A = {charged:0.##} A");
        var verdicts = new List<Verdict>
        {
            Verdict.Of(edition, WiringRule.Busbar100, charged, panel.BusbarAmps, Invariant($"{left} {Sign(charged, panel.BusbarAmps)} {panel.BusbarAmps:0.##} A busbar")),
        };
        double raised = OppositeEndFactor * panel.BusbarAmps;
        if (panel.SourceEnd != SourceEnd.Anywhere)
        {
            verdicts.Add(Verdict.Of(
                edition, panel.SourceEnd == SourceEnd.CentreFed ? WiringRule.CentreFed : WiringRule.Busbar120, charged, raised,
                Invariant($"{left} {Sign(charged, raised)} 1.2 × {panel.BusbarAmps:0.##} A busbar = {raised:0.##} A, {(panel.SourceEnd == SourceEnd.CentreFed ? "sources at one end of a centre-fed busbar" : "sources opposite the main")}")));
        }
        verdicts.Add(SumOfBreakers(panel, sources, batteryBreakerAmps, edition));
        return verdicts;
    }

    /// <summary>All breakers but the main, loads and sources, ≤ busbar.</summary>
    public static Verdict SumOfBreakers(ServicePanel panel, SourceCurrents sources, double batteryBreakerAmps, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(panel);
        ArgumentNullException.ThrowIfNull(sources);
        ArgumentNullException.ThrowIfNull(edition);
        if (panel.LoadBreakersAmps is not double loads) return Verdict.Missing(edition, WiringRule.SumOfBreakers, "the sum of the load breakers is not stated");
        double solar = SolarBreaker(panel, sources), sum = loads + solar + batteryBreakerAmps;
        return Verdict.Of(
            edition, WiringRule.SumOfBreakers, sum, panel.BusbarAmps,
            Invariant($"{loads:0.##} A loads + {solar:0.##} A solar + {batteryBreakerAmps:0.##} A battery = {sum:0.##} A {Sign(sum, panel.BusbarAmps)} {panel.BusbarAmps:0.##} A busbar, the main left out"));
    }

    /// <summary>Sources joined between meter and main: their breakers together ≤ the service (from memory of 705.11).</summary>
    public static Verdict SupplySide(ServicePanel panel, double batteryBreakerAmps, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(panel);
        ArgumentNullException.ThrowIfNull(edition);
        double service = panel.ServiceAmps ?? panel.MainAmps;
        return Verdict.Of(
            edition, WiringRule.SupplySide, batteryBreakerAmps, service,
            Invariant($"{batteryBreakerAmps:0.##} A source breaker {Sign(batteryBreakerAmps, service)} {service:0.##} A service; no busbar rule between meter and main, conductors and disconnect by their own sizes"));
    }

    /// <summary>A source on a feeder but not at its far end: conductors ≥ feeder breaker + 125 % of the source, or a breaker behind the connection ≤ conductors.</summary>
    public static Verdict OnFeeder(Feeder feeder, double sourceAmps, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(feeder);
        ArgumentNullException.ThrowIfNull(edition);
        if (feeder.DownstreamBreakerAmps is double behind)
        {
            return Verdict.Of(
                edition, WiringRule.Feeder, behind, feeder.ConductorAmps,
                Invariant($"{behind:0.##} A breaker behind the connection {Sign(behind, feeder.ConductorAmps)} {feeder.ConductorAmps:0.##} A feeder conductors"));
        }
        double needed = feeder.BreakerAmps + (SourceFactor * sourceAmps);
        return Verdict.Of(
            edition, WiringRule.Feeder, needed, feeder.ConductorAmps,
            Invariant($"{feeder.BreakerAmps:0.##} A feeder breaker + 1.25 × {sourceAmps:0.##} A = {needed:0.##} A {Sign(needed, feeder.ConductorAmps)} {feeder.ConductorAmps:0.##} A feeder conductors"));
    }

    /// <summary>A tap of a feeder: its ampacity ≥ a tenth (to 10 ft) or a third (to 25 ft) of feeder breaker + 125 % of the source (240.21(B), from memory).</summary>
    /// <exception cref="ArgumentException">The feeder has no tap.</exception>
    public static Verdict Tap(Feeder feeder, double sourceAmps, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(feeder);
        ArgumentNullException.ThrowIfNull(edition);
        if (feeder.TapAmps is not double tap) throw new ArgumentException("The feeder has no tap.", nameof(feeder));
        if (feeder.TapFeet > 25) return Verdict.Missing(edition, WiringRule.FeederTap, "a tap above 25 ft has rules of its own that are not asked here");
        (int part, double most) = feeder.TapFeet <= 10 ? (10, 10) : (3, 25);
        double sum = feeder.BreakerAmps + (SourceFactor * sourceAmps), needed = Math.Max(sum / part, SourceFactor * sourceAmps);
        return Verdict.Of(
            edition, WiringRule.FeederTap, needed, tap,
            Invariant($"greater of ({feeder.BreakerAmps:0.##} A + 1.25 × {sourceAmps:0.##} A) ÷ {part} and 1.25 × {sourceAmps:0.##} A = {needed:0.##} A {Sign(needed, tap)} {tap:0.##} A tap of at most {most:0} ft"));
    }

    /// <summary>A breaker under continuous current: 125 % of it ≤ the rating.</summary>
    public static Verdict ContinuousBreaker(double continuousAmps, double breakerAmps, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(edition);
        double needed = SourceFactor * continuousAmps;
        return Verdict.Of(
            edition, WiringRule.Continuous, needed, breakerAmps, Invariant($"1.25 × {continuousAmps:0.##} A = {needed:0.##} A {Sign(needed, breakerAmps)} {breakerAmps:0.##} A breaker"));
    }

    /// <summary>A power control system's setting against what it guards.</summary>
    /// <param name="what">What it guards, in words.</param>
    /// <param name="ratedAmps">Its rating, A.</param>
    /// <param name="settingAmps">The setting, A.</param>
    /// <param name="edition">The edition.</param>
    public static Verdict Guarded(string what, double ratedAmps, double settingAmps, CodeEdition edition)
    {
        ArgumentNullException.ThrowIfNull(edition);
        double continuous = SiteLimits.ContinuousShare * ratedAmps;
        string practice = settingAmps > continuous + BreakerSizes.ToleranceAmps
            ? Invariant($"; above the continuous 0.8 × {ratedAmps:0.##} A = {continuous:0.##} A, which some installers take as the most: ask the local authority")
            : Invariant($"; continuous share 0.8 × {ratedAmps:0.##} A = {continuous:0.##} A");
        return Verdict.Of(
            edition, WiringRule.PowerControl, settingAmps, ratedAmps,
            Invariant($"setting {settingAmps:0.##} A {Sign(settingAmps, ratedAmps)} {ratedAmps:0.##} A {what}{practice}; a listed system watches all its sources"));
    }

    internal static double SolarBreaker(ServicePanel panel, SourceCurrents sources) =>
        sources.SolarAmps > 0 ? panel.SolarBreakerAmps ?? BreakerFor(sources.SolarAmps) : 0;

    private static string Sign(double left, double right) => left <= right + BreakerSizes.ToleranceAmps ? "≤" : ">";
}
