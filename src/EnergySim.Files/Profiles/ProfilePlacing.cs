using System.Globalization;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files;

/// <summary>The numbers of a file on an axis: stamps turned into instants as the options say.</summary>
internal sealed class ProfilePlacing
{
    private ProfilePlacing(TimeAxis axis, double[] kw, List<string> repairs) => (Axis, Kw, Repairs) = (axis, kw, repairs);

    public TimeAxis Axis { get; }

    public double[] Kw { get; }

    public List<string> Repairs { get; }

    /// <summary>Places the rows; null, with problems reported, when they do not fit.</summary>
    public static ProfilePlacing? Of(ProfileRows rows, ProfileColumn column, DateTimeZone zone)
    {
        bool offsets = rows.Rows[0].Stamp.OffsetMinutes is not null;
        foreach (ProfileRow row in rows.Rows)
            if (row.Stamp.OffsetMinutes is not null != offsets || (!offsets && column.Clock is ProfileClock.InStamp))
            {
                string rule = column.Clock is ProfileClock.InStamp ? "carries no offset from UTC; each stamp must" : "differs from the first row's: either all stamps carry an offset or none";
                rows.Report(row, rows.StampField, WallClock.Text(row.Stamp.Minute), rule);
                return null;
            }
        if (StepOf(rows, column) is not int step) return null;
        int shift = column.Stamp == StampMark.End ? step : 0;
        double toKw = column.Unit == ProfileUnit.KW ? 1 : 60.0 / step;
        if (offsets || column.Clock is not ProfileClock.Local) return ByOffset(rows, column, zone, new Scale(step, shift, toKw));
        return column.ClockChange == ClockChange.SplitAndDrop
            ? SplitAndDrop(rows, column, zone, new Scale(step, shift, toKw))
            : ByWallClock(rows, zone, new Scale(step, shift, toKw));
    }

    private readonly record struct Scale(int Step, int Shift, double ToKw);

    private static int? StepOf(ProfileRows rows, ProfileColumn column)
    {
        if (column.StepMinutes is int stated) return stated;
        static long Utc(Stamp stamp) => stamp.Minute - (stamp.OffsetMinutes ?? 0);
        long step = Utc(rows.Rows[1].Stamp) - Utc(rows.Rows[0].Stamp);
        if (step is > 0 and <= 60 && TimeAxis.AllowedStepMinutes.Contains((int)step)) return (int)step;
        rows.Report(rows.Rows[1], rows.StampField, WallClock.Text(rows.Rows[1].Stamp.Minute),
            string.Create(CultureInfo.InvariantCulture, $"comes {step} minutes after the first row; an interval is 1, 5, 15, 30 or 60 minutes long"));
        return null;
    }

    private static ProfilePlacing? ByOffset(ProfileRows rows, ProfileColumn column, DateTimeZone zone, Scale scale)
    {
        Stamp first = rows.Rows[0].Stamp;
        bool inStamp = first.OffsetMinutes is not null;
        int offset = column.Clock switch
        {
            _ when inStamp => 0,
            ProfileClock.Standard => new WallClock(zone).StandardOffsetMinutes(first.Minute),
            ProfileClock.Fixed f => f.Offset.Seconds / 60,
            _ => 0,
        };
        long Label(ProfileRow row) => row.Stamp.Minute - (row.Stamp.OffsetMinutes ?? 0);
        var line = new StampLine(Label(rows.Rows[0]), scale.Step, null);
        List<double?> values = new StampSequence(rows, line, scale.Step, inStamp).Place(Label);
        return Finish(values, line.At(0) - offset - scale.Shift, zone, scale);
    }

    private static ProfilePlacing? ByWallClock(ProfileRows rows, DateTimeZone zone, Scale scale)
    {
        var wall = new WallClock(zone);
        ProfileRow first = rows.Rows[0];
        if (wall.UtcOf(first.Stamp.Minute) is not [var start, ..])
        {
            rows.Report(first, rows.StampField, WallClock.Text(first.Stamp.Minute), $"does not exist on the clock of {zone.Id}, which skips that hour");
            return null;
        }
        var line = new StampLine(start, scale.Step, wall);
        List<double?> values = new StampSequence(rows, line, scale.Step, false).Place(row => row.Stamp.Minute);
        return Finish(values, start - scale.Shift, zone, scale);
    }

