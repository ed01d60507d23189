namespace EnergySim.Solar;

/// <summary>Quantiles of sorted numbers.</summary>
internal static class Quantile
{
    /// <summary>Linear between order statistics at (n − 1) p: type 7 of Hyndman and Fan, Sample quantiles in statistical packages, American Statistician 50 (1996).</summary>
    public static double Of(ReadOnlySpan<double> sorted, double fraction)
    {
        double at = (sorted.Length - 1) * fraction;
        int below = Math.Clamp((int)at, 0, sorted.Length - 1), above = Math.Min(below + 1, sorted.Length - 1);
        return sorted[below] + ((sorted[above] - sorted[below]) * (at - below));
    }
}
