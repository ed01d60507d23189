using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;
using static System.FormattableString;

namespace EnergySim.Studies.WiringFit;

/// <summary>One set-point with the test that shows on site that it holds.</summary>
/// <param name="Name">What is set.</param>
/// <param name="Amps">At the service's volts, A; null = no current.</param>
/// <param name="Kw">kW; null = no power.</param>
/// <param name="Setting">In words, where it is neither.</param>
/// <param name="Test">The test.</param>
public sealed record SheetLine(string Name, double? Amps, double? Kw, string? Setting, string Test);

/// <summary>The page for the person who programs the system.</summary>
public sealed record SetPointSheet
{
    // Slowest answer of a listed power control system (open loop), s; tests typically see 2–10 s (TRADE §3.2).
    private const int SlowestSeconds = 30;

    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>The offer.</summary>
    public required string Offer { get; init; }

    /// <summary>The way to connect.</summary>
    public required string Way { get; init; }

    /// <summary>Why it may be.</summary>
    public required string Why { get; init; }

    /// <summary>Volts of the service.</summary>
    public required double Volts { get; init; }

    /// <summary>What is set and tested, in the order in which it is done.</summary>
    public required IReadOnlyList<SheetLine> Lines { get; init; }

    /// <summary>Cautions.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>The sheet of a way.</summary>
    /// <param name="home">The home, for the plan's periods.</param>
    /// <param name="result">The comparison.</param>
    /// <param name="ways">The offer's ways.</param>
    /// <param name="way">The way's name; null = the cheapest that may be.</param>
    /// <exception cref="ArgumentException">There is no such way, or it may not be.</exception>
    public static SetPointSheet Of(Home home, WiringComparison result, OfferWays ways, string? way)
    {
        ArgumentNullException.ThrowIfNull(home);
        ArgumentNullException.ThrowIfNull(result);
        ArgumentNullException.ThrowIfNull(ways);
        WayResult? chosen = way is null ? ways.Cheapest : ways.Ways.FirstOrDefault(w => w.Fit.Way.Name == way);
        if (chosen is null)
            throw new ArgumentException(way is null ? $"{ways.Offer.Name}: none of the ways may be." : $"There is no way called \"{way}\"; there are {string.Join(", ", ways.Ways.Select(w => w.Fit.Way.Name))}.");
        if (chosen.Run is not WayRun run) throw new ArgumentException($"{chosen.Fit.Way.Name}: {chosen.Fit.Why}.");
        return new SetPointSheet
        {
            Home = result.Home,
            Offer = ways.Offer.Name,
            Way = chosen.Fit.Way.Name,
            Why = chosen.Fit.Why,
            Volts = result.Plan.Panel.Volts,
            Lines = [.. LimitLines(result.Plan.Panel.Volts, chosen.Fit, run), .. StrategyLines(home, WayHome.Of(home, ways.Offer, chosen.Fit).Offers[0]), .. BackupLines(run)],
            Cautions =
            [
                WiringComparison.ToBeConfirmed,
                "Prove dead before touching conductors; service conductors stay live with the main open. Panels and batteries stay live with the grid down.",
                "Tests are read on a clamp meter on both legs, with the homeowner told that power may go off. Write down reading, time and name.",
                "A setting protects nothing until its sensors are proved: direction, leg and ratio of each current sensor first.",
            ],
        };
    }

    private static IEnumerable<SheetLine> LimitLines(double volts, WayFit fit, WayRun run)
    {
        SheetLine Limit(string name, double kw, string test) => new(name, kw * 1000 / volts, kw, null, test);
        string fall = $"within {SlowestSeconds} s";
        yield return Limit("Main breaker, continuous", SiteLimits.ContinuousKw(fit.MainAmps, volts), Invariant($"Read the main's handle: {fit.MainAmps:0.##} A."));
        yield return Limit(
            "Inverter output and charge, most", Math.Min(run.Limits.InverterBreakerKw, fit.OutputAmps * volts / 1000),
            Invariant($"Read the breaker's handle: {fit.BreakerAmps:0.##} A. Ask for full output, then full charge: the clamp stays at or under this current, both legs."));
        yield return Limit(
            "Import from the grid, most", run.Limits.ImportKw,
            $"Charge from the grid and switch on loads until the limit is near: charging falls {fall} and import stays under it. Unplug a sensor: charging stops.");
        if (!double.IsPositiveInfinity(run.Limits.ExportKw))
        {
            yield return Limit(
                "Export to the grid, most", run.Limits.ExportKw,
                $"At high sun with loads off and the battery full (or set lower for the test): export stays at or under it {fall}. Unplug a sensor: output falls to what the house takes, or to zero.");
        }
        if (fit.SettingAmps is double setting)
        {
            yield return new SheetLine(
                fit.Way.Connects == ConnectionKind.GuardedFeeder ? "Guarded feeder" : "Guarded busbar", setting, setting * volts / 1000, null,
                $"Set lower for the test, to half the load running: with the battery giving, output falls off {fall} when grid and sources together pass it. Unplug a sensor: output falls to zero. Set back, read back, seal.");
        }
    }

