using EnergySim.Time;

namespace EnergySim.Profiles;

/// <summary>Mean power in each interval of an axis, kW, never negative: what a home uses, or what its solar panels give.</summary>
public sealed class Profile
{
    private readonly double[] _kw;
    private double _energyKwh = double.NaN;

    /// <param name="axis">The intervals.</param>
    /// <param name="kw">Mean power in each, kW, finite and ≥ 0; one value an interval. The values are copied.</param>
    /// <exception cref="ArgumentException">The number of values is not that of the axis, or a value is negative or not a number.</exception>
    public Profile(TimeAxis axis, ReadOnlySpan<double> kw)
    {
        ArgumentNullException.ThrowIfNull(axis);
        if (kw.Length != axis.Count)
            throw new ArgumentException($"{kw.Length} values for {axis.Count} intervals.", nameof(kw));
        for (int i = 0; i < kw.Length; i++)
            if (!(kw[i] >= 0) || double.IsInfinity(kw[i]))
                throw new ArgumentException($"Value {i} is {kw[i].ToString(System.Globalization.CultureInfo.InvariantCulture)}; power is a number ≥ 0.", nameof(kw));
        Axis = axis;
        _kw = kw.ToArray();
    }

    private Profile(TimeAxis axis, double[] kw) => (Axis, _kw) = (axis, kw);

    /// <summary>The intervals.</summary>
    public TimeAxis Axis { get; }

    /// <summary>Mean power in each interval, kW.</summary>
    public ReadOnlySpan<double> Kw => _kw;

    internal double[] Array => _kw;

    /// <summary>Energy of the whole span, kWh.</summary>
    public double EnergyKwh
    {
        get
        {
            // Summed when first asked; two threads that ask at once come to the same bits.
            if (double.IsNaN(_energyKwh)) _energyKwh = Summed();
            return _energyKwh;
        }
    }

    /// <summary>No power at all.</summary>
    public static Profile Zero(TimeAxis axis)
    {
        ArgumentNullException.ThrowIfNull(axis);
        return new(axis, new double[axis.Count]);
    }

    /// <summary>The profile with every value passed through a function that keeps values ≥ 0.</summary>
    public Profile Map(Func<double, double> change)
    {
        ArgumentNullException.ThrowIfNull(change);
        var kw = new double[_kw.Length];
        for (int i = 0; i < kw.Length; i++) kw[i] = change(_kw[i]);
        return new Profile(Axis, kw.AsSpan());
    }

    /// <summary>Every value times a factor, finite and ≥ 0; the profile itself where that is 1.</summary>
    public Profile Scaled(double factor)
    {
        if (!(factor >= 0) || double.IsInfinity(factor)) throw new ArgumentOutOfRangeException(nameof(factor), factor, "Power is not multiplied by less than 0.");
        if (factor == 1) return this;
        var kw = new double[_kw.Length];
        for (int i = 0; i < kw.Length; i++) kw[i] = _kw[i] * factor;
        return new Profile(Axis, kw);
    }

    /// <summary>
    /// The same span in intervals of another length, with the same energy: to finer intervals the power is held, to coarser ones it is
    /// averaged, and where neither length divides the other each new interval takes its share of every old one.
    /// </summary>
    /// <param name="stepMinutes">The new length, one of <see cref="TimeAxis.AllowedStepMinutes"/>.</param>
    public Profile Resampled(int stepMinutes)
    {
        if (stepMinutes == Axis.StepMinutes) return this;
        TimeAxis axis = Axis.WithStep(stepMinutes);
        var kw = new double[axis.Count];
        int old = Axis.StepMinutes;
        for (int i = 0; i < kw.Length; i++)
        {
            int from = i * stepMinutes;
            int to = from + stepMinutes;
            double energy = 0;
            for (int j = from / old; j * old < to; j++)
                energy += _kw[j] * (Math.Min(to, (j + 1) * old) - Math.Max(from, j * old));
            kw[i] = energy / stepMinutes;
        }
        return new Profile(axis, kw);
    }

    private double Summed()
    {
        double sum = 0;
        foreach (double kw in _kw) sum += kw;
        return sum * Axis.StepHours;
    }
}
