using System.Globalization;
using EnergySim.Economics;

namespace EnergySim.Studies.Finance;

/// <summary>
/// Money that comes (positive) and goes (negative): at the start, and at the end of each year. It says whether inflation is in it, and takes
/// only rates that say the same.
/// </summary>
public sealed record CashFlows
{
    /// <summary>Whether inflation is in the amounts.</summary>
    public required MoneyBasis Basis { get; init; }

    /// <summary>At the start; what is paid is negative.</summary>
    public required double Upfront { get; init; }

    /// <summary>At the end of each year.</summary>
    public required IReadOnlyList<double> Yearly { get; init; }

    /// <summary>Present value: C0 + Σ Ct / (1 + r)^t, flows at the years' ends.</summary>
    /// <param name="rate">The discount rate.</param>
    /// <exception cref="ArgumentException">The rate is on the other basis.</exception>
    public double PresentValue(AnnualRate rate) => Upfront + Discounted(rate).Sum();

    /// <summary>The yearly flows, each brought to the start.</summary>
    /// <inheritdoc cref="PresentValue"/>
    public IReadOnlyList<double> Discounted(AnnualRate rate)
    {
        Check(rate);
        var values = new double[Yearly.Count];
        double factor = 1;
        for (int t = 0; t < values.Length; t++)
        {
            factor /= 1 + rate.Fraction;
            values[t] = Yearly[t] * factor;
        }
        return values;
    }

    /// <summary>What has come in all by the start and by the end of each year.</summary>
    public IReadOnlyList<double> Cumulative() => Cumulated(Upfront, Yearly);

    /// <summary>The same, each flow brought to the start.</summary>
    /// <inheritdoc cref="PresentValue"/>
    public IReadOnlyList<double> CumulativeDiscounted(AnnualRate rate) => Cumulated(Upfront, Discounted(rate));

    /// <summary>Years until the flows have paid back the start, undiscounted; null = not within them. A year's flow counts as spread evenly over it (ASTM E1121).</summary>
    public double? SimplePaybackYears() => PaybackOf(Cumulative());

    /// <summary>The same with each flow brought to the start.</summary>
    /// <inheritdoc cref="PresentValue"/>
    public double? DiscountedPaybackYears(AnnualRate rate) => PaybackOf(CumulativeDiscounted(rate));

    /// <summary>The same flows on another basis: each real amount times (1 + inflation)^t.</summary>
    /// <param name="basis">The basis wanted.</param>
    /// <param name="inflationFraction">General rise of prices a year.</param>
    public CashFlows In(MoneyBasis basis, double inflationFraction)
    {
        if (basis == Basis) return this;
        double step = basis == MoneyBasis.Nominal ? 1 + inflationFraction : 1 / (1 + inflationFraction);
        return this with { Basis = basis, Yearly = [.. Yearly.Select((flow, t) => flow * Math.Pow(step, t + 1))] };
    }

    /// <summary>These flows less others of the same basis and length.</summary>
    /// <exception cref="ArgumentException">They are on the other basis, or of another length.</exception>
    public CashFlows Less(CashFlows other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (other.Basis != Basis) throw new ArgumentException($"{other.Basis} flows are not taken from {Basis} ones.", nameof(other));
        if (other.Yearly.Count != Yearly.Count) throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"{other.Yearly.Count} years are not taken from {Yearly.Count}."), nameof(other));
        return this with { Upfront = Upfront - other.Upfront, Yearly = [.. Yearly.Select((flow, t) => flow - other.Yearly[t])] };
    }

    /// <summary>When a running sum that begins below 0 first reaches it, linear within the year; null = never.</summary>
    /// <param name="cumulative">The sum at the start and at the end of each year.</param>
    public static double? PaybackOf(IReadOnlyList<double> cumulative)
    {
        ArgumentNullException.ThrowIfNull(cumulative);
        if (cumulative[0] >= 0) return 0;
        for (int t = 1; t < cumulative.Count; t++)
            if (cumulative[t] >= 0) return t - 1 + (-cumulative[t - 1] / (cumulative[t] - cumulative[t - 1]));
        return null;
    }

    private static double[] Cumulated(double start, IReadOnlyList<double> flows)
    {
        var sums = new double[flows.Count + 1];
        sums[0] = start;
        for (int t = 0; t < flows.Count; t++) sums[t + 1] = sums[t] + flows[t];
        return sums;
    }

    private void Check(AnnualRate rate)
    {
        if (rate.Basis != Basis) throw new ArgumentException($"A {rate.Basis} rate does not discount {Basis} flows.", nameof(rate));
        if (!(rate.Fraction > -1)) throw new ArgumentOutOfRangeException(nameof(rate), rate.Fraction, "A rate is above −1.");
    }
}
