namespace EnergySim.Files;

/// <summary>How long the interval of each row is.</summary>
internal static class PortalSteps
{
    // Lengths that occur in fewer rows than this share are gaps and clock changes, not lengths.
    private const double LeastShare = 0.1;
    private static readonly int[] s_lengths = [1, 2, 3, 4, 5, 6, 10, 12, 15, 20, 30, 60, 120, 180, 240, 360, 480, 720, 1440];

    /// <summary>Gives every row its length, minutes; the commonest is returned, 0 where none can be told.</summary>
    public static int Settle(List<PortalRow> rows, StampLayout stamps, StampMark? mark)
    {
        if (stamps.StepMinutes is int stated and < 1440) return All(rows, stated);
        if (stamps.EndDate >= 0 || stamps.EndTime >= 0)
        {
            // An end that is written 00:14 or 00:59 belongs to the interval.
            int usual = Commonest(rows.Where(r => r.Minutes > 0).Select(r => r.Minutes));
            if (usual > 0 && stamps.StepMinutes is not 1440)
            {
                bool isInclusive = !s_lengths.Contains(usual) && s_lengths.Contains(usual + 1);
                return ByEnds(rows, usual, isInclusive ? 1 : 0);
            }
        }
        return stamps.StepMinutes is int day ? All(rows, day) : ByDistance(rows, mark);
    }

    private static int All(List<PortalRow> rows, int minutes)
    {
        for (int i = 0; i < rows.Count; i++) rows[i] = rows[i] with { Minutes = minutes };
        return minutes;
    }

    private static int ByEnds(List<PortalRow> rows, int usual, int more)
    {
        HashSet<int> common = [.. rows.GroupBy(r => r.Minutes + more).Where(g => g.Count() >= rows.Count * LeastShare && s_lengths.Contains(g.Key)).Select(g => g.Key), usual + more];
        for (int i = 0; i < rows.Count; i++)
        {
            int own = rows[i].Minutes + more;
            rows[i] = rows[i] with { Minutes = common.Contains(own) ? own : usual + more };
        }
        return usual + more;
    }

    // From one label to the next of the same channel.
    private static int ByDistance(List<PortalRow> rows, StampMark? mark)
    {
        var order = new List<int>(rows.Count);
        PortalRow first = rows[0];
        for (int i = 0; i < rows.Count; i++)
            if (rows[i].Flow == first.Flow && rows[i].Meter == first.Meter) order.Add(i);
        static long Utc(in PortalRow r) => r.Label - (r.OffsetMinutes ?? 0);
        for (int i = 1; i < order.Count; i++)
            if (Utc(rows[order[i]]) < Utc(rows[order[i - 1]]))
            {
                order.Sort((a, b) => Utc(rows[a]) != Utc(rows[b]) ? Utc(rows[a]).CompareTo(Utc(rows[b])) : a.CompareTo(b));
                break;
            }
        var counts = new Dictionary<int, int>();
        for (int i = 1; i < order.Count; i++)
            if (Utc(rows[order[i]]) - Utc(rows[order[i - 1]]) is > 0 and <= 1440 and var d) counts[(int)d] = counts.GetValueOrDefault((int)d) + 1;
        if (counts.Count == 0) return 0;
        int usual = counts.MaxBy(p => p.Value).Key, all = counts.Values.Sum();
        HashSet<int> common = [.. counts.Where(p => p.Value >= all * LeastShare && s_lengths.Contains(p.Key)).Select(p => p.Key)];
        if (common.Count < 2) return All(rows, usual);
        // The step changes within the file: a row lasts to the next one, or since the one before.
        var byLabel = new Dictionary<long, int>();
        for (int i = 0; i < order.Count; i++)
        {
            int other = mark == StampMark.End ? i - 1 : i + 1;
            long d = other >= 0 && other < order.Count ? Math.Abs(Utc(rows[order[other]]) - Utc(rows[order[i]])) : 0;
            if (!common.Contains((int)Math.Min(d, 1440)))
                d = i > 0 && i + 1 < order.Count ? Math.Abs(Utc(rows[order[i]]) - Utc(rows[order[mark == StampMark.End ? i + 1 : i - 1]])) : byLabel.Count > 0 ? byLabel.Values.Last() : usual;
            byLabel[Utc(rows[order[i]])] = common.Contains((int)Math.Min(d, 1440)) ? (int)d : usual;
        }
        for (int i = 0; i < rows.Count; i++) rows[i] = rows[i] with { Minutes = byLabel.GetValueOrDefault(Utc(rows[i]), usual) };
        return usual;
    }

    private static int Commonest(IEnumerable<int> lengths) => lengths.GroupBy(m => m).MaxBy(g => g.Count())?.Key ?? 0;
}
