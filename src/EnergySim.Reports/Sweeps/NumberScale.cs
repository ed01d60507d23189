using System.Globalization;

namespace EnergySim.Reports.Sweeps;

/// <summary>A scale of round steps that holds every number, and zero only where it lies among them.</summary>
/// <param name="Low">The lowest step.</param>
/// <param name="High">The highest.</param>
/// <param name="Step">Between two: 1, 2 or 5 times a power of ten.</param>
internal sealed record NumberScale(double Low, double High, double Step)
{
    /// <summary>From the lowest step to the highest.</summary>
    public IEnumerable<double> Ticks
    {
        get
        {
            int count = (int)Math.Round((High - Low) / Step);
            for (int i = 0; i <= count; i++) yield return Low + (i * Step);
        }
    }

    /// <summary>The scale of some numbers; what is no number is left out.</summary>
    /// <param name="numbers">The numbers.</param>
    /// <param name="steps">About how many steps there should be.</param>
    public static NumberScale Of(IEnumerable<double> numbers, int steps)
    {
        double[] finite = [.. numbers.Where(double.IsFinite)];
        double low = finite.Length == 0 ? 0 : finite.Min(), high = finite.Length == 0 ? 1 : finite.Max();
        if (high - low <= 1e-12 * Math.Max(Math.Abs(low), Math.Abs(high)))
        {
            double room = low == 0 ? 1 : Math.Abs(low) * 0.1;
            (low, high) = (low - room, high + room);
        }
        double least = (high - low) / steps, power = Math.Pow(10, Math.Floor(Math.Log10(least)));
        double step = power * (least <= power ? 1 : least <= 2 * power ? 2 : least <= 5 * power ? 5 : 10);
        return new NumberScale(Math.Floor((low / step) + 1e-9) * step, Math.Ceiling((high / step) - 1e-9) * step, step);
    }

    /// <summary>Where a number lies, 0 at the lowest step and 1 at the highest.</summary>
    public double ShareOf(double number) => (number - Low) / (High - Low);

    /// <summary>A number in words, to the step's decimals.</summary>
    public string Label(double number) => LabelBy(number, Step);

    /// <summary>A number in words, to the decimals of a step.</summary>
    public static string LabelBy(double number, double step)
    {
        int decimals = Math.Clamp((int)Math.Ceiling(-Math.Log10(step) - 1e-9), 0, 6);
        string text = Math.Abs(number).ToString("N" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return number < 0 && text.Any(c => c is >= '1' and <= '9') ? "−" + text : text;
    }
}
