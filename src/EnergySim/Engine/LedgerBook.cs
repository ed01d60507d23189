using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace EnergySim.Engine;

/// <summary>
/// Writes every flow of every interval into a <see cref="Ledger"/>, and keeps the sums as well: a block of intervals is cleared, filled and
/// summed while it lies in the cache.
/// </summary>
internal struct LedgerBook : IBook<Scalar>
{
    private const int BlockIntervals = 64;

    public SumsBook Sums;
    private readonly double[][] _columns;
    private readonly ulong[] _sites;
    private int _index, _from, _until;

    /// <param name="ledger">A new one; nothing in it need be cleared.</param>
    /// <param name="meter">What the meters see.</param>
    public LedgerBook(Ledger ledger, MeterColumns meter)
    {
        Sums = new SumsBook(meter);
        (_columns, _sites) = (ledger.Columns, ledger.Sites);
        Clear();
    }

    public static bool KeepsFlows => true;

    public static bool KeepsGross => true;

    // The same as the sums' own, which would be calls within calls here: the JIT gives up on the step before its end.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Cut(LimitSite site, Scalar withheldKw)
    {
        if (!(withheldKw.Value > Step.TinyKw)) return;
        Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(Sums.WithheldKw), (int)site) += withheldKw.Value;
        Sums.SitesNow |= 1ul << (int)site;
    }

    // Column and interval are inside by construction; the checks would be felt.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Flow(LedgerColumn column, Scalar value) =>
        Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_columns), (int)column)), _index) = value.Value;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) => Sums.Meter(importKw, exportKw, loadKw, solarKw);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close()
    {
        Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_sites), _index) = Sums.SitesNow;
        Sums.Close();
        if (++_index == _until) EndBlock();
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private void EndBlock()
    {
        for (int column = 0; column < (int)LedgerColumn.StoredKwh; column += 3) SumThree(column);
        Sum((int)LedgerColumn.Dark);
        Clear();
    }

    // Each column from its first interval on, as a run that keeps only sums adds them; three at once, since an addition waits for the one before it.
    private readonly void SumThree(int column)
    {
        ReadOnlySpan<double> first = Block(column), second = Block(column + 1), third = Block(column + 2);
        Span<double> sums = Sums.SumKw.AsSpan(column, 3);
        double one = sums[0], two = sums[1], three = sums[2];
        for (int i = 0; i < first.Length; i++)
        {
            one += first[i];
            two += second[i];
            three += third[i];
        }
        (sums[0], sums[1], sums[2]) = (one, two, three);
    }

    private readonly void Sum(int column)
    {
        foreach (double kw in Block(column)) Sums.SumKw[column] += kw;
    }

    private readonly ReadOnlySpan<double> Block(int column) => _columns[column].AsSpan(_from, _until - _from);

    private void Clear()
    {
        (_from, _until) = (_index, Math.Min(_index + BlockIntervals, _sites.Length));
        foreach (double[] column in _columns) column.AsSpan(_from, _until - _from).Clear();
    }
}
