namespace EnergySim.Files;

/// <summary>
/// The stamps that a file should have, in order: one an interval, as they would be written. Either they run evenly, or they follow a
/// wall clock that skips and repeats.
/// </summary>
internal sealed class StampLine
{
    private readonly WallClock? _wall;
    private readonly long _first;
    private readonly int _step;

    /// <param name="first">Where they run evenly, the first stamp; on a wall clock, the minute of UTC at which it shows the first stamp.</param>
    /// <param name="step">Minutes from one to the next.</param>
    /// <param name="wall">The wall clock, if they follow one.</param>
    public StampLine(long first, int step, WallClock? wall) => (_first, _step, _wall) = (first, step, wall);

    /// <summary>The stamp of an interval.</summary>
    public long At(int index)
    {
        long even = _first + ((long)_step * index);
        return _wall is null ? even : _wall.LocalOf(even);
    }

    /// <summary>The first interval, not before <paramref name="from"/>, that has this stamp; null = none.</summary>
    public int? IndexOf(long stamp, int from)
    {
        foreach (long even in _wall is null ? [stamp] : _wall.UtcOf(stamp))
        {
            long minutes = even - _first;
            if (minutes % _step == 0 && minutes / _step >= from) return (int)(minutes / _step);
        }
        return null;
    }

    /// <summary>True when the wall clock never shows this.</summary>
    public bool IsSkipped(long stamp) => _wall is not null && _wall.UtcOf(stamp).Count == 0;

    /// <summary>True when the wall clock shows this twice.</summary>
    public bool IsRepeated(long stamp) => _wall is not null && _wall.UtcOf(stamp).Count == 2;

    /// <summary>The wall clock's zone, in words.</summary>
    public string ZoneName => _wall?.Zone.Id ?? "";
}
