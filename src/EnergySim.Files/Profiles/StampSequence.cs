using System.Globalization;

namespace EnergySim.Files;

/// <summary>Checks that rows come one an interval, in order, and puts their numbers into place.</summary>
internal sealed class StampSequence(ProfileRows rows, StampLine line, int stepMinutes, bool isUtc)
{
    private const string Hint = "; a file that keeps 24 hours on every day needs clockChange: split-and-drop";
    private readonly List<double?> _values = new(rows.Rows.Count);
    private long _last = long.MinValue;

    /// <summary>The numbers, one an interval from the first row to the last; null where a row is empty or missing.</summary>
    /// <param name="stampOf">The stamp of a row on the clock of the line.</param>
    public List<double?> Place(Func<ProfileRow, long> stampOf)
    {
        foreach (ProfileRow row in rows.Rows)
        {
            long stamp = stampOf(row);
            if (stamp == line.At(_values.Count)) Take(row, stamp);
            else Resume(row, stamp);
        }
        return _values;
    }

    private void Take(in ProfileRow row, long stamp)
    {
        _values.Add(row.Value);
        _last = stamp;
    }

    private void Resume(in ProfileRow row, long stamp)
    {
        if (line.IsSkipped(stamp))
        {
            Report(row, stamp, $"does not exist on the clock of {line.ZoneName}, which skips that hour{Hint}");
            return;
        }
        int next = _values.Count;
        if (line.IndexOf(stamp, next) is not int index)
        {
            Report(row, stamp,
                stamp == _last ? "stands twice; each interval has one row"
                : stamp < _last ? $"comes after {Text(_last)}; rows go forward in time"
                : string.Create(CultureInfo.InvariantCulture, $"is not a whole number of {stepMinutes}-minute intervals after the row before"));
            return;
        }
        long missing = line.At(next);
        if (line.IsRepeated(missing) && missing <= _last)
            Report(row, stamp, $"comes too early: the clock of {line.ZoneName} repeats {Text(missing)} and the second pass is missing{Hint}");
        else
            Report(row, stamp, string.Create(CultureInfo.InvariantCulture,
                $"comes after a gap; {Rows(index - next)} of {stepMinutes} minutes from {Text(missing)} on {(index - next == 1 ? "is" : "are")} missing"));
        // A gap of years is a wrong stamp, not a reason to fill memory.
        if (index - next > 1_000_000) return;
        while (_values.Count < index) _values.Add(null);
        Take(row, stamp);
    }

    private static string Rows(int count) => count == 1 ? "1 row" : string.Create(CultureInfo.InvariantCulture, $"{count:N0} rows");

    private void Report(in ProfileRow row, long stamp, string rule) => rows.Report(row, rows.StampField, Text(stamp), rule);

    private string Text(long stamp) => WallClock.Text(stamp) + (isUtc ? " UTC" : "");
}
