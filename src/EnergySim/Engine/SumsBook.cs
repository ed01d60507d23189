using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace EnergySim.Engine;

/// <summary>Keeps sums: kW summed over intervals by flow and by site of a clamp, and the number of intervals in which each limit bound.</summary>
internal struct SumsBook() : IBook<Scalar>
{
    public readonly double[] SumKw = new double[Ledger.ColumnCount];
    public readonly double[] WithheldKw = new double[Limits.SiteCount];
    public readonly int[] BoundIntervals = new int[Limits.Count];
    private uint _limitsNow;

    public static bool KeepsFlows => true;

    public static bool KeepsGross => true;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Cut(LimitSite site, Scalar withheldKw)
    {
        if (withheldKw.Value > Step.TinyKw) Bind(site, withheldKw.Value);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Flow(LedgerColumn column, Scalar value)
    {
        // The columns are the array's by construction; the check would cost as much as the sum.
        if (column != LedgerColumn.StoredKwh) Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(SumKw), (int)column) += value.Value;
    }

    public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) { }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close() => _limitsNow = 0;

    // Kept out of line: it is rare, and the step is large.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Bind(LimitSite site, double withheldKw)
    {
        WithheldKw[(int)site] += withheldKw;
        int limit = (int)Limits.LimitOf(site);
        if ((_limitsNow >> limit & 1) == 0) BoundIntervals[limit]++;
        _limitsNow |= 1u << limit;
    }
}
