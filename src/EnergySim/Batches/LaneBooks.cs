using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using EnergySim.Engine;

namespace EnergySim.Batches;

/// <summary>What the meters of variants side by side saw in one block of intervals, kW.</summary>
internal sealed class LaneColumns<T>(int count) where T : struct, ILane<T>
{
    public readonly T[] Import = new T[count], Export = new T[count], Load = new T[count], Solar = new T[count];
}

/// <summary>Writes import and export down.</summary>
internal struct NetBook<T>(LaneColumns<T> columns) : IBook<T> where T : struct, ILane<T>
{
    private readonly T[] _import = columns.Import, _export = columns.Export;
    private int _at;

    public static bool KeepsFlows => false;

    public static bool KeepsGross => false;

    public readonly void Cut(LimitSite site, T withheldKw) { }

    public readonly void Flow(LedgerColumn column, T value) { }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Meter(T importKw, T exportKw, T loadKw, T solarKw)
    {
        Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_import), _at) = importKw;
        Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_export), _at) = exportKw;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close() => _at++;
}

/// <summary>Adds import, export and what export is worth up while one bucket lasts, and writes nothing down: all that most plans ask.</summary>
internal struct BucketBook<T>(double[] pricePerKwh, int from) : IBook<T> where T : struct, ILane<T>
{
    public T ImportKw, ExportKw, Value;
    private int _at = from;

    public static bool KeepsFlows => false;

    public static bool KeepsGross => false;

    public readonly void Cut(LimitSite site, T withheldKw) { }

    public readonly void Flow(LedgerColumn column, T value) { }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Meter(T importKw, T exportKw, T loadKw, T solarKw)
    {
        ImportKw += importKw;
        ExportKw += exportKw;
        Value += exportKw * T.All(Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(pricePerKwh), _at));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close() => _at++;
}

/// <summary>Writes down all four columns: for plans under which all load is bought and all solar sold.</summary>
internal struct GrossBook<T>(LaneColumns<T> columns) : IBook<T> where T : struct, ILane<T>
{
    private readonly T[] _import = columns.Import, _export = columns.Export, _load = columns.Load, _solar = columns.Solar;
    private int _at;

    public static bool KeepsFlows => false;

    public static bool KeepsGross => true;

    public readonly void Cut(LimitSite site, T withheldKw) { }

    public readonly void Flow(LedgerColumn column, T value) { }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Meter(T importKw, T exportKw, T loadKw, T solarKw)
    {
        _import[_at] = importKw;
        _export[_at] = exportKw;
        _load[_at] = loadKw;
        _solar[_at] = solarKw;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close() => _at++;
}

/// <summary>Keeps nothing: for the warm-up.</summary>
internal struct SilentBook<T> : IBook<T> where T : struct, ILane<T>
{
    public static bool KeepsFlows => false;

    public static bool KeepsGross => false;

    public readonly void Cut(LimitSite site, T withheldKw) { }

    public readonly void Flow(LedgerColumn column, T value) { }

    public readonly void Meter(T importKw, T exportKw, T loadKw, T solarKw) { }

    public readonly void Close() { }
}

/// <summary>All four columns, and the sums of what the cells give.</summary>
internal struct GivenBook<T>(LaneColumns<T> columns, LaneFlows<T> flows) : IBook<T> where T : struct, ILane<T>
{
    private readonly T[] _sumKw = flows.SumKw;
    private GrossBook<T> _meter = new(columns);

    public static bool KeepsFlows => false;

    public static bool KeepsGross => true;

    public readonly void Cut(LimitSite site, T withheldKw) { }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Flow(LedgerColumn column, T value)
    {
        if (column is LedgerColumn.CellsToLoadKw or LedgerColumn.CellsToGridKw) _sumKw[(int)column] += value;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Meter(T importKw, T exportKw, T loadKw, T solarKw) => _meter.Meter(importKw, exportKw, loadKw, solarKw);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close() => _meter.Close();
}

/// <summary>All four columns, and the sums of every flow and limit.</summary>
internal struct FlowsBook<T>(LaneColumns<T> columns, LaneFlows<T> flows) : IBook<T> where T : struct, ILane<T>
{
    private GrossBook<T> _meter = new(columns);

    public static bool KeepsFlows => true;

    public static bool KeepsGross => true;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Cut(LimitSite site, T withheldKw)
    {
        if (T.AnyAbove(withheldKw, T.All(Step.TinyKw))) flows.Bind(site, withheldKw);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Flow(LedgerColumn column, T value)
    {
        if (column != LedgerColumn.StoredKwh) flows.SumKw[(int)column] += value;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Meter(T importKw, T exportKw, T loadKw, T solarKw) => _meter.Meter(importKw, exportKw, loadKw, solarKw);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close()
    {
        _meter.Close();
        flows.Close();
    }
}
