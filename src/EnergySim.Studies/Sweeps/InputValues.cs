using EnergySim.Solar;

namespace EnergySim.Studies.Sweeps;

/// <summary>The values of an input: stated ones, or a distribution that is asked for the value below which a share of all lies.</summary>
public abstract record InputValues
{
    /// <summary>The stated values; null = a distribution.</summary>
    public virtual IReadOnlyList<SweepValue>? Stated => null;

    /// <summary>The value below which a share of all lies; of stated values each takes an equal share.</summary>
    /// <param name="share">Between 0 and 1, both excluded.</param>
    public abstract SweepValue At(double share);

    /// <summary>Stated values, at least one.</summary>
    /// <param name="Values">In order.</param>
    public sealed record Listed(IReadOnlyList<SweepValue> Values) : InputValues
    {
        /// <inheritdoc/>
        public override IReadOnlyList<SweepValue> Stated => Values;

        /// <inheritdoc/>
        public override SweepValue At(double share) => Values[Math.Min((int)(share * Values.Count), Values.Count - 1)];
    }

    /// <summary>Evenly between two numbers.</summary>
    /// <param name="From">The least.</param>
    /// <param name="To">The most.</param>
    public sealed record Uniform(double From, double To) : InputValues
    {
        /// <inheritdoc/>
        public override SweepValue At(double share) => SweepValue.Of(From + (share * (To - From)));
    }

    /// <summary>A triangle: none at the ends, most at the peak.</summary>
    /// <param name="From">The least.</param>
    /// <param name="Peak">Where most lie.</param>
    /// <param name="To">The most.</param>
    public sealed record Triangular(double From, double Peak, double To) : InputValues
    {
        /// <inheritdoc/>
        public override SweepValue At(double share)
        {
            double width = To - From, below = (Peak - From) / width;
            return SweepValue.Of(share < below
                ? From + Math.Sqrt(share * width * (Peak - From))
                : To - Math.Sqrt((1 - share) * width * (To - Peak)));
        }
    }

    /// <summary>Normal; with bounds, what lies beyond them is left out.</summary>
    /// <param name="Mean">Mean.</param>
    /// <param name="Deviation">Standard deviation, &gt; 0.</param>
    /// <param name="Least">No value below; −∞ = no bound.</param>
    /// <param name="Most">No value above; +∞ = no bound.</param>
    public sealed record Normal(double Mean, double Deviation, double Least = double.NegativeInfinity, double Most = double.PositiveInfinity) : InputValues
    {
        private readonly double _from = ShareBelow((Least - Mean) / Deviation), _to = ShareBelow((Most - Mean) / Deviation);

        /// <inheritdoc/>
        public override SweepValue At(double share) => SweepValue.Of(Math.Clamp(Mean + (Deviation * NormalScore.Of(_from + (share * (_to - _from)))), Least, Most));
    }

    /// <summary>Lognormal: its logarithm is normal.</summary>
    /// <param name="Median">Median, &gt; 0.</param>
    /// <param name="LogDeviation">Standard deviation of the natural logarithm, &gt; 0.</param>
    /// <param name="Least">No value below; 0 = no bound.</param>
    /// <param name="Most">No value above; +∞ = no bound.</param>
    public sealed record Lognormal(double Median, double LogDeviation, double Least = 0, double Most = double.PositiveInfinity) : InputValues
    {
        private readonly double _from = ShareBelow((Math.Log(Least) - Math.Log(Median)) / LogDeviation), _to = ShareBelow((Math.Log(Most) - Math.Log(Median)) / LogDeviation);

        /// <inheritdoc/>
        public override SweepValue At(double share) => SweepValue.Of(Math.Clamp(Median * Math.Exp(LogDeviation * NormalScore.Of(_from + (share * (_to - _from)))), Least, Most));
    }

    /// <summary>As numbers that were observed: linear between them in order of size (type 7 of Hyndman and Fan 1996).</summary>
    public sealed record Observed : InputValues
    {
        private readonly double[] _sorted;

        /// <param name="numbers">The numbers, at least one, finite.</param>
        public Observed(IEnumerable<double> numbers)
        {
            _sorted = [.. numbers.Order()];
            if (_sorted.Length == 0) throw new ArgumentException("There is no number.", nameof(numbers));
        }

        /// <inheritdoc/>
        public override SweepValue At(double share) => SweepValue.Of(Quantile.Of(_sorted, share));
    }

    // The score rises with the share: the share of a score is found by halving.
    private static double ShareBelow(double score)
    {
        if (double.IsNegativeInfinity(score)) return 0;
        if (double.IsPositiveInfinity(score)) return 1;
        double low = 0, high = 1;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (NormalScore.Of(middle) < score) low = middle;
            else high = middle;
        }
        return (low + high) / 2;
    }
}
