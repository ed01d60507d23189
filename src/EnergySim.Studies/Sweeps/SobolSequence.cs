namespace EnergySim.Studies.Sweeps;

/// <summary>
/// Points of low discrepancy in up to 32 dimensions, any of them at once, in the order of the Gray code. Source of the method: Bratley and
/// Fox, Algorithm 659, ACM TOMS 14 (1988); of the direction numbers: Joe and Kuo, Constructing Sobol sequences with better two-dimensional
/// projections, SIAM J. Sci. Comput. 30 (2008), the first rows of their table, written down from memory and checked against another library.
/// </summary>
public sealed class SobolSequence
{
    /// <summary>The most dimensions.</summary>
    public const int MostDimensions = 32;

    private const int Bits = 32;

    // Degree of the primitive polynomial, its inner coefficients, and the first direction integers; the first dimension is van der Corput's.
    private static readonly (int Degree, uint Inner, uint[] First)[] s_table =
    [
        (1, 0, [1]), (2, 1, [1, 3]), (3, 1, [1, 3, 1]), (3, 2, [1, 1, 1]), (4, 1, [1, 1, 3, 3]), (4, 4, [1, 3, 5, 13]),
        (5, 2, [1, 1, 5, 5, 17]), (5, 4, [1, 1, 5, 5, 5]), (5, 7, [1, 1, 7, 11, 19]), (5, 11, [1, 1, 5, 1, 1]), (5, 13, [1, 1, 1, 3, 11]),
        (5, 14, [1, 3, 5, 5, 31]), (6, 1, [1, 3, 3, 9, 7, 49]), (6, 13, [1, 1, 1, 15, 21, 21]), (6, 16, [1, 3, 1, 13, 27, 49]),
        (6, 19, [1, 1, 1, 15, 7, 5]), (6, 22, [1, 3, 1, 15, 13, 25]), (6, 25, [1, 1, 5, 5, 19, 61]), (7, 1, [1, 3, 7, 11, 23, 15, 103]),
        (7, 4, [1, 3, 7, 13, 13, 15, 69]), (7, 7, [1, 1, 3, 13, 7, 35, 63]), (7, 8, [1, 3, 5, 9, 1, 25, 53]), (7, 14, [1, 3, 1, 13, 9, 35, 107]),
        (7, 19, [1, 3, 1, 5, 27, 61, 31]), (7, 21, [1, 1, 5, 11, 19, 41, 61]), (7, 28, [1, 3, 5, 3, 3, 13, 69]), (7, 31, [1, 1, 7, 13, 1, 19, 1]),
        (7, 32, [1, 3, 7, 5, 13, 19, 59]), (7, 37, [1, 1, 3, 9, 25, 29, 41]), (7, 41, [1, 3, 5, 13, 23, 1, 55]), (7, 42, [1, 3, 7, 3, 13, 59, 17]),
    ];

    private readonly uint[] _directions;

    /// <param name="dimensions">How many, 1 to <see cref="MostDimensions"/>.</param>
    public SobolSequence(int dimensions)
    {
        if (dimensions is < 1 or > MostDimensions) throw new ArgumentOutOfRangeException(nameof(dimensions), dimensions, "A Sobol sequence has 1 to 32 dimensions.");
        Dimensions = dimensions;
        _directions = new uint[dimensions * Bits];
        for (int d = 0; d < dimensions; d++) Lay(d);
    }

    /// <summary>How many dimensions.</summary>
    public int Dimensions { get; }

    /// <summary>A coordinate of a point as a fraction of 2³²; point 0 is the origin.</summary>
    /// <param name="point">Index of the point.</param>
    /// <param name="dimension">Index of the dimension.</param>
    public uint At(uint point, int dimension)
    {
        ReadOnlySpan<uint> directions = _directions.AsSpan(dimension * Bits, Bits);
        uint gray = point ^ (point >> 1), sum = 0;
        for (int bit = 0; gray != 0; bit++, gray >>= 1)
            if ((gray & 1) != 0) sum ^= directions[bit];
        return sum;
    }

    private void Lay(int dimension)
    {
        Span<uint> directions = _directions.AsSpan(dimension * Bits, Bits);
        if (dimension == 0)
        {
            for (int i = 0; i < Bits; i++) directions[i] = 1u << (Bits - 1 - i);
            return;
        }
        (int degree, uint inner, uint[] first) = s_table[dimension - 1];
        for (int i = 0; i < degree; i++) directions[i] = first[i] << (Bits - 1 - i);
        for (int i = degree; i < Bits; i++)
        {
            uint next = directions[i - degree] ^ (directions[i - degree] >> degree);
            for (int k = 1; k < degree; k++)
                if ((inner >> (degree - 1 - k) & 1) != 0) next ^= directions[i - k];
            directions[i] = next;
        }
    }
}
