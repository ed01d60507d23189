namespace EnergySim.Solar;

/// <summary>
/// How clear days follow one another at a place: the clearness that a time of the year has, and how much of a day's weather stays to the next.
/// Each day's rank among the days of its time of year is turned into a normal score; the scores are a first-order autoregression
/// (Brinkworth, Autocorrelation and stochastic modelling of insolation sequences, Solar Energy 19, 1977, does so).
/// </summary>
public sealed class ClearnessModel
{
    // A month around the day: long enough for thirty days a year, short against the seasons. Our choice.
    private const int NearDays = 15;
    private const int LeastDays = 20;
    private const int WarmUpDays = 30;
    private readonly double[][] _clearness = new double[DayOfYear.Count][];
    private readonly double[][] _scores = new double[DayOfYear.Count][];

    private ClearnessModel(DailyClearness sky)
    {
        Sky = sky;
        ClearnessDay[][] near = DayOfYear.Near(sky.Days, NearDays);
        var bySize = new Dictionary<int, double[]>();
        for (int day = 0; day < near.Length; day++)
        {
            int size = near[day].Length;
            if (size < LeastDays)
                throw new ArgumentException(FormattableString.Invariant($"Weather of a whole year is needed: around day {day + 1} of the year there are only {size} days with sun."), nameof(sky));
            _clearness[day] = [.. near[day].Select(d => d.Clearness!.Value)];
            if (!bySize.TryGetValue(size, out double[]? scores))
            {
                scores = new double[size];
                for (int i = 0; i < size; i++) scores[i] = NormalScore.Of((i + 0.5) / size);
                bySize.Add(size, scores);
            }
            _scores[day] = scores;
        }
        Persistence = PersistenceOf(sky.Days);
    }

    /// <summary>The days that it was fitted to.</summary>
    public DailyClearness Sky { get; }

    /// <summary>Correlation of the normal scores of days that follow one another, −1 to 1; 0.2–0.4 is usual.</summary>
    public double Persistence { get; }

    /// <summary>Fits the model to days.</summary>
    /// <param name="sky">A year or more.</param>
    /// <exception cref="ArgumentException">A time of the year has too few days.</exception>
    public static ClearnessModel Of(DailyClearness sky)
    {
        ArgumentNullException.ThrowIfNull(sky);
        return new ClearnessModel(sky);
    }

    /// <summary>Clearness of the days of a made-up year from 1 January on. No day is less clear than the least clear recorded within a month around it; runs may be longer than recorded.</summary>
    /// <param name="noise">Where chance comes from.</param>
    /// <param name="clearness">Takes the clearness, one a day; day 60 of a leap year counts as 28 February.</param>
    internal void Fill(ref SeededNoise noise, Span<double> clearness)
    {
        double score = noise.Normal(), fresh = Math.Sqrt(1 - (Persistence * Persistence));
        for (int i = 0; i < WarmUpDays; i++) score = (Persistence * score) + (fresh * noise.Normal());
        bool isLeap = clearness.Length > DayOfYear.Count;
        for (int i = 0; i < clearness.Length; i++)
        {
            score = (Persistence * score) + (fresh * noise.Normal());
            int day = isLeap && i >= 59 ? i - 1 : i;
            clearness[i] = Between(_scores[day], _clearness[day], score);
        }
    }

    private double PersistenceOf(IReadOnlyList<ClearnessDay> days)
    {
        double both = 0, first = 0, second = 0;
        for (int i = 1; i < days.Count; i++)
        {
            if (!days[i].FollowsPrevious || days[i].Clearness is not double now || days[i - 1].Clearness is not double before) continue;
            double a = ScoreOf(days[i - 1], before), b = ScoreOf(days[i], now);
            both += a * b;
            first += a * a;
            second += b * b;
        }
        return first > 0 && second > 0 ? Math.Clamp(both / Math.Sqrt(first * second), -0.99, 0.99) : 0;
    }

    private double ScoreOf(ClearnessDay day, double clearness)
    {
        int of = DayOfYear.Of(day.Date);
        return Between(_clearness[of], _scores[of], clearness);
    }

    // Linear between points in ascending order, flat outside.
    private static double Between(double[] from, double[] to, double at)
    {
        int above = Array.BinarySearch(from, at);
        if (above >= 0) return to[above];
        above = ~above;
        if (above == 0) return to[0];
        if (above == from.Length) return to[^1];
        return to[above - 1] + ((to[above] - to[above - 1]) * (at - from[above - 1]) / (from[above] - from[above - 1]));
    }
}
