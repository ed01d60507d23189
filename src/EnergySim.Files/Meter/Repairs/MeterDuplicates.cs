using System.Globalization;

namespace EnergySim.Files;

/// <summary>Sorts a channel by time and settles what stands twice: equal rows count once, different ones need a rule.</summary>
internal static class MeterDuplicates
{
    /// <summary>The channel in order of time, each interval once. The list that is given may be the one that comes back.</summary>
    public static List<MeterRow> Settle(string file, List<MeterRow> channel, DuplicateRule rule, MeterRows rows, ProblemList problems, string name)
    {
        List<MeterRow> sorted = IsSorted(channel) ? channel : [.. channel.OrderBy(r => r.StartSecond)];
        int kept = 0, equal = 0, settled = 0;
        for (int i = 0; i < sorted.Count; i++)
        {
            MeterRow row = sorted[i], before = kept > 0 ? sorted[kept - 1] : default;
            if (kept == 0 || before.StartSecond + before.Seconds <= row.StartSecond)
            {
                sorted[kept++] = row;
            }
            else if (before.StartSecond != row.StartSecond || before.Seconds != row.Seconds)
            {
                problems.Add(MeterAssembly.At(file, row, string.Create(CultureInfo.InvariantCulture,
                    $"begins before the {name} reading ahead of it has ended; the file counts that time twice")));
            }
            else if (before.Kwh == row.Kwh || row.Kwh is null)
            {
                equal++;
            }
            else if (before.Kwh is null)
            {
                sorted[kept - 1] = row;
            }
            else if (rule == DuplicateRule.Refuse)
            {
                problems.Add(MeterAssembly.At(file, row, string.Create(CultureInfo.InvariantCulture,
                    $"stands twice with different numbers for {name}: {before.Kwh:0.######} and {row.Kwh:0.######} kWh; say which counts (--duplicates first, last, larger or sum)")));
            }
            else
            {
                settled++;
                sorted[kept - 1] = Choose(before, row, rule);
            }
        }
        if (equal > 0) rows.Notes.Add(string.Create(CultureInfo.InvariantCulture, $"{equal:N0} {name} {(equal == 1 ? "reading that stands" : "readings that stand")} twice with the same number {(equal == 1 ? "was" : "were")} counted once."));
        if (settled > 0) rows.Notes.Add(string.Create(CultureInfo.InvariantCulture, $"{settled:N0} {name} readings stand twice with different numbers; as asked, {Words(rule)} counts."));
        sorted.RemoveRange(kept, sorted.Count - kept);
        return sorted;
    }

    private static bool IsSorted(List<MeterRow> rows)
    {
        for (int i = 1; i < rows.Count; i++)
            if (rows[i].StartSecond < rows[i - 1].StartSecond) return false;
        return true;
    }

    private static MeterRow Choose(in MeterRow first, in MeterRow second, DuplicateRule rule) => rule switch
    {
        DuplicateRule.First => first,
        DuplicateRule.Last => second,
        DuplicateRule.Larger => first.Kwh >= second.Kwh ? first : second,
        _ => first with { Kwh = first.Kwh + second.Kwh },
    };

    private static string Words(DuplicateRule rule) => rule switch
    {
        DuplicateRule.First => "the first",
        DuplicateRule.Last => "the last",
        DuplicateRule.Larger => "the larger",
        _ => "their sum",
    };
}