    private static IEnumerable<SheetLine> StrategyLines(Home home, Offer offer)
    {
        Strategy strategy = offer.Strategy;
        double usable = (offer.Battery.CapacityKwh - offer.Battery.LowestKwh) * offer.Units;
        yield return new SheetLine("Reserve", null, null, Invariant($"{strategy.ReserveFraction:0.#%}, {strategy.ReserveFraction * usable:0.#} of {usable:0.#} kWh"), "Read it back after a restart. Set above the present charge for a minute: discharge stops.");
        if (strategy.Base == Steering.PeakWindow)
            yield return new SheetLine("Discharge window", null, null, PeakInWords(home, strategy), "Check the controller's clock and zone. Set a window that begins in two minutes: discharge begins, and ends with it.");
        if (strategy.Overnight is OvernightCharge night)
            yield return new SheetLine("Charging from the grid", null, null, Invariant($"{Clock(night.Window)} up to {night.ToFraction:0.#%}"), "Set a window that begins in two minutes: import rises, under its limit.");
        else
            yield return new SheetLine("Charging from the grid", null, null, strategy.RefillFraction > 0 ? Invariant($"up to {strategy.RefillFraction:0.#%} while import is under {strategy.ShaveToKw:0.##} kW") : "off", strategy.RefillFraction > 0 ? "Below the target the battery charges; import stays under it." : "With no sun and charge below full, import equals the house's load.");
        if (strategy.Base == Steering.DemandShaving)
            yield return new SheetLine("Import target", null, strategy.ShaveToKw, null, "Switch on loads above it: the battery holds import at it.");
        yield return new SheetLine(
            "Selling from the battery", null, null,
            strategy.Sale is BatterySale sale && strategy.Integrity != IntegrityRule.NeverExports ? Invariant($"{Clock(sale.Window)} down to {sale.DownToFraction:0.#%}") : "off",
            "With loads small and no sun the battery gives no more than the house takes, outside the window.");
        if (strategy.Integrity != IntegrityRule.None)
        {
            yield return new SheetLine(
                "Agreement's rule", null, null, strategy.Integrity == IntegrityRule.SolarOnly ? "charges only from solar" : "never exports",
                strategy.Integrity == IntegrityRule.SolarOnly ? "Cover or open the solar: charging stops." : "Drop the load at full discharge: export stays at zero but for the first seconds.");
        }
    }

    private static IEnumerable<SheetLine> BackupLines(WayRun run)
    {
        if (run.Backup is not WayBackup backup) yield break;
        yield return new SheetLine(
            "Off the grid, most", null, backup.PowerKw, Invariant($"{backup.KeptFraction:0.#%} of the load is kept"),
            "Open the service disconnect: kept circuits come back by themselves; read volts of both legs; switch on the largest load. Restore: the home reconnects after the grid has been good for the utility's time.");
    }

    private static string PeakInWords(Home home, Strategy strategy)
    {
        if (strategy.PeakWindows.Count > 0) return string.Join(", ", strategy.PeakWindows.Select(Clock)) + " every day";
        TimeAxis axis = home.Load.Axis;
        bool[] peak = new TariffCalendar(home.Tariff, axis, home.Account, home.Load.Kw).InPeriods(strategy.PeakPeriods);
        var windows = new Dictionary<ClockWindow, SortedSet<(int Month, IsoDayOfWeek Day)>>();
        for (int i = 0; i < peak.Length; i++)
        {
            if (!peak[i]) continue;
            int from = i;
            while (i + 1 < peak.Length && peak[i + 1] && axis.LocalDayOf(i + 1) == axis.LocalDayOf(from)) i++;
            LocalDate date = axis.LocalDateOf(from);
            var window = new ClockWindow(axis.LocalMinuteOf(from), axis.LocalMinuteOf(i) + axis.StepMinutes);
            if (!windows.TryGetValue(window, out var days)) windows.Add(window, days = []);
            days.Add((date.Month, date.DayOfWeek));
        }
        return $"{string.Join("; ", windows.Select(w => $"{Clock(w.Key)}, {Days(w.Value)}"))}, by {home.Tariff.Name}";
    }

    private static string Days(SortedSet<(int Month, IsoDayOfWeek Day)> days)
    {
        IsoDayOfWeek[] week = [.. days.Select(d => d.Day).Distinct().Order()];
        int[] months = [.. days.Select(d => d.Month).Distinct().Order()];
        string on = week.Length == 7 ? "every day" : week.SequenceEqual(Enumerable.Range(1, 5).Select(d => (IsoDayOfWeek)d)) ? "Monday to Friday" : string.Join(", ", week);
        return months.Length == 12 ? on : $"{on} in months {string.Join(", ", months)}";
    }

    private static string Clock(ClockWindow window) => Invariant($"{window.FromMinute / 60:00}:{window.FromMinute % 60:00}–{window.ToMinute / 60:00}:{window.ToMinute % 60:00}");
}