    private static ProfilePlacing? Finish(List<double?> values, long startUtc, DateTimeZone zone, Scale scale)
    {
        var kw = new double[values.Count];
        for (int i = 0; i < kw.Length; i++)
        {
            if (values[i] is not double value) return null;
            kw[i] = value * scale.ToKw;
        }
        return new ProfilePlacing(new TimeAxis(zone, WallClock.InstantOf(startUtc), scale.Step, kw.Length), kw, []);
    }

    // The file keeps 24 hours on every day: its slots run evenly on a clock that never changes, and are dealt out to the intervals that exist.
    private static ProfilePlacing? SplitAndDrop(ProfileRows rows, ProfileColumn column, DateTimeZone zone, Scale scale)
    {
        var wall = new WallClock(zone);
        long Slot(ProfileRow row) => row.Stamp.Minute - scale.Shift;
        long first = Slot(rows.Rows[0]);
        int before = rows.Rows.Count;
        List<double?> values = new StampSequence(rows, new StampLine(first, scale.Step, null), scale.Step, false).Place(Slot);
        if (values.Count != before || wall.UtcOf(first) is not [var start, ..]) return Refuse(rows, column, "the file begins in an hour that the clock skips", values.Count == before);
        var lines = rows.Rows;
        var repairs = new List<string>();
        bool sound = true;
        long end = start;
        for (int i = 0; i < values.Count; i++)
        {
            long slot = first + ((long)scale.Step * i);
            IReadOnlyList<long> utc = wall.UtcOf(slot);
            if (utc.Count > 0) end = utc[^1] + scale.Step;
            string text = WallClock.Text(slot);
            if (utc.Count == 0) sound &= Drop(rows, column, lines[i], text, repairs, zone);
            else if (values[i] is null) sound &= Empty(rows, column, lines[i]);
            else if (utc.Count == 2) repairs.Add(string.Create(CultureInfo.InvariantCulture,
                $"{text} comes twice on the clock of {zone.Id}: the slot's {values[i]} {Unit(column)} were split evenly over both passes."));
        }
        if (!sound) return null;
        var kw = new double[(end - start) / scale.Step];
        for (int i = 0; i < kw.Length; i++)
        {
            long local = wall.LocalOf(start + ((long)scale.Step * i));
            if ((local - first) % scale.Step != 0) return Refuse(rows, column, $"the clock of {zone.Id} changes inside an interval", true);
            kw[i] = values[(int)((local - first) / scale.Step)]!.Value * scale.ToKw / (wall.UtcOf(local).Count == 2 ? 2 : 1);
        }
        return new ProfilePlacing(new TimeAxis(zone, WallClock.InstantOf(start), scale.Step, kw.Length), kw, repairs);
    }

    private static bool Drop(ProfileRows rows, ProfileColumn column, in ProfileRow row, string text, List<string> repairs, DateTimeZone zone)
    {
        if (row.Value is not (null or 0))
        {
            rows.Report(row, column.Column, row.Value.Value.ToString(CultureInfo.InvariantCulture),
                $"stands at {text}, which the clock of {zone.Id} skips; a slot that is dropped must be 0 or empty");
            return false;
        }
        repairs.Add($"{text} does not exist on the clock of {zone.Id}: the slot, {(row.IsEmpty ? "empty" : "0")}, was dropped.");
        return true;
    }

    private static bool Empty(ProfileRows rows, ProfileColumn column, in ProfileRow row)
    {
        if (row.IsEmpty) rows.Report(row, column.Column, "", "is empty; every interval needs a number");
        return false;
    }

    private static ProfilePlacing? Refuse(ProfileRows rows, ProfileColumn column, string rule, bool report)
    {
        if (report) rows.Report(rows.Rows[0], column.Column, null, rule);
        return null;
    }

    private static string Unit(ProfileColumn column) => column.Unit == ProfileUnit.KW ? "kW" : "kWh";
}
