namespace EnergySim.Wiring;

/// <summary>Standard ratings of breakers (NEC 240.6(A), 2023 edition; the fuse sizes 1, 3, 6, 10 and 601 A are left out), A.</summary>
public static class BreakerSizes
{
    private static readonly double[] s_sizes =
    [
        15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500, 600, 700, 800,
        1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000,
    ];

    /// <summary>Currents that differ by less than this are the same, A: an exact fit is not lost to rounding.</summary>
    internal const double ToleranceAmps = 1e-6;

    /// <summary>The sizes, rising.</summary>
    public static IReadOnlyList<double> All { get; } = Array.AsReadOnly(s_sizes);

    /// <summary>True for a standard rating.</summary>
    public static bool IsStandard(double amps) => s_sizes.Contains(amps);

    /// <summary>The largest standard size that is not above a current; null = there is none.</summary>
    public static double? LargestUpTo(double amps)
    {
        for (int i = s_sizes.Length - 1; i >= 0; i--)
            if (s_sizes[i] <= amps + ToleranceAmps) return s_sizes[i];
        return null;
    }

    /// <summary>The smallest standard size that is not below a current: the next size up (NEC 240.4(B)).</summary>
    /// <exception cref="ArgumentOutOfRangeException">The current is above 6000 A.</exception>
    public static double NextUp(double amps)
    {
        foreach (double size in s_sizes)
            if (size >= amps - ToleranceAmps) return size;
        throw new ArgumentOutOfRangeException(nameof(amps), amps, "There is no standard breaker so large.");
    }
}
