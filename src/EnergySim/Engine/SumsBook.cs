using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace EnergySim.Engine;

/// <summary>Writes down what the meters see, and keeps sums: kW summed over intervals by flow and by site of a clamp, and the number of intervals in which each limit bound.</summary>
internal struct SumsBook(MeterColumns meter) : IBook<Scalar>
{
    public readonly double[] SumKw = new double[Ledger.ColumnCount];
    public readonly double[] WithheldKw = new double[Limits.SiteCount];
    public readonly int[] BoundIntervals = new int[Limits.Count];

    private MeterBook _meter = new(meter, 0);

    /// <summary>The sites at which a limit bound in the interval that is open, a bit each.</summary>
    public ulong SitesNow;

    public static bool KeepsFlows => true;

    public static bool KeepsGross => true;

    // No call: a step in which one could happen at every limit has to keep all its numbers in memory.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Cut(LimitSite site, Scalar withheldKw)
    {
        if (!(withheldKw.Value > Step.TinyKw)) return;
        Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(WithheldKw), (int)site) += withheldKw.Value;
        SitesNow |= 1ul << (int)site;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Flow(LedgerColumn column, Scalar value)
    {
        // The columns are the array's by construction; the check would cost as much as the sum.
        if (column != LedgerColumn.StoredKwh) Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(SumKw), (int)column) += value.Value;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) => _meter.Meter(importKw, exportKw, loadKw, solarKw);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close()
    {
        if (SitesNow != 0) Count();
        _meter.Close();
    }

    // A limit counts once an interval, at however many sites it bound.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Count()
    {
        uint limits = 0;
        for (ulong sites = SitesNow; sites != 0; sites &= sites - 1) limits |= 1u << (int)Limits.LimitOf((LimitSite)BitOperations.TrailingZeroCount(sites));
        for (; limits != 0; limits &= limits - 1) BoundIntervals[BitOperations.TrailingZeroCount(limits)]++;
        SitesNow = 0;
    }
}
