using EnergySim.Time;
using NodaTime;

namespace EnergySim.Strategies;

/// <summary>
/// What is expected of a day, made from the days before it alone: the load of the same hour of the last days of its kind, the clearest
/// sun of the last two weeks, scaled to how clear they and the last day were. On the first day there is no past, and nothing is expected.
/// </summary>
internal sealed class DayForecast
{
    /// <summary>Like days that are averaged where nothing else is said.</summary>
    public const int UsualLikeDays = 5;

    /// <summary>Days in which a clear sky is looked for.</summary>
    private const int ClearDays = 14;

    private const int Hours = 24;

    /// <summary>How much of the last day's clearness is expected to last.</summary>
    private const double Persistence = 0.5;

    private readonly int _likeDays;
    private readonly double[][] _loadKw;
    private readonly double[][] _solarKw;
    private readonly bool[] _isWeekend;

    /// <param name="axis">The intervals.</param>
    /// <param name="loadKw">House, kW.</param>
    /// <param name="solarKw">Solar, kW.</param>
    /// <param name="likeDays">Like days that are averaged, ≥ 1.</param>
    public DayForecast(TimeAxis axis, ReadOnlySpan<double> loadKw, ReadOnlySpan<double> solarKw, int likeDays = UsualLikeDays)
    {
        _likeDays = likeDays;
        FirstDay = axis.LocalDayOf(0);
        Days = axis.LocalDayOf(axis.Count - 1) - FirstDay + 1;
        _loadKw = HourlyMeans(axis, loadKw);
        _solarKw = HourlyMeans(axis, solarKw);
        _isWeekend = new bool[Days];
        for (int d = 0; d < Days; d++) _isWeekend[d] = IsWeekend(d);
    }

    /// <summary>First local date, as days since 1970-01-01.</summary>
    public int FirstDay { get; }

    /// <summary>Number of local dates.</summary>
    public int Days { get; }

    /// <summary>Expected load of each hour of a day, kW, from the days before <paramref name="known"/>.</summary>
    /// <param name="day">The day, counted from the first.</param>
    /// <param name="known">The first day of which nothing is known.</param>
    /// <param name="hourKw">Takes 24 values.</param>
    public void Load(int day, int known, Span<double> hourKw)
    {
        bool weekend = IsWeekend(day);
        hourKw.Clear();
        int found = 0;
        for (int d = known - 1; d >= 0 && found < _likeDays; d--)
        {
            if (_isWeekend[d] != weekend && known > 7) continue;
            for (int h = 0; h < Hours; h++) hourKw[h] += _loadKw[d][h];
            found++;
        }
        if (found > 1) for (int h = 0; h < Hours; h++) hourKw[h] /= found;
    }

    /// <summary>Expected sun of each hour of the days from <paramref name="known"/> on, kW.</summary>
    /// <param name="known">The first day of which nothing is known.</param>
    /// <param name="hourKw">Takes 24 values.</param>
    public void Solar(int known, Span<double> hourKw)
    {
        hourKw.Clear();
        if (known == 0) return;
        double clear = 0, last = 0;
        for (int h = 0; h < Hours; h++)
        {
            for (int d = Math.Max(0, known - ClearDays); d < known; d++) hourKw[h] = Math.Max(hourKw[h], _solarKw[d][h]);
            clear += hourKw[h];
            double mean = 0;
            for (int d = Math.Max(0, known - ClearDays); d < known; d++) mean += _solarKw[d][h];
            last += (Persistence * _solarKw[known - 1][h]) + ((1 - Persistence) * mean / Math.Min(ClearDays, known));
        }
        for (int h = 0; h < Hours; h++) hourKw[h] *= clear > 0 ? last / clear : 0;
    }

    private bool IsWeekend(int day) => TimeAxis.DateOfDay(FirstDay + day).DayOfWeek >= IsoDayOfWeek.Saturday;

    private double[][] HourlyMeans(TimeAxis axis, ReadOnlySpan<double> kw)
    {
        var sums = new double[Days][];
        var counts = new int[Days, Hours];
        for (int d = 0; d < Days; d++) sums[d] = new double[Hours];
        for (int i = 0; i < kw.Length; i++)
        {
            int day = axis.LocalDayOf(i) - FirstDay, hour = axis.LocalMinuteOf(i) / 60;
            sums[day][hour] += kw[i];
            counts[day, hour]++;
        }
        for (int d = 0; d < Days; d++)
            for (int h = 0; h < Hours; h++)
                if (counts[d, h] > 1) sums[d][h] /= counts[d, h];
        return sums;
    }
}
