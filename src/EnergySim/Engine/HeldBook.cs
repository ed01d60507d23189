using System.Runtime.CompilerServices;

namespace EnergySim.Engine;

/// <summary>Keeps only what the cells hold at each interval's start, kWh: a ledger takes six times the memory.</summary>
internal struct HeldBook(double[] startKwh, MeterColumns meter) : IBook<Scalar>
{
    private readonly double[] _startKwh = startKwh;
    private MeterBook _meter = new(meter, 0);
    private int _next = 1;

    public static bool KeepsFlows => false;

    public static bool KeepsGross => true;

    public readonly void Cut(LimitSite site, Scalar withheldKw) { }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Flow(LedgerColumn column, Scalar value)
    {
        if (column == LedgerColumn.StoredKwh && (uint)_next < (uint)_startKwh.Length) _startKwh[_next] = value.Value;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) => _meter.Meter(importKw, exportKw, loadKw, solarKw);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close()
    {
        _meter.Close();
        _next++;
    }
}
