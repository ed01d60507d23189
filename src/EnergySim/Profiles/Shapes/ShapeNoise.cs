namespace EnergySim.Profiles.Shapes;

/// <summary>Numbers that look random and are a function of seed and place alone: the same on every machine and in every order.</summary>
/// <param name="Seed">The seed.</param>
public readonly record struct ShapeNoise(ulong Seed)
{
    /// <summary>A number from 0 up to 1.</summary>
    public double At(long place, int stream)
    {
        // The finaliser of SplitMix64 (Steele, Lea, Flood: Fast splittable pseudorandom number generators, 2014).
        ulong x = unchecked(Seed + ((ulong)place * 0x9E3779B97F4A7C15UL) + ((ulong)stream * 0xD1B54A32D192ED03UL));
        x = unchecked((x ^ (x >> 30)) * 0xBF58476D1CE4E5B9UL);
        x = unchecked((x ^ (x >> 27)) * 0x94D049BB133111EBUL);
        return ((x ^ (x >> 31)) >> 11) * (1.0 / (1UL << 53));
    }

    /// <summary>A number around 0 with a standard deviation near 1 that changes smoothly along <paramref name="place"/>.</summary>
    public double Eased(double place, int stream)
    {
        long from = (long)Math.Floor(place);
        double share = place - from, eased = share * share * (3 - (2 * share));
        double a = Bell(from, stream), b = Bell(from + 1, stream);
        return a + ((b - a) * eased);
    }

    // The sum of three even numbers, scaled to a standard deviation of 1.
    private double Bell(long place, int stream) => (At(place, stream * 3) + At(place, (stream * 3) + 1) + At(place, (stream * 3) + 2) - 1.5) * 2;
}
