using EnergySim.Time;

namespace EnergySim.Strategies;

/// <summary>What holds of a strategy's windows in an interval.</summary>
[Flags]
internal enum Situation
{
    None = 0,
    Peak = 1,
    Night = 2,
    Sale = 4,
    Storm = 8,

    /// <summary>The utility's event.</summary>
    Event = 16,

    /// <summary>An event is near.</summary>
    EventAhead = 32,

    /// <summary>The utility counts no demand.</summary>
    Slack = 64,
}

/// <summary>
/// A strategy's windows laid onto an axis: all of it that depends on the time and nothing that depends on the plant. Laid once, it serves
/// every plant, and every strategy whose windows are the same.
/// </summary>
public sealed class StrategyClock
{
    private readonly Strategy _laid;

    private StrategyClock(Strategy laid, PickedRows picks, IReadOnlyList<Situation> situations) => (_laid, Picks, Situations) = (laid, picks, situations);

    internal PickedRows Picks { get; }

    internal IReadOnlyList<Situation> Situations { get; }

    /// <summary>Lays a strategy's windows.</summary>
    /// <param name="strategy">Its base, windows and storm are asked; levels and shares are not.</param>
    /// <param name="axis">The intervals.</param>
    /// <param name="inTariffPeak">For each interval whether the tariff's peak window holds; needed where the strategy names no clock windows.</param>
    /// <param name="inEvent">For each interval whether the utility calls an event; needed where the strategy responds to them.</param>
    /// <exception cref="ArgumentException">The strategy is planned, or the tariff's window is needed and missing.</exception>
    public static StrategyClock Of(Strategy strategy, TimeAxis axis, ReadOnlySpan<bool> inTariffPeak = default, ReadOnlySpan<bool> inEvent = default)
    {
        ArgumentNullException.ThrowIfNull(strategy);
        ArgumentNullException.ThrowIfNull(axis);
        if (strategy.Base == Steering.Planned) throw new ArgumentException("A planned strategy is compiled from the home's series and prices.");
        bool clockPeak = strategy.PeakWindows.Count > 0;
        if (strategy.Base == Steering.PeakWindow && !clockPeak && inTariffPeak.Length != axis.Count)
            throw new ArgumentException("A peak-window strategy without clock windows needs the tariff's.", nameof(inTariffPeak));

        if (strategy.Events is not null && inEvent.Length != axis.Count)
            throw new ArgumentException("A strategy that responds to events needs the tariff's.", nameof(inEvent));
        if (strategy.Storm?.Dark is not null) throw new ArgumentException("Dark days are found in the home's solar before the windows are laid.");
        int lead = (int)Math.Round((strategy.Events?.LeadHours ?? 0) * 60 / axis.StepMinutes);

        (int From, int Until)[] storms = strategy.Storm?.On(axis) ?? [];
        var situations = new List<Situation>();
        Span<int> rowOf = stackalloc int[64];
        rowOf.Fill(-1);
        var picks = new int[axis.Count];
        for (int i = 0; i < picks.Length; i++)
        {
            int minute = axis.LocalMinuteOf(i);
            Situation now = Situation.None;
            if (strategy.Base == Steering.PeakWindow && (clockPeak ? AnyContains(strategy.PeakWindows, minute) : inTariffPeak[i])) now |= Situation.Peak;
            if (strategy.Overnight?.Window.Contains(minute) == true) now |= Situation.Night;
            if (strategy.Sale?.Window.Contains(minute) == true) now |= Situation.Sale;
            foreach ((int from, int until) in storms)
                if (i >= from && i < until) now |= Situation.Storm;
            if (strategy.Events is not null) now |= inEvent[i] ? Situation.Event : inEvent.Slice(i, Math.Min(lead + 1, inEvent.Length - i)).Contains(true) ? Situation.EventAhead : Situation.None;
            if (rowOf[(int)now] < 0)
            {
                rowOf[(int)now] = situations.Count;
                situations.Add(now);
            }
            picks[i] = rowOf[(int)now];
        }
        return new StrategyClock(strategy, new PickedRows(picks), situations);
    }

    /// <summary>True when the strategy's windows are those laid here. Whether the tariff's peak windows are the same is the caller's to know.</summary>
    public bool Fits(Strategy strategy)
    {
        ArgumentNullException.ThrowIfNull(strategy);
        return strategy.Base == _laid.Base
            && (strategy.Base != Steering.PeakWindow || strategy.PeakWindows.SequenceEqual(_laid.PeakWindows))
            && strategy.Overnight?.Window == _laid.Overnight?.Window && strategy.Sale?.Window == _laid.Sale?.Window
            && strategy.Events?.LeadHours == _laid.Events?.LeadHours && IsSameStorm(strategy.Storm, _laid.Storm);
    }

    internal Situation SituationAt(int index) => Situations[Picks.RowOf[index]];

    private static bool IsSameStorm(StormPreparation? one, StormPreparation? other) =>
        one is null ? other is null : other is not null && one with { ToFraction = 0 } == other with { ToFraction = 0 };

    private static bool AnyContains(IReadOnlyList<ClockWindow> windows, int minute)
    {
        foreach (ClockWindow window in windows)
            if (window.Contains(minute)) return true;
        return false;
    }
}
