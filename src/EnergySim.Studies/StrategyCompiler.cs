using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;

namespace EnergySim.Studies;

/// <summary>Compiles any strategy for a home: gives each kind what it asks, the windows, the past and prices, the meter, or all.</summary>
public static class StrategyCompiler
{
    /// <summary>Compiles.</summary>
    /// <param name="told">The strategy.</param>
    /// <param name="like">The plant behind its wiring, with its series; its set-points are not asked.</param>
    /// <param name="solarAc">All solar, as AC; null = none.</param>
    /// <param name="calendar">The plan on the axis of the series.</param>
    /// <exception cref="ArgumentException">A number of the strategy is out of range, or its rules do not go together.</exception>
    public static SetPoints Compile(Strategy told, Run like, Profile? solarAc, TariffCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(told);
        ArgumentNullException.ThrowIfNull(like);
        ArgumentNullException.ThrowIfNull(calendar);
        if (told.Base == Steering.Planned) return told.CompilePlan(like.Plant, like.Load, solarAc, new MarginalPrices(calendar));
        told = told with { Storm = told.Storm?.WithDarkness(solarAc) };
        StrategyClock clock = Lay(told, calendar);
        if (told.Ratchets) return ShavingRatchet.Compile(told, clock, like, calendar.WatchDemand());
        return told.AsksFacts
            ? told.Compile(like.Plant, clock, new StrategyFacts { Load = like.Load, Solar = solarAc, Prices = new MarginalPrices(calendar) })
            : told.Compile(like.Plant, clock);
    }

    /// <summary>True for a strategy whose set-points ask the plant and the clock, and neither series nor prices.</summary>
    internal static bool AsksOnlyTheClock(Strategy told) => told.Base != Steering.Planned && !told.Ratchets && !told.AsksFacts && told.Storm?.Dark is null;

    /// <summary>Lays a strategy's windows, and the plan's where it names them, onto the plan's axis.</summary>
    internal static StrategyClock Lay(Strategy told, TariffCalendar calendar)
    {
        bool[] peak = told is { Base: Steering.PeakWindow, PeakWindows.Count: 0 } ? calendar.InPeriods(told.PeakPeriods) : [];
        return StrategyClock.Of(told, calendar.Axis, peak, told.Events is null ? [] : calendar.InEvents());
    }
}
