namespace EnergySim.Files;

/// <summary>Adds several meters up, reading by reading.</summary>
internal static class MeterSum
{
    /// <summary>One meter as it is; of several, the sum in each interval that all of them know.</summary>
    public static List<MeterRow> Of(string file, IReadOnlyList<List<MeterRow>> meters, MeterRows notes)
    {
        if (meters.Count == 1) return meters[0];
        var sums = new Dictionary<(MeterFlow, long, int), (MeterRow Row, int Meters)>();
        foreach (List<MeterRow> meter in meters)
        {
            var seen = new HashSet<(MeterFlow, long, int)>();
            foreach (MeterRow row in meter)
            {
                (MeterFlow, long, int) key = (row.Flow, row.StartSecond, row.Seconds);
                if (!seen.Add(key))
                    throw new ProblemsException([MeterAssembly.At(file, row, "stands twice for one meter; meters can be added up only where each has one row an interval")]);
                sums[key] = sums.TryGetValue(key, out (MeterRow Row, int Meters) sum)
                    ? (sum.Row with { Kwh = sum.Row.Kwh + row.Kwh, Mark = row.Mark > sum.Row.Mark ? row.Mark : sum.Row.Mark }, sum.Meters + 1)
                    : (row, 1);
            }
        }
        // A channel that one meter lacks altogether is 0 there; an interval that it lacks is unknown.
        var having = new Dictionary<MeterFlow, int>();
        foreach (List<MeterRow> meter in meters)
            foreach (MeterFlow flow in meter.Select(r => r.Flow).Distinct()) having[flow] = having.GetValueOrDefault(flow) + 1;
        int partial = sums.Values.Count(s => s.Meters < having[s.Row.Flow]);
        if (partial > 0) notes.Notes.Add($"{partial} intervals are known for some of the meters only; their sum is missing.");
        return [.. sums.Values.Select(s => s.Meters < having[s.Row.Flow] ? s.Row with { Kwh = null } : s.Row).OrderBy(r => r.StartSecond)];
    }
}
