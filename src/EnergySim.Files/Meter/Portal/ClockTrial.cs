using System.Runtime.InteropServices;
using NodaTime;

namespace EnergySim.Files;

/// <summary>A way in which labels may have been written.</summary>
internal enum ClockReading
{
    /// <summary>Wall time of the interval's start (or, of an end, the start's plus its length).</summary>
    Local,

    /// <summary>Wall time of the interval's end, as the clock then showed it.</summary>
    LocalEnds,

    /// <summary>Intervals counted from the local midnight.</summary>
    LocalCounted,

    /// <summary>The zone's standard time all year.</summary>
    Standard,
}

/// <summary>The rows placed in time under one reading of their labels, and what then does not fit.</summary>
internal sealed class ClockTrial
{
    /// <summary>Marks a row whose label the clock never shows.</summary>
    public const long Nowhere = long.MinValue;

    private ClockTrial(ClockReading reading, int count) => (Reading, Starts) = (reading, new long[count]);

    public ClockReading Reading { get; }

    /// <summary>Start of each row, minutes since 1970-01-01 UTC.</summary>
    public long[] Starts { get; }

    /// <summary>Rows whose label the clock skips and that hold a number.</summary>
    public List<int> Skipped { get; } = [];

    /// <summary>Rows whose label the clock shows twice and that stand once.</summary>
    public List<int> Single { get; } = [];

    /// <summary>Rows that do not fit: skipped, missing or twice.</summary>
    public int Faults { get; private set; }

    /// <summary>Adds faults that were found otherwise.</summary>
    public void Blame(int faults) => Faults += faults;

    public static ClockTrial Of(List<PortalRow> rows, ClockReading reading, StampMark mark, DateTimeZone zone, LocalEras eras)
    {
        var trial = new ClockTrial(reading, rows.Count);
        switch (reading)
        {
            case ClockReading.Standard:
                for (int i = 0; i < rows.Count; i++) trial.Starts[i] = rows[i].Label - eras.StandardOffset - (mark == StampMark.End ? rows[i].Minutes : 0);
                break;
            case ClockReading.LocalCounted: trial.Count(rows, zone); break;
            default: trial.Walk(rows, mark, eras); break;
        }
        trial.CountFaults(rows);
        return trial;
    }

    private void Walk(List<PortalRow> rows, StampMark mark, LocalEras eras)
    {
        var seen = new Dictionary<(long Label, MeterFlow Flow, short Meter), int>();
        for (int i = 0; i < rows.Count; i++)
        {
            PortalRow row = rows[i];
            int before = mark == StampMark.End ? row.Minutes : 0;
            bool ends = Reading == ClockReading.LocalEnds;
            long label = row.Label - (ends ? 0 : before);
            int count = eras.UtcOf(label, out long first, out long second);
            if (count == 0)
            {
                Starts[i] = Nowhere;
                if (row.Value is not null) Skipped.Add(i);
                continue;
            }
            long utc = first;
            if (count == 2)
            {
                ref int earlier = ref CollectionsMarshal.GetValueRefOrAddDefault(seen, (label, row.Flow, row.Meter), out bool exists);
                if (exists)
                {
                    utc = second;
                    Single.Remove(earlier);
                }
                else
                {
                    earlier = i;
                    Single.Add(i);
                }
            }
            Starts[i] = utc - (ends ? before : 0);
        }
    }

    private void Count(List<PortalRow> rows, DateTimeZone zone)
    {
        long day = long.MinValue, start = 0;
        for (int i = 0; i < rows.Count; i++)
        {
            if (rows[i].DayMinute != day)
            {
                day = rows[i].DayMinute;
                start = zone.AtStartOfDay(new LocalDate(1970, 1, 1).PlusDays((int)(day / 1440))).ToInstant().ToUnixTimeSeconds() / 60;
            }
            Starts[i] = start + rows[i].Label - day;
        }
        // A column for an hour that the day does not have is empty.
        for (int i = 0; i < rows.Count; i++)
            if (rows[i].Value is null && rows[i].Label - rows[i].DayMinute >= 1380) DropIfTaken(rows, i, zone);
    }

    private void DropIfTaken(List<PortalRow> rows, int i, DateTimeZone zone)
    {
        LocalDate next = new LocalDate(1970, 1, 1).PlusDays((int)(rows[i].DayMinute / 1440) + 1);
        if (Starts[i] >= zone.AtStartOfDay(next).ToInstant().ToUnixTimeSeconds() / 60) Starts[i] = Nowhere;
    }

    private void CountFaults(List<PortalRow> rows)
    {
        Faults = Skipped.Count;
        var channels = new Dictionary<(MeterFlow, short), (int Step, List<long> Starts)>();
        for (int i = 0; i < rows.Count; i++)
        {
            // An empty cell is no row: where the clock skips an hour, a table leaves its cell empty.
            if (Starts[i] == Nowhere || rows[i].Value is null) continue;
            ref (int Step, List<long> Starts) channel = ref CollectionsMarshal.GetValueRefOrAddDefault(channels, (rows[i].Flow, rows[i].Meter), out bool exists);
            if (!exists) channel = (rows[i].Minutes, new List<long>(rows.Count));
            channel.Starts.Add(Starts[i]);
        }
        foreach ((int step, List<long> starts) in channels.Values)
        {
            if (step <= 0) continue;
            starts.Sort();
            for (int k = 1; k < starts.Count; k++)
            {
                long d = starts[k] - starts[k - 1];
                if (d == 0) Faults++;
                else if (d > step) Faults += (int)Math.Min(1000, (d / step) - 1);
            }
        }
    }
}
