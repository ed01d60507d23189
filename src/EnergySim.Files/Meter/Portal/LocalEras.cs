using NodaTime;

namespace EnergySim.Files;

/// <summary>The stretches of equal offset of a zone around some labels; quick for labels in order. Minutes since 1970-01-01.</summary>
internal sealed class LocalEras
{
    private readonly (long From, long Until, int Offset)[] _eras;
    private int _at;

    public LocalEras(DateTimeZone zone, long firstLabel, long lastLabel)
    {
        Instant from = WallClock.InstantOf(firstLabel - 2880), until = WallClock.InstantOf(lastLabel + 2880);
        _eras =
        [
            .. zone.GetZoneIntervals(from, until).Select(e => (
                e.HasStart ? e.Start.ToUnixTimeSeconds() / 60 : long.MinValue / 4,
                e.HasEnd ? e.End.ToUnixTimeSeconds() / 60 : long.MaxValue / 4,
                e.WallOffset.Seconds / 60)),
        ];
        StandardOffset = zone.GetZoneInterval(WallClock.InstantOf(firstLabel)).StandardOffset.Seconds / 60;
        HasChange = _eras.Where((e, i) => i > 0 && e.From + e.Offset > firstLabel - 60 && e.From + e.Offset < lastLabel + 60).Any();
    }

    /// <summary>The zone's standard offset at the first label, minutes.</summary>
    public int StandardOffset { get; }

    /// <summary>Whether the clock changes among the labels.</summary>
    public bool HasChange { get; }

    /// <summary>The minutes of UTC at which the clock shows a label: none, one, or two with the earlier first.</summary>
    public int UtcOf(long label, out long first, out long second)
    {
        (first, second) = (0, 0);
        while (_at + 1 < _eras.Length && label - _eras[_at].Offset >= _eras[_at].Until + 1440) _at++;
        while (_at > 0 && label - _eras[_at].Offset < _eras[_at].From) _at--;
        int count = 0;
        for (int i = Math.Max(0, _at - 1); i < Math.Min(_eras.Length, _at + 3); i++)
        {
            long utc = label - _eras[i].Offset;
            if (utc < _eras[i].From || utc >= _eras[i].Until) continue;
            if (count++ == 0) first = utc;
            else second = utc;
        }
        return count;
    }
}
