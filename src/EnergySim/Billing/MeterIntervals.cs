using EnergySim.Engine;
using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>
/// Import and export as a meter with longer intervals than the run's forms them: each of its intervals' sums stand at its first interval, by
/// whose bucket it is priced.
/// </summary>
/// <typeparam name="T">One case or several.</typeparam>
internal sealed class MeterIntervals<T>(TariffCalendar calendar) where T : struct, ILane<T>
{
    private T[] _import = [], _export = [];
    private int _count;

    public ReadOnlySpan<T> ImportKw => _import.AsSpan(0, _count);

    public ReadOnlySpan<T> ExportKw => _export.AsSpan(0, _count);

    /// <summary>Takes a block that begins with an interval of the meter.</summary>
    public void Take(int from, ReadOnlySpan<T> importKw, ReadOnlySpan<T> exportKw)
    {
        _count = importKw.Length;
        if (_import.Length < _count) (_import, _export) = (new T[_count], new T[_count]);
        Array.Clear(_import);
        Array.Clear(_export);
        int start = 0;
        while (start < _count)
        {
            TariffVersion version = calendar.Tariff.Versions[calendar.Buckets[calendar.BucketOf[from + start]].Version];
            T bought = importKw[start], sold = exportKw[start];
            int end = start + 1;
            if (version.MeterMinutes is int minutes && minutes > calendar.Axis.StepMinutes)
            {
                for (; end < _count && !calendar.Begins(from + end, minutes); end++)
                {
                    bought += importKw[end];
                    sold += exportKw[end];
                }
                if (version.NetsInsideMeterInterval) (bought, sold) = (T.Max(T.All(0), bought - sold), T.Max(T.All(0), sold - bought));
            }
            _import[start] = bought;
            _export[start] = sold;
            start = end;
        }
    }
}
