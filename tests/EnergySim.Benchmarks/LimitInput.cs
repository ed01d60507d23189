using EnergySim.Batches;
using EnergySim.Tariffs;

namespace EnergySim.Benchmarks;

/// <summary>A year of variants laid out for the C code, in memory that does not move.</summary>
internal sealed unsafe class LimitInput
{
    // Kept so that the pinned memory stays.
    private readonly List<Array> _kept = [];

    public LimitInput(Variant[] variants, TariffCalendar calendar)
    {
        Cases = [.. variants.Select(SpeedLimit.LimitCase.Of)];
        Variant first = variants[0];
        BucketRun[] runs = calendar.Runs;
        double[] none = new double[calendar.Axis.Count];
        Series = new SpeedLimit.LimitSeries
        {
            Load = Pinned(first.Load.Kw.ToArray()),
            Dc = Pinned(first.SolarDc?.Kw.ToArray() ?? none),
            Ac = Pinned(first.SolarAc?.Kw.ToArray() ?? none),
            Price = Pinned(calendar.ExportPrices.PricePerKwh[0]),
            Picks = Pinned(first.SetPoints.Picks.ToArray()),
            BucketEnds = Pinned([.. runs.Select(r => r.Start + r.Length)]),
            BucketOf = Pinned([.. runs.Select(r => r.Bucket)]),
            BillOf = Pinned([.. runs.Select(r => calendar.Buckets[r.Bucket].Bill)]),
            Hours = calendar.Axis.StepHours,
            Count = calendar.Axis.Count,
            RowCount = first.SetPoints.Rows.Length,
            Buckets = calendar.Buckets.Count,
            Results = (2 * calendar.Buckets.Count) + calendar.Bills.Count,
        };
        Scratch = new double[Series.Results * 64];
        WarmUpFrom = Series.Count - (int)(Engine.Run.WarmUpHours / Series.Hours);
    }

    public SpeedLimit.LimitCase[] Cases { get; }

    public SpeedLimit.LimitSeries Series { get; }

    public double[] Scratch { get; }

    public int WarmUpFrom { get; }

    public T* Pinned<T>(T[] values) where T : unmanaged
    {
        T[] pinned = GC.AllocateArray<T>(values.Length, pinned: true);
        values.CopyTo(pinned, 0);
        _kept.Add(pinned);
        return (T*)System.Runtime.InteropServices.Marshal.UnsafeAddrOfPinnedArrayElement(pinned, 0);
    }
}
