using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace EnergySim.Engine;

/// <summary>Gives load and solar to the step.</summary>
internal interface IInput<T> where T : struct, ILane<T>
{
    /// <summary>Load, DC solar and AC solar of an interval, kW.</summary>
    void Read(int index, out T loadKw, out T solarDcKw, out T solarAcKw);
}

/// <summary>Three series of one case.</summary>
internal readonly struct SeriesInput(double[] load, double[] solarDc, double[] solarAc) : IInput<Scalar>
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Read(int index, out Scalar loadKw, out Scalar solarDcKw, out Scalar solarAcKw)
    {
        // The index is inside by construction; the three checks would be felt.
        loadKw.Value = Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(load), index);
        solarDcKw.Value = Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(solarDc), index);
        solarAcKw.Value = Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(solarAc), index);
    }
}

/// <summary>One interval of one case.</summary>
internal readonly struct OneInput(Scalar load, Scalar solarDc, Scalar solarAc) : IInput<Scalar>
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Read(int index, out Scalar loadKw, out Scalar solarDcKw, out Scalar solarAcKw) => (loadKw, solarDcKw, solarAcKw) = (load, solarDc, solarAc);
}
