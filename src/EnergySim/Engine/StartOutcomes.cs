namespace EnergySim.Engine;

/// <summary>What became of an outage from every start: one number a start, intervals of the axis.</summary>
public sealed class StartOutcomes
{
    internal StartOutcomes(int count, int horizon, double stepHours)
    {
        Horizon = horizon;
        StepHours = stepHours;
        LastingIntervals = new int[count];
        LastingOnEnergyIntervals = new int[count];
        DarkIntervals = new int[count];
        UnservedKwh = new double[count];
    }

    /// <summary>Length of each outage, intervals. A start that lasts so long lasted at least so long: it is censored.</summary>
    public int Horizon { get; }

    /// <summary>Length of an interval, h.</summary>
    public double StepHours { get; }

    /// <summary>Whole intervals before the first unserved house load from any cause; <see cref="Horizon"/> = at least that.</summary>
    public int[] LastingIntervals { get; }

    /// <summary>The same for want of energy alone.</summary>
    public int[] LastingOnEnergyIntervals { get; }

    /// <summary>Intervals in which the house was dark, within the horizon.</summary>
    public int[] DarkIntervals { get; }

    /// <summary>House load not served within the horizon, kWh.</summary>
    public double[] UnservedKwh { get; }
}
