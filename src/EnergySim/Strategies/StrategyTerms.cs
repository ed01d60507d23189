using EnergySim.Profiles;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Strategies;

/// <summary>Charging from the grid in a window of every day.</summary>
/// <param name="Window">When, local clock.</param>
/// <param name="ToFraction">Up to which share of usable energy, 0–1.</param>
/// <param name="LikeDays">0 = always to that share; else to what the last so many like days lead one to expect that the cells must give until the next window, at most to that share.</param>
public sealed record OvernightCharge(ClockWindow Window, double ToFraction, int LikeDays = 0);

/// <summary>Selling from the battery in a window of every day.</summary>
/// <param name="Window">When, local clock.</param>
/// <param name="DownToFraction">Down to which share of usable energy, 0–1.</param>
public sealed record BatterySale(ClockWindow Window, double DownToFraction);

/// <summary>What is done for the hours in which the utility calls an event: filled up before, emptied into the house within.</summary>
/// <param name="LeadHours">How long before an event the cells are filled and held, h; events are called a day ahead at the latest (common practice), so 0–24.</param>
/// <param name="ToFraction">Up to which share of usable energy the grid may fill then, 0–1.</param>
public sealed record EventResponse(double LeadHours, double ToFraction);

/// <summary>Filling up ahead of storms, from the grid too, and keeping it until they are over.</summary>
/// <param name="Times">The storms, rising; empty where only darkness is looked out for.</param>
/// <param name="ToFraction">Up to which share of usable energy, 0–1.</param>
public sealed record StormPreparation(IReadOnlyList<Interval> Times, double ToFraction)
{
    /// <summary>One storm.</summary>
    public StormPreparation(Instant from, Instant to, double toFraction) : this([new Interval(from, to)], toFraction)
    {
    }

    /// <summary>How long before each filling begins, h ≥ 0.</summary>
    public double LeadHours { get; init; }

    /// <summary>Dark days to prepare for as well; null = none are looked for.</summary>
    public DarkAhead? Dark { get; init; }

    /// <summary>The intervals in which it holds: for each storm the first, and the one after the last.</summary>
    internal (int From, int Until)[] On(TimeAxis axis)
    {
        int IndexAt(Instant at) => (int)Math.Clamp(Math.Ceiling((at - axis.Start).TotalMinutes / axis.StepMinutes), 0, axis.Count);
        return [.. Times.Select(t => (IndexAt(t.Start - Duration.FromHours(LeadHours)), IndexAt(t.End)))];
    }

    /// <summary>The same with the dark spells of a record among its times.</summary>
    /// <param name="solar">The home's solar; null = none, and none is dark.</param>
    public StormPreparation WithDarkness(Profile? solar) =>
        Dark is null ? this : this with { Times = solar is null ? Times : [.. Times, .. Dark.SpellsOf(solar)], Dark = null };

    /// <inheritdoc/>
    public bool Equals(StormPreparation? other) =>
        other is not null && Times.SequenceEqual(other.Times) && (ToFraction, LeadHours, Dark) == (other.ToFraction, other.LeadHours, other.Dark);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Times.Count, ToFraction, LeadHours, Dark);
}

/// <summary>
/// Dark days in a row. A forecast of so many days, right in every case, is taken for granted: what the record holds later is not asked.
/// </summary>
/// <param name="Days">How many in a row make a spell, ≥ 1.</param>
/// <param name="BelowFraction">A day is dark whose sun is less than this share of the sunniest of the fourteen days before it, 0–1.</param>
public sealed record DarkAhead(int Days, double BelowFraction)
{
    /// <summary>A day with less than three tenths of a sunny day's sun is dark (common practice).</summary>
    public const double UsualFraction = 0.3;

    private const int ClearDays = 14;

    internal IEnumerable<Interval> SpellsOf(Profile solar)
    {
        TimeAxis axis = solar.Axis;
        var starts = new List<int>();
        var sun = new List<double>();
        for (int i = 0; i < axis.Count; i++)
        {
            if (i == 0 || axis.LocalDayOf(i) != axis.LocalDayOf(i - 1))
            {
                starts.Add(i);
                sun.Add(0);
            }
            sun[^1] += solar.Kw[i];
        }
        int from = 0;
        for (int d = 0; d <= sun.Count; d++)
        {
            if (d < sun.Count && IsDark(sun, d)) continue;
            // A spell is prepared for once so many days of it are seen ahead, and kept through to its end.
            if (d - from >= Days) yield return new Interval(axis.StartOf(starts[from]), d < sun.Count ? axis.StartOf(starts[d]) : axis.End);
            from = d + 1;
        }
    }

    private bool IsDark(List<double> sun, int day)
    {
        double clear = 0;
        for (int d = Math.Max(0, day - ClearDays); d < day; d++) clear = Math.Max(clear, sun[d]);
        return sun[day] < BelowFraction * clear;
    }
}
