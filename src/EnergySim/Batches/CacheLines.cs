using System.Runtime.InteropServices;

namespace EnergySim.Batches;

/// <summary>
/// Arrays that begin at a line of the cache, and stay there: a vector as wide as a line that lies across two is read and written twice. The
/// runtime aligns to eight bytes only.
/// </summary>
internal static class CacheLines
{
    private const int Bytes = 64, MostTries = 64;

    /// <summary>A new array, cleared.</summary>
    public static T[] NewArray<T>(int count)
    {
        // What lies between the pinned objects before and this one moves it on by eight bytes or more a try; not found is slower, not wrong.
        for (int i = 0; ; i++)
        {
            T[] array = GC.AllocateArray<T>(count, pinned: true);
            int past = (int)(Marshal.UnsafeAddrOfPinnedArrayElement(array, 0) % Bytes);
            if (past == 0 || i == MostTries) return array;
            GC.AllocateUninitializedArray<byte>(Bytes - past + 8, pinned: true);
        }
    }
}
