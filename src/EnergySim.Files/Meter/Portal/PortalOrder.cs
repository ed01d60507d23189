using NodaTime;

namespace EnergySim.Files;

/// <summary>Puts rows in order of time, mends the date of midnights, and finds out which end of its interval a stamp names.</summary>
internal static class PortalOrder
{
    /// <summary>The end that stamps name; null where it must be asked for.</summary>
    public static StampMark? Settle(List<PortalRow> rows, StampLayout stamps, MeterOptions options, MeterRows told)
    {
        Sort(rows);
        bool mended = MendMidnights(rows);
        if (options.Stamp is StampMark said && stamps.Kind is not (StampKind.Wide or StampKind.DateAndOrdinal))
            return Found(said, "as said", 1);
        if (mended) return Found(StampMark.End, "midnight stands under the date of the day that ends", 0.97);
        if (stamps.Mark is StampMark layout) return Found(layout, stamps.MarkGround, 0.97);
        int step = PortalSteps.Settle([.. rows], stamps, null);
        (long first, long last) = (rows.Min(r => Local(r, options)), rows.Max(r => Local(r, options)));
        if (rows.Exists(r => r.IsHour24)) return Found(StampMark.End, "24:00 ends a day", 1);
        if (step > 0 && Mod(first) == 0 && Mod(last) == 1440 - step) return Found(StampMark.Start, "the file begins at midnight and ends one interval before it", 0.93);
        if (step > 0 && Mod(first) == step && Mod(last) == 0) return Found(StampMark.End, "the file begins one interval after midnight and ends at it", 0.93);
        told.Ask("--stamp", "Stamps may name the start or the end of their intervals; which is it?", "start", "end");
        return null;

        StampMark Found(StampMark mark, string ground, double confidence)
        {
            told.Found("stamps", mark == StampMark.Start ? "start of the interval" : "end of the interval", ground, confidence);
            return mark;
        }
    }

    /// <summary>Turns a file with the newest row first around.</summary>
    public static void Sort(List<PortalRow> rows)
    {
        int up = 0, down = 0;
        for (int i = 1; i < rows.Count; i++)
        {
            if (rows[i].Flow != rows[i - 1].Flow || rows[i].Meter != rows[i - 1].Meter) continue;
            long d = rows[i].Label - (rows[i].OffsetMinutes ?? 0) - rows[i - 1].Label + (rows[i - 1].OffsetMinutes ?? 0);
            if (d > 0) up++;
            else if (d < 0) down++;
        }
        if (up == 0 && down == 0 && rows.Count > 1) down = rows[^1].Label < rows[0].Label ? 1 : 0;
        if (down > up) rows.Reverse();
    }

    // 23:00, then 00:00 of the same date, then 01:00 of the next: that midnight is the end of its date.
    private static bool MendMidnights(List<PortalRow> rows)
    {
        var channels = new Dictionary<(MeterFlow, short), List<int>>();
        for (int i = 0; i < rows.Count; i++)
        {
            if (!channels.TryGetValue((rows[i].Flow, rows[i].Meter), out List<int>? list)) channels[(rows[i].Flow, rows[i].Meter)] = list = [];
            list.Add(i);
        }
        int sound = 0;
        var found = new List<int>();
        foreach (List<int> order in channels.Values)
            for (int k = 1; k < order.Count; k++)
            {
                long label = rows[order[k]].Label;
                if (Mod(label) != 0 || rows[order[k]].OffsetMinutes is not null) continue;
                long before = rows[order[k - 1]].Label;
                bool leaps = k + 1 == order.Count || rows[order[k + 1]].Label - label > 1440;
                if (leaps && before > label && before - label is > 1200 and < 1440) found.Add(order[k]);
                else if (before < label) sound++;
            }
        if (found.Count <= sound) return false;
        foreach (int i in found) rows[i] = rows[i] with { Label = rows[i].Label + 1440 };
        return true;
    }

    // What a clock on the meter's wall shows: days begin at its midnight, not at that of UTC.
    private static long Local(in PortalRow row, MeterOptions options)
    {
        if (row.OffsetMinutes != 0 || options.Zone is not DateTimeZone zone) return row.Label;
        return row.Label + (zone.GetUtcOffset(WallClock.InstantOf(row.Label)).Seconds / 60);
    }

    private static long Mod(long label) => ((label % 1440) + 1440) % 1440;
}
