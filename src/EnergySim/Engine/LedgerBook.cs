using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace EnergySim.Engine;

/// <summary>Writes every flow of every interval into a <see cref="Ledger"/>, and keeps the sums as well.</summary>
internal struct LedgerBook(Ledger ledger) : IBook<Scalar>
{
    public SumsBook Sums = new();
    private readonly double[][] _columns = ledger.Columns;
    private readonly ulong[] _sites = ledger.Sites;
    private int _index;

    public static bool KeepsFlows => true;

    public static bool KeepsGross => true;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Cut(LimitSite site, Scalar withheldKw) => Sums.Cut(site, withheldKw);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Flow(LedgerColumn column, Scalar value)
    {
        // Columns and intervals are inside by construction; the checks would be felt.
        double[] values = Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_columns), (int)column);
        Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(values), _index) = value.Value;
        Sums.Flow(column, value);
    }

    public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) { }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close()
    {
        Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_sites), _index) = Sums.SitesNow;
        Sums.Close();
        _index++;
    }
}
