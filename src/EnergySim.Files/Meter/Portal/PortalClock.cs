using System.Globalization;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Decides on which clock stamps without an offset were written, from how the file behaves where the clock changes.</summary>
internal sealed class PortalClock(List<PortalRow> rows, StampMark mark, bool isCounted, MeterOptions options, string file, string? clockGround = null)
{
    private readonly List<string> _notes = [];

    /// <summary>True when the file itself shows a change of the zone's clock.</summary>
    public bool ShowsChange { get; private set; }

    /// <summary>Faults of the best reading.</summary>
    public int Faults { get; private set; }

    /// <summary>Rows that were split in two: their second passes, minutes since 1970-01-01 UTC.</summary>
    public Dictionary<int, long> SecondPasses { get; } = [];

    public IReadOnlyList<string> Notes => _notes;

    /// <summary>Starts of the rows, minutes since 1970-01-01 UTC; <see cref="ClockTrial.Nowhere"/> for those that are dropped. What is open is asked.</summary>
    public long[] Place(DateTimeZone zone, MeterRows told)
    {
        long first = rows.Min(r => r.Label), last = rows.Max(r => r.Label);
        if (options.Clock is ProfileClock.Fixed or ProfileClock.Standard) return ByOffset(zone, first, told);
        var eras = new LocalEras(zone, first, last);
        ClockReading[] locals = isCounted ? [ClockReading.LocalCounted, ClockReading.Local] : mark == StampMark.End ? [ClockReading.LocalEnds, ClockReading.Local] : [ClockReading.Local];
        if (options.ClockChange == ClockChange.SplitAndDrop) return Split(ClockTrial.Of(rows, ClockReading.Local, mark, zone, eras), zone, eras, told);
        if (!eras.HasChange)
        {
            ClockTrial only = ClockTrial.Of(rows, locals[0], mark, zone, eras);
            Faults = only.Faults;
            bool never = zone.MinOffset == zone.MaxOffset;
            told.Found("clock", $"local {zone.Id}", options.Clock is not null ? "as said" : never ? "a clock that never changes" : "the wall clock is usual, and no clock change falls among the stamps to show another (--clock standard or utc says so)", options.Clock is not null || never ? 1 : 0.85);
            return only.Starts;
        }
        ClockTrial local = locals.Select(l => ClockTrial.Of(rows, l, mark, zone, eras)).MinBy(t => t.Faults)!;
        ClockTrial standard = ClockTrial.Of(rows, ClockReading.Standard, mark, zone, eras);
        if (isCounted) standard.Blame(CountedDays(zone));
        Faults = Math.Min(local.Faults, standard.Faults);
        return Choose(local, standard, zone, told);
    }

    // Days that have as many intervals as the wall clock gives them, where a clock that never changes would give 24 hours.
    private int CountedDays(DateTimeZone zone)
    {
        int days = 0;
        PortalRow one = rows[0];
        foreach (IGrouping<long, PortalRow> day in rows.Where(r => r.Flow == one.Flow && r.Meter == one.Meter && r.Value is not null).GroupBy(r => r.DayMinute))
        {
            LocalDate date = new LocalDate(1970, 1, 1).PlusDays((int)(day.Key / 1440));
            double minutes = (zone.AtStartOfDay(date.PlusDays(1)).ToInstant() - zone.AtStartOfDay(date).ToInstant()).TotalMinutes;
            if (minutes != 1440 && day.Count() * one.Minutes == minutes) days++;
        }
        return days;
    }

    private long[] ByOffset(DateTimeZone zone, long first, MeterRows told)
    {
        string ground = clockGround ?? "as said";
        int offset = options.Clock is ProfileClock.Fixed f ? f.Offset.Seconds / 60 : new LocalEras(zone, first, first).StandardOffset;
        told.Found("clock", options.Clock is ProfileClock.Fixed x ? $"UTC{(x.Offset == Offset.Zero ? "" : x.Offset.ToString("m", CultureInfo.InvariantCulture))} all year" : $"standard time of {zone.Id} all year", ground, 1);
        return [.. rows.Select(r => r.Label - offset - (mark == StampMark.End ? r.Minutes : 0))];
    }

    private long[] Choose(ClockTrial local, ClockTrial standard, DateTimeZone zone, MeterRows told)
    {
        if (options.Clock is ProfileClock.Local)
        {
            told.Found("clock", $"local {zone.Id}", "as said", 1);
            if (local.Skipped.Count == 0) return local.Starts;
            throw new ProblemsException(local.Skipped.Select(i => At(i, $"does not exist on the clock of {zone.Id}, which skips that hour (--clock-change split, or --clock standard)")));
        }
        if (local.Faults < standard.Faults && local.Single.Count == 0)
        {
            ShowsChange = true;
            told.Found("clock", $"local {zone.Id}", "the stamps skip or repeat the hour that its clock does", 0.97);
            return local.Starts;
        }
        bool zeros = local.Skipped.Count > 0 && local.Skipped.TrueForAll(i => rows[i].Value == 0);
        if (local.Skipped.Count > 0 && !zeros)
        {
            told.Found("clock", $"standard time of {zone.Id} all year", "there are numbers in the hour that the wall clock skips", 0.9);
            return standard.Starts;
        }
        if (zeros || local.Single.Count > 0)
        {
            string hour = WallClock.Text(rows[zeros ? local.Skipped[0] : local.Single[0]].Label);
            told.Ask("", zeros
                ? $"Every day has the same number of intervals, and {hour}, which the clock of {zone.Id} skips, holds 0. Either the file keeps 24 hours on every day of the wall clock (what it repeats is then summed), or its clock does not change."
                : $"{hour} comes twice on the clock of {zone.Id} and stands once. Either it holds the sum of both passes, or the clock of the file does not change, or the second pass is missing.",
                zeros ? ["--clock-change split", "--clock standard"] : ["--clock-change split", "--clock standard", "--clock local"]);
            return local.Starts;
        }
        told.Ask("--clock", $"The rows fit the wall clock of {zone.Id} as well as its standard time all year; on which were they stamped?", "local", "standard");
        return local.Starts;
    }

    private long[] Split(ClockTrial trial, DateTimeZone zone, LocalEras eras, MeterRows told)
    {
        ProblemsException? wrong = trial.Skipped.Any(i => rows[i].Value != 0)
            ? new ProblemsException(trial.Skipped.Where(i => rows[i].Value != 0).Select(i => At(i, $"holds a number in an hour that the clock of {zone.Id} skips; a slot that is dropped must be 0 or empty")))
            : null;
        if (wrong is not null) throw wrong;
        told.Found("clock", $"local {zone.Id}, 24 hours on every day", "as said", 1);
        foreach (int i in trial.Skipped)
        {
            _notes.Add($"{Text(i)} does not exist on the clock of {zone.Id}: the slot, 0, was dropped.");
            trial.Starts[i] = ClockTrial.Nowhere;
        }
        foreach (int i in trial.Single)
        {
            eras.UtcOf(rows[i].Label - (mark == StampMark.End ? rows[i].Minutes : 0), out _, out long second);
            SecondPasses[i] = second;
            _notes.Add(string.Create(CultureInfo.InvariantCulture, $"{Text(i)} comes twice on the clock of {zone.Id}: the slot's {rows[i].Value:0.######} {UnitWord.Text(rows[i].Unit)} were split evenly over both passes."));
        }
        return trial.Starts;
    }

    private string Text(int i) => WallClock.Text(rows[i].Label);

    private Problem At(int i, string rule) => new() { File = file, Line = rows[i].Line, Value = Text(i), Rule = rule };
}
