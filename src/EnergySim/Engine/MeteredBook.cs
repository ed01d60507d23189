using System.Runtime.CompilerServices;

namespace EnergySim.Engine;

/// <summary>Writes down what the meters see, in front of the book that keeps the rest.</summary>
internal struct MeteredBook<TBook>(TBook inner, MeterColumns meter, int index) : IBook<Scalar>
    where TBook : struct, IBook<Scalar>
{
    public TBook Inner = inner;
    private readonly double[] _import = meter.Import, _export = meter.Export, _solar = meter.Solar, _load = meter.Load;
    private int _index = index;

    public static bool KeepsFlows => TBook.KeepsFlows;

    public static bool KeepsGross => true;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Cut(LimitSite site, Scalar withheldKw) => Inner.Cut(site, withheldKw);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Flow(LedgerColumn column, Scalar value) => Inner.Flow(column, value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw)
    {
        _import[_index] = importKw.Value;
        _export[_index] = exportKw.Value;
        _load[_index] = loadKw.Value;
        _solar[_index] = solarKw.Value;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close()
    {
        _index++;
        Inner.Close();
    }
}
