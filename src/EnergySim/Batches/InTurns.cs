using System.Runtime.CompilerServices;

namespace EnergySim.Batches;

/// <summary>One of two groups that go in turns; what a step takes of both lies side by side.</summary>
[InlineArray(2)]
internal struct InTurns<T>
{
    private T _one;
}
