using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Control;

/// <summary>What a set-point row wants of the battery, in a word.</summary>
public enum Wanted
{
    /// <summary>It takes up the sun's surplus and gives nothing.</summary>
    SolarOnly,

    /// <summary>It serves the house.</summary>
    Serves,

    /// <summary>It charges from the grid as well.</summary>
    Charges,

    /// <summary>It sells, and serves the house.</summary>
    Sells,
}

/// <summary>A stretch of one day in which the same is wanted.</summary>
/// <param name="Day">Day of the week shown, 0–6.</param>
/// <param name="FromMinute">Start, minutes of the local clock.</param>
/// <param name="ToMinute">End, minutes of the local clock.</param>
/// <param name="Wanted">What.</param>
/// <param name="Fraction">The level that goes with it, a share of usable energy: kept when serving, reached when charging, sold down to when selling; 1 where there is none.</param>
public readonly record struct WantedSpan(int Day, int FromMinute, int ToMinute, Wanted Wanted, double Fraction);

/// <summary>Stored energy at an interval's end.</summary>
/// <param name="Day">Day of the week shown, 0–6.</param>
/// <param name="Minute">The interval's end, minutes of the local clock.</param>
/// <param name="Fraction">Share of usable energy.</param>
public readonly record struct StoredPoint(int Day, int Minute, double Fraction);

/// <summary>Seven days of an offer: what its set-points want, and what is stored.</summary>
public sealed record WantedWeek
{
    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>The offer.</summary>
    public required string Offer { get; init; }

    /// <summary>First day.</summary>
    public required LocalDate First { get; init; }

    /// <summary>Energy between the lowest level and full, kWh.</summary>
    public required double UsableKwh { get; init; }

    /// <summary>What is wanted, in order of time; days without data have none.</summary>
    public required IReadOnlyList<WantedSpan> Spans { get; init; }

    /// <summary>What is stored, in order of time.</summary>
    public required IReadOnlyList<StoredPoint> Stored { get; init; }

    /// <summary>The seven days from a date on.</summary>
    /// <param name="home">The home's name.</param>
    /// <param name="offer">The offer's name.</param>
    /// <param name="run">Its run.</param>
    /// <param name="first">First day.</param>
    public static WantedWeek Of(string home, string offer, Run run, LocalDate first)
    {
        ArgumentNullException.ThrowIfNull(run);
        TimeAxis axis = run.Axis;
        ReadOnlySpan<double> stored = run.Ledger()[LedgerColumn.StoredKwh];
        int firstDay = TimeAxis.DayOfDate(first);
        var spans = new List<WantedSpan>();
        var points = new List<StoredPoint>();
        for (int i = 0; i < axis.Count; i++)
        {
            int day = axis.LocalDayOf(i) - firstDay, minute = axis.LocalMinuteOf(i), end = minute + axis.StepMinutes;
            if (day is < 0 or > 6) continue;
            points.Add(new StoredPoint(day, end, ShareOf(run.Plant, stored[i])));
            (Wanted wanted, double kwh) = Of(run.Plant, run.SetPoints[i]);
            double share = ShareOf(run.Plant, kwh);
            if (spans.Count > 0 && spans[^1] is var last && last.Day == day && last.ToMinute == minute && last.Wanted == wanted && last.Fraction == share)
                spans[^1] = last with { ToMinute = end };
            else spans.Add(new WantedSpan(day, minute, end, wanted, share));
        }
        return new WantedWeek { Home = home, Offer = offer, First = first, UsableKwh = run.Plant.UsableKwh, Spans = spans, Stored = points };
    }

    private static (Wanted Wanted, double Kwh) Of(Plant plant, SetPointRow row) =>
        !double.IsInfinity(row.SellDownKwh) ? (Wanted.Sells, Math.Max(row.FloorKwh, row.SellDownKwh))
        : row.GridCeilingKwh > 0 ? (Wanted.Charges, row.GridCeilingKwh)
        : double.IsInfinity(row.ImportTargetKw) ? (Wanted.SolarOnly, plant.HighestKwh)
        : (Wanted.Serves, row.FloorKwh);

    private static double ShareOf(Plant plant, double kwh) => plant.UsableKwh > 0 ? (kwh - plant.LowestKwh) / plant.UsableKwh : 0;
}
