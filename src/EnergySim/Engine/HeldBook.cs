using System.Runtime.CompilerServices;

namespace EnergySim.Engine;

/// <summary>Keeps only what the cells hold at each interval's start, kWh: a ledger takes six times the memory.</summary>
internal struct HeldBook(double[] startKwh) : IBook<Scalar>
{
    private readonly double[] _startKwh = startKwh;
    private int _next = 1;

    public static bool KeepsFlows => false;

    public static bool KeepsGross => true;

    public readonly void Cut(LimitSite site, Scalar withheldKw) { }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Flow(LedgerColumn column, Scalar value)
    {
        if (column == LedgerColumn.StoredKwh && (uint)_next < (uint)_startKwh.Length) _startKwh[_next] = value.Value;
    }

    public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) { }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close() => _next++;
}
