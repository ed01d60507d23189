using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using EnergySim.Engine;

namespace EnergySim.Batches;

/// <summary>The sums of flows and limits of variants side by side: as <see cref="SumsBook"/> keeps them for one.</summary>
internal sealed class LaneFlows<T> where T : struct, ILane<T>
{
    public readonly T[] SumKw = new T[Ledger.ColumnCount];
    private readonly T[] _withheldKw = new T[Limits.SiteCount], _boundIntervals = new T[Limits.Count], _boundNow = new T[Limits.Count];
    private readonly double[] _sums = new double[Ledger.ColumnCount], _withheld = new double[Limits.SiteCount];
    private readonly int[] _bound = new int[Limits.Count];
    private uint _limitsNow;

    public void Clear()
    {
        Array.Clear(SumKw);
        Array.Clear(_withheldKw);
        Array.Clear(_boundIntervals);
    }

    // Kept out of line: the step is large.
    [MethodImpl(MethodImplOptions.NoInlining)]
    public void Bind(LimitSite site, T withheldKw)
    {
        T tiny = T.All(Step.TinyKw), zero = T.All(0);
        _withheldKw[(int)site] += T.WhereAbove(withheldKw, tiny, withheldKw, zero);
        int limit = (int)Limits.LimitOf(site);
        _boundNow[limit] = T.WhereAbove(withheldKw, tiny, T.All(1), _boundNow[limit]);
        _limitsNow |= 1u << limit;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close()
    {
        if (_limitsNow != 0) Count();
    }

    /// <summary>What the cells of one lane gave to house and grid, kWh.</summary>
    public double GivenKwh(int lane, double stepHours)
    {
        ReadOnlySpan<double> sums = MemoryMarshal.Cast<T, double>(SumKw);
        return (sums[((int)LedgerColumn.CellsToLoadKw * T.Count) + lane] * stepHours) + (sums[((int)LedgerColumn.CellsToGridKw * T.Count) + lane] * stepHours);
    }

    /// <summary>The sums of one lane.</summary>
    public void CopyTo(int lane, RunFlows into, double stepHours)
    {
        ReadOnlySpan<double> sums = MemoryMarshal.Cast<T, double>(SumKw), withheld = MemoryMarshal.Cast<T, double>(_withheldKw), bound = MemoryMarshal.Cast<T, double>(_boundIntervals);
        for (int i = 0; i < _sums.Length; i++) _sums[i] = sums[(i * T.Count) + lane];
        for (int i = 0; i < _withheld.Length; i++) _withheld[i] = withheld[(i * T.Count) + lane];
        for (int i = 0; i < _bound.Length; i++) _bound[i] = (int)bound[(i * T.Count) + lane];
        into.Fill(_sums, _withheld, _bound, stepHours);
    }

    // A limit counts once an interval.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Count()
    {
        for (int limit = 0; limit < _boundNow.Length; limit++)
        {
            if ((_limitsNow >> limit & 1) == 0) continue;
            _boundIntervals[limit] += _boundNow[limit];
            _boundNow[limit] = default;
        }
        _limitsNow = 0;
    }
}
