using EnergySim.Time;

namespace EnergySim.Studies.Days;

/// <summary>Means by month and hour of the local clock.</summary>
internal static class HourMeans
{
    private const int Months = 12, Hours = 24;

    /// <summary>The mean of a series in each hour (0–23) of each month (January first); null = the axis has no such month.</summary>
    public static IReadOnlyList<IReadOnlyList<double>?> Of(TimeAxis axis, ReadOnlySpan<double> values)
    {
        var sums = new double[Months, Hours];
        var counts = new int[Months, Hours];
        for (int i = 0; i < axis.Count; i++)
        {
            int month = axis.LocalDateOf(i).Month - 1, hour = axis.LocalMinuteOf(i) / 60;
            sums[month, hour] += values[i];
            counts[month, hour]++;
        }
        var means = new double[]?[Months];
        for (int m = 0; m < Months; m++)
        {
            if (Enumerable.Range(0, Hours).All(h => counts[m, h] == 0)) continue;
            means[m] = [.. Enumerable.Range(0, Hours).Select(h => counts[m, h] == 0 ? 0 : sums[m, h] / counts[m, h])];
        }
        return means;
    }

    /// <summary>Energy of a power series by month, kWh, January first.</summary>
    public static double[] KwhByMonth(TimeAxis axis, ReadOnlySpan<double> kw)
    {
        var kwh = new double[Months];
        for (int i = 0; i < axis.Count; i++) kwh[axis.LocalDateOf(i).Month - 1] += kw[i] * axis.StepHours;
        return kwh;
    }
}
