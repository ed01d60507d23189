using System.Globalization;
using EnergySim.Engine;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Days;

/// <summary>Tells a day of the data, or the mean of many, from the ledger of a run.</summary>
public static class DayStudy
{
    private const int MinutesPerDay = 1440;

    /// <summary>One day of one column.</summary>
    /// <param name="home">The home.</param>
    /// <param name="column">0 = as it is, then the offers.</param>
    /// <param name="date">A day of the data.</param>
    /// <exception cref="ArgumentException">There is no such column, the day is not in the data, or the offer cannot be run.</exception>
    public static DayFlows Of(Home home, int column, LocalDate date)
    {
        var run = new ColumnRun(home, column);
        TimeAxis axis = run.Ledger.Axis;
        int[] day = [.. Enumerable.Range(0, axis.Count).Where(i => axis.LocalDateOf(i) == date)];
        if (day.Length == 0)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture,
                $"{date:uuuu-MM-dd} is not a day of the data, which go from {axis.LocalDateOf(0):uuuu-MM-dd} to {axis.LocalDateOf(axis.Count - 1):uuuu-MM-dd}."));
        }
        return Told(home, run, day, [.. day.Select(i => new[] { i })]) with { Date = date };
    }

    /// <summary>The mean day of one column.</summary>
    /// <param name="home">The home.</param>
    /// <param name="column">0 = as it is, then the offers.</param>
    /// <param name="month">1–12: only its days; null = all.</param>
    /// <exception cref="ArgumentException">There is no such column, no day of that month, or the offer cannot be run.</exception>
    public static DayFlows Average(Home home, int column, int? month = null)
    {
        var run = new ColumnRun(home, column);
        TimeAxis axis = run.Ledger.Axis;
        int[] counted = [.. Enumerable.Range(0, axis.Count).Where(i => month is not int m || axis.LocalDateOf(i).Month == m)];
        if (counted.Length == 0) throw new ArgumentException(FormattableString.Invariant($"The data have no day of month {month}."));
        var moments = new List<int>[MinutesPerDay / axis.StepMinutes];
        foreach (int i in counted) (moments[axis.LocalMinuteOf(i) / axis.StepMinutes] ??= []).Add(i);
        return Told(home, run, counted, [.. moments.Where(m => m is not null).Select(m => m.ToArray())]) with { Month = month };
    }

    private static DayFlows Told(Home home, ColumnRun run, int[] intervals, IReadOnlyList<int[]> moments)
    {
        TimeAxis axis = run.Ledger.Axis;
        double[] stored = run.Ledger[LedgerColumn.StoredKwh].ToArray();
        int[] firsts = [.. moments[0]];
        return new DayFlows
        {
            Home = home.Name,
            Note = home.Note,
            Tariff = home.Tariff.Name,
            Currency = home.Tariff.Currency,
            Column = run.Installed.Name,
            BatteryUnits = run.Installed.Units,
            Date = null,
            Month = null,
            DayCount = intervals.Select(axis.LocalDayOf).Distinct().Count(),
            Span = (axis.LocalDateOf(intervals[0]), axis.LocalDateOf(intervals[^1])),
            StepHours = axis.StepHours,
            HighestKwh = run.Installed.Run.Plant.HighestKwh,
            StartKwh = firsts.Average(i => i == 0 ? run.Ledger.Sums.StartKwh : stored[i - 1]),
            Moments = [.. moments.Select(of => Moment(run, of))],
        };
    }

    private static DayMoment Moment(ColumnRun run, int[] of)
    {
        double Mean(params ReadOnlySpan<LedgerColumn> columns)
        {
            double sum = 0;
            foreach (LedgerColumn column in columns)
                foreach (int i in of) sum += run.Ledger[column][i];
            return sum / of.Length;
        }
        double use = Mean(LedgerColumn.LoadKw, LedgerColumn.StandbyKw), sun = Mean(LedgerColumn.SolarDcToLoadKw, LedgerColumn.SolarAcToLoadKw);
        double battery = Mean(LedgerColumn.CellsToLoadKw);
        double price = 0;
        foreach (int i in of) price += run.Prices.BuyPerKwh[i];
        string period = run.PeriodOf(of[0]);
        return new DayMoment
        {
            LocalMinute = run.Ledger.Axis.LocalMinuteOf(of[0]),
            UseKw = use,
            SunToHomeKw = sun,
            BatteryToHomeKw = battery,
            GridToHomeKw = Math.Max(0, use - sun - battery),
            IntoBatteryKw = Mean(LedgerColumn.SolarDcToCellsKw, LedgerColumn.SolarAcToCellsKw, LedgerColumn.GridToCellsKw),
            SoldKw = Mean(LedgerColumn.ExportKw),
            SunKw = Mean(LedgerColumn.SolarDcKw, LedgerColumn.SolarAcKw),
            StoredKwh = Mean(LedgerColumn.StoredKwh),
            Period = of.All(i => run.PeriodOf(i) == period) ? period : null,
            BuyPerKwh = price / of.Length,
        };
    }
}
