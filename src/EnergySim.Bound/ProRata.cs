namespace EnergySim.Bound;

/// <summary>Whether a solution shares something out in proportion, which no row can say.</summary>
internal static class ProRata
{
    private const double SmallKwh = 1e-3;

    /// <summary>True where shares stand to each other as wholes do.</summary>
    public static bool Holds(ReadOnlySpan<double> values, int[] shares, int[] wholes)
    {
        double share = 0, whole = 0;
        foreach (int column in shares) share += values[column];
        foreach (int column in wholes) whole += values[column];
        for (int i = 0; i < shares.Length; i++)
            if (Math.Abs(values[shares[i]] - (whole > 0 ? share * values[wholes[i]] / whole : 0)) > SmallKwh) return false;
        return true;
    }
}
