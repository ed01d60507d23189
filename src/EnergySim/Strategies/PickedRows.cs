namespace EnergySim.Strategies;

/// <summary>Which row holds in each interval. One object may serve the set-points of many plants.</summary>
internal sealed class PickedRows
{
    /// <param name="rowOf">For each interval the index of its row. It is kept, not copied.</param>
    public PickedRows(int[] rowOf)
    {
        RowOf = rowOf;
        var changes = new List<int>();
        for (int i = 1; i < rowOf.Length; i++)
            if (rowOf[i] != rowOf[i - 1]) changes.Add(i);
        changes.Add(rowOf.Length);
        Changes = [.. changes];
    }

    /// <summary>For each interval the index of its row.</summary>
    public int[] RowOf { get; }

    /// <summary>The intervals at which another row begins to hold, rising; the last is the number of intervals.</summary>
    public int[] Changes { get; }
}
