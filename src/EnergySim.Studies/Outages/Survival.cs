namespace EnergySim.Studies.Outages;

/// <summary>How long outages are lasted, over many starts. Starts that outlast the horizon count as "at least" it, and are never averaged.</summary>
public sealed class Survival
{
    private readonly int[] _sorted;

    /// <param name="lastingIntervals">Whole intervals lasted, one a start; the horizon = at least that.</param>
    /// <param name="horizon">The horizon, intervals.</param>
    /// <param name="stepHours">Length of an interval, h.</param>
    /// <exception cref="ArgumentException">There is no start.</exception>
    public Survival(IEnumerable<int> lastingIntervals, int horizon, double stepHours)
    {
        _sorted = [.. lastingIntervals];
        if (_sorted.Length == 0) throw new ArgumentException("There is no start.", nameof(lastingIntervals));
        Array.Sort(_sorted);
        HorizonHours = horizon * stepHours;
        StepHours = stepHours;
        CensoredFraction = Share(horizon);
    }

    /// <summary>The horizon, h.</summary>
    public double HorizonHours { get; }

    /// <summary>Length of an interval, h.</summary>
    public double StepHours { get; }

    /// <summary>Number of starts.</summary>
    public int Starts => _sorted.Length;

    /// <summary>Share of starts that outlast the horizon.</summary>
    public double CensoredFraction { get; }

    /// <summary>P(lasting ≥ h); null beyond the horizon, where it is not known.</summary>
    public double? AtLeast(double hours)
    {
        if (hours > HorizonHours + 1e-9) return null;
        return Share((int)Math.Ceiling((hours / StepHours) - 1e-9));
    }

    /// <summary>The largest h with P(lasting ≥ h) ≥ <paramref name="share"/>. Equal to <see cref="HorizonHours"/>: at least that.</summary>
    /// <param name="share">Above 0, at most 1: 0.9 = what nine starts in ten last.</param>
    public double HoursLastedBy(double share)
    {
        if (!(share is > 0 and <= 1)) throw new ArgumentOutOfRangeException(nameof(share), share, "A share above 0 and at most 1.");
        // Of n starts, k = ⌈share · n⌉ must last: the k-th longest says how long.
        int mustLast = Math.Max(1, (int)Math.Ceiling((share * _sorted.Length) - 1e-9));
        return _sorted[_sorted.Length - mustLast] * StepHours;
    }

    private double Share(int intervals)
    {
        int low = 0, high = _sorted.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_sorted[middle] < intervals) low = middle + 1;
            else high = middle;
        }
        return (_sorted.Length - low) / (double)_sorted.Length;
    }
}
