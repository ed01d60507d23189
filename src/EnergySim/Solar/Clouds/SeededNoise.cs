namespace EnergySim.Solar;

/// <summary>
/// Numbers by chance that a seed determines, the same on every machine. Source: Steele, Lea and Flood, Fast splittable pseudorandom number
/// generators, OOPSLA 2014 (SplitMix64).
/// </summary>
internal struct SeededNoise
{
    private ulong _state;

    /// <param name="seed">The seed.</param>
    public SeededNoise(ulong seed) => _state = seed;

    /// <summary>A stream of its own for each index under one seed.</summary>
    public static SeededNoise Stream(ulong seed, int index) => new(Mixed(seed ^ Mixed((ulong)(uint)index + 1)));

    /// <summary>The next 64 bits.</summary>
    public ulong Next() => Mixed(_state += 0x9E3779B97F4A7C15);

    /// <summary>Evenly between 0 and 1, both excluded.</summary>
    public double Even() => ((Next() >> 11) + 0.5) * (1.0 / (1UL << 53));

    /// <summary>Standard normal.</summary>
    public double Normal() => NormalScore.Of(Even());

    private static ulong Mixed(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
