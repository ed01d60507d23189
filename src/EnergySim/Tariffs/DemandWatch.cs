namespace EnergySim.Tariffs;

/// <summary>When the utility measures demand: what a controller at the meter knows of the rate sheet.</summary>
/// <param name="Counts">For each interval whether some demand charge counts it.</param>
/// <param name="Begins">For each interval whether a new mean begins with it, of the longest means.</param>
/// <param name="BillOf">For each interval the index of its bill.</param>
internal sealed record DemandWatch(bool[] Counts, bool[] Begins, int[] BillOf)
{
    /// <summary>Of a plan on its axis; a plan without demand charges counts every interval by itself.</summary>
    public static DemandWatch Of(TariffCalendar calendar)
    {
        int count = calendar.Axis.Count;
        var watch = new DemandWatch(new bool[count], new bool[count], new int[count]);
        IReadOnlyList<DemandColumn> columns = calendar.Demand.Columns;
        for (int i = 0; i < count; i++)
        {
            watch.Counts[i] = columns.Count == 0 || columns.Any(c => c.CellOf[i] >= 0);
            watch.Begins[i] = columns.All(c => c.Begins[i]);
            watch.BillOf[i] = calendar.Buckets[calendar.BucketOf[i]].Bill;
        }
        return watch;
    }
}
