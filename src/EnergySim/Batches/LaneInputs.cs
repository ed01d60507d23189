using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using EnergySim.Engine;

namespace EnergySim.Batches;

/// <summary>Series that all lanes share, times a factor a lane. No solar is the load times 0.</summary>
internal struct SharedInput<T> : IInput<T> where T : struct, ILane<T>
{
    public double[] Load, SolarDc, SolarAc;
    public T LoadFactor, SolarDcFactor, SolarAcFactor;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Read(int index, out T loadKw, out T solarDcKw, out T solarAcKw)
    {
        // The index is inside by construction; the three checks would be felt.
        loadKw = T.All(Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(Load), index)) * LoadFactor;
        solarDcKw = T.All(Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(SolarDc), index)) * SolarDcFactor;
        solarAcKw = T.All(Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(SolarAc), index)) * SolarAcFactor;
    }
}

/// <summary>Series of each lane's own, laid side by side for one block of intervals.</summary>
internal struct OwnInput<T> : IInput<T> where T : struct, ILane<T>
{
    public T[] Load, SolarDc, SolarAc;

    /// <summary>The block's first interval.</summary>
    public int From;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Read(int index, out T loadKw, out T solarDcKw, out T solarAcKw)
    {
        loadKw = Load[index - From];
        solarDcKw = SolarDc[index - From];
        solarAcKw = SolarAc[index - From];
    }
}
