using System.Runtime.CompilerServices;

namespace EnergySim.Engine;

/// <summary>What of the step differs with the grid up and down.</summary>
internal interface IGrid<T> where T : struct, ILane<T>
{
    /// <summary>What the guarded busbar lets the inverter put out to the house, kW.</summary>
    T Busbar(in StepConstants<T> plant, T loadKw, T solarAcKw);

    /// <summary>Books what is left once the rules have acted: load, standby, what is unmet and whatever follows from it.</summary>
    void Close<TBook>(in StepConstants<T> plant, T loadKw, T unmetKw, T exportKw, T curtailedAcKw, T solarKw, ref TBook book) where TBook : struct, IBook<T>;
}

/// <summary>The grid is up: what is unmet is bought.</summary>
internal struct GridUp<T> : IGrid<T> where T : struct, ILane<T>
{
    // While the house buys, output only changes places with import: the guard can but switch it off.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly T Busbar(in StepConstants<T> plant, T loadKw, T solarAcKw) => T.WhereAbove(
        loadKw + plant.StandbyKw - (solarAcKw - (solarAcKw * plant.AcOnBusbar)), plant.BusbarKw, T.All(0), T.All(double.PositiveInfinity));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Close<TBook>(in StepConstants<T> plant, T loadKw, T unmetKw, T exportKw, T curtailedAcKw, T solarKw, ref TBook book) where TBook : struct, IBook<T>
    {
        if (TBook.KeepsFlows && T.AnyAbove(unmetKw, plant.ImportKw))
        {
            T overloadKw = T.OnlyAbove(T.Max(T.All(0), unmetKw - plant.ImportKw), plant.TinyKw);
            book.Cut(LimitSite.Rule9Overload, overloadKw);
            book.Flow(LedgerColumn.OverloadKw, overloadKw);
        }
        book.Flow(LedgerColumn.LoadKw, loadKw);
        book.Flow(LedgerColumn.StandbyKw, plant.StandbyKw);
        book.Flow(LedgerColumn.ImportKw, unmetKw);
        book.Meter(unmetKw, exportKw, loadKw + plant.StandbyKw, solarKw);
        book.Close();
    }
}

/// <summary>The grid is down: what is unmet is for the caller to book, who may still take the interval back.</summary>
internal struct GridDown : IGrid<Scalar>
{
    /// <summary>Load left, and charging from a generator.</summary>
    public Scalar UnmetKw;

    /// <summary>AC solar not used.</summary>
    public Scalar CurtailedAcKw;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly Scalar Busbar(in StepConstants<Scalar> plant, Scalar loadKw, Scalar solarAcKw) => Math.Max(0, plant.BusbarKw - (solarAcKw * plant.AcOnBusbar));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Close<TBook>(in StepConstants<Scalar> plant, Scalar loadKw, Scalar unmetKw, Scalar exportKw, Scalar curtailedAcKw, Scalar solarKw, ref TBook book)
        where TBook : struct, IBook<Scalar> => (UnmetKw, CurtailedAcKw) = (unmetKw, curtailedAcKw);
}
