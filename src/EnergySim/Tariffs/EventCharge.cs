using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tariffs;

/// <summary>An adder in a window of the days on which the utility calls an event.</summary>
/// <param name="Dates">The days; where they are given by number, none until a calendar has chosen them.</param>
/// <param name="AdderPerKwh">Money per kWh on top of the period's price.</param>
/// <param name="Window">When.</param>
public sealed record EventCharge(IReadOnlyList<LocalDate> Dates, decimal AdderPerKwh, ClockWindow Window)
{
    /// <summary>So many days of each calendar year, those of the house's highest load in the window; null = the dates are given.</summary>
    public int? HighestLoadDays { get; init; }

    /// <summary>With <see cref="HighestLoadDays"/>: only days of this season; null = of all.</summary>
    public string? Season { get; init; }
}
