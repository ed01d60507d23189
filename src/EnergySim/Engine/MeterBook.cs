using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace EnergySim.Engine;

/// <summary>Writes down what the meters see.</summary>
internal struct MeterBook(MeterColumns meter, int index) : IBook<Scalar>
{
    private readonly double[] _import = meter.Import, _export = meter.Export, _solar = meter.Solar, _load = meter.Load;
    private int _index = index;

    public static bool KeepsFlows => false;

    public static bool KeepsGross => true;

    public readonly void Cut(LimitSite site, Scalar withheldKw) { }

    public readonly void Flow(LedgerColumn column, Scalar value) { }

    // The interval is inside by construction; four checks would be felt.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw)
    {
        Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_import), _index) = importKw.Value;
        Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_export), _index) = exportKw.Value;
        Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_load), _index) = loadKw.Value;
        Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_solar), _index) = solarKw.Value;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close() => _index++;
}
