using System.Runtime.CompilerServices;

namespace EnergySim.Batches;

/// <summary>One of the groups that go in turns; what a step takes of them lies side by side.</summary>
[InlineArray(InTurns.Most)]
internal struct InTurns<T>
{
    private T _one;
}

/// <summary>How many groups go in turns.</summary>
internal static class InTurns
{
    public const int Most = 4;
}
