using CsCheck;

namespace EnergySim.TestData;

/// <summary>
/// Properties on random input that is the same on every run and machine. (CsCheck's own Sample uses a given seed for its first case only.)
/// </summary>
public static class FixedSeed
{
    private const ulong Seed = 20251125;

    /// <summary>Asks a check of so many cases, one after another; a failure names its case by number.</summary>
    public static void Check<T>(Gen<T> cases, int count, Action<T> check)
    {
        var random = new PCG(1, Seed);
        for (int i = 0; i < count; i++)
        {
            T value = cases.Generate(random, null, out _);
            try
            {
                check(value);
            }
            catch (Exception fault)
            {
                throw new InvalidOperationException($"Case {i} of {count}: {fault.Message}", fault);
            }
        }
    }
}
