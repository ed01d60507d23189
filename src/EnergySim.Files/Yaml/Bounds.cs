using System.Globalization;

namespace EnergySim.Files;

/// <summary>The range of a number, and why it is so.</summary>
/// <param name="Least">The least it may be.</param>
/// <param name="Most">The most it may be.</param>
/// <param name="Why">A clause that says why, or nothing.</param>
/// <param name="LeastExcluded">True when it must be above the least.</param>
internal sealed record Bounds(double Least, double Most = double.PositiveInfinity, string Why = "", bool LeastExcluded = false)
{
    public static Bounds NotNegative { get; } = new(0);

    public static Bounds AboveZero { get; } = new(0, LeastExcluded: true);

    public static Bounds Efficiency { get; } = new(0, 1, "an efficiency is a share, such as 0.96 or \"96 %\"", true);

    public static Bounds Share { get; } = new(0, 1, "a share lies between 0 and 1, or 0 % and 100 %");

    /// <summary>What is wrong with a number, as the end of a sentence; null = nothing.</summary>
    public string? FaultOf(double number, bool inPerCent = false)
    {
        string Text(double bound) => inPerCent
            ? string.Create(CultureInfo.InvariantCulture, $"{bound * 100} %")
            : bound.ToString(CultureInfo.InvariantCulture);
        string why = Why.Length == 0 ? "" : "; " + Why;
        if (!double.IsFinite(number)) return "is not a finite number";
        if (LeastExcluded && number <= Least) return $"is not above {Text(Least)}{why}";
        if (number < Least) return $"is below {Text(Least)}{why}";
        return number > Most ? $"is above {Text(Most)}{why}" : null;
    }
}
