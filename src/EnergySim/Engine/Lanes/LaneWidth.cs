using System.Runtime.Intrinsics;

namespace EnergySim.Engine;

/// <summary>How many lanes the processor has: asked once, since a vector that it must put together from halves is slower than the halves.</summary>
internal static class LaneWidth
{
    /// <summary>8, 4 or 1.</summary>
    public static int Best { get; } = Vector512.IsHardwareAccelerated ? 8 : Vector256.IsHardwareAccelerated ? 4 : 1;

    /// <summary>4 or 1: as many as packed programs have compiled ahead. What runs for less than a second is done before wider ones were compiled.</summary>
    public static int Ahead { get; } = Math.Min(4, Best);
}
