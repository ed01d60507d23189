using System.Globalization;

namespace EnergySim.Reports.Drawing;

/// <summary>A scale of round steps that holds zero and every amount.</summary>
/// <param name="Lowest">The lowest step, ≤ 0, in money.</param>
/// <param name="Highest">The highest, &gt; <paramref name="Lowest"/>.</param>
/// <param name="Step">Between two steps: 1, 2, 2.5 or 5 times a power of ten.</param>
internal sealed record BillScale(decimal Lowest, decimal Highest, decimal Step)
{
    /// <summary>From the lowest step to the highest.</summary>
    public IEnumerable<decimal> Ticks
    {
        get
        {
            for (decimal tick = Lowest; tick <= Highest; tick += Step) yield return tick;
        }
    }

    /// <summary>The scale of some amounts.</summary>
    /// <param name="amounts">Any number; zero is always on the scale.</param>
    /// <param name="steps">About how many steps there should be; never more than one more.</param>
    public static BillScale Of(IEnumerable<decimal> amounts, int steps)
    {
        decimal low = 0, high = 0;
        foreach (decimal amount in amounts)
        {
            low = Math.Min(low, amount);
            high = Math.Max(high, amount);
        }
        if (low == high) high = 10;
        decimal step = StepOver((high - low) / steps);
        return new BillScale(Math.Floor(low / step) * step, Math.Ceiling(high / step) * step, step);
    }

    /// <summary>A tick in words: whole unless the step has cents.</summary>
    public string Label(decimal tick) => Money.Signed(tick, tick.ToString(Step < 1 ? "#,0.00;#,0.00" : "#,0;#,0", CultureInfo.InvariantCulture));

    private static decimal StepOver(decimal least)
    {
        decimal power = 0.01m;
        while (power * 10 <= least) power *= 10;
        // A quarter step needs a power that keeps it whole.
        foreach (decimal factor in (ReadOnlySpan<decimal>)[1m, 2m, 2.5m, 5m])
            if (power * factor >= least && (factor != 2.5m || power >= 10)) return power * factor;
        return power * 10;
    }
}
