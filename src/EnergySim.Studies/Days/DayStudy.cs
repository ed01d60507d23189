using System.Globalization;
using EnergySim.Engine;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Days;

/// <summary>Tells a day of the data, or the mean of many, from the ledger of a run.</summary>
public static class DayStudy
{
    private const int MinutesPerHour = 60, MinutesPerDay = 1440;

    /// <summary>One day of one column, interval by interval.</summary>
    /// <param name="home">The home.</param>
    /// <param name="column">0 = as it is, then the offers.</param>
    /// <param name="date">A day of the data.</param>
    /// <exception cref="ArgumentException">There is no such column, the day is not in the data, or the offer cannot be run.</exception>
    public static DayFlows Of(Home home, int column, LocalDate date) => Of(new ColumnRun(home, column), date);

    /// <summary>One day of one column, hour by hour.</summary>
    /// <param name="home">The home.</param>
    /// <param name="column">0 = as it is, then the offers.</param>
    /// <param name="date">A day of the data.</param>
    /// <param name="calendar">The home's plan on the axis of its load.</param>
    /// <exception cref="ArgumentException">There is no such column, the day is not in the data, or the offer cannot be run.</exception>
    public static DayFlows ByHour(Home home, int column, LocalDate date, TariffCalendar calendar) =>
        Of(new ColumnRun(home, column, calendar), date, MinutesPerHour);

    /// <summary>The mean day of one column.</summary>
    /// <param name="home">The home.</param>
    /// <param name="column">0 = as it is, then the offers.</param>
    /// <param name="month">1–12: only its days; null = all.</param>
    /// <exception cref="ArgumentException">There is no such column, no day of that month, or the offer cannot be run.</exception>
    public static DayFlows Average(Home home, int column, int? month = null) => Average(new ColumnRun(home, column), month);

    internal static DayFlows Of(ColumnRun run, LocalDate date, int minutes = 0)
    {
        TimeAxis axis = run.Ledger.Axis;
        int[] day = [.. Enumerable.Range(0, axis.Count).Where(i => axis.LocalDateOf(i) == date)];
        if (day.Length == 0)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture,
                $"{date:uuuu-MM-dd} is not a day of the data, which go from {axis.LocalDateOf(0):uuuu-MM-dd} to {axis.LocalDateOf(axis.Count - 1):uuuu-MM-dd}."));
        }
        return Told(run, day, [.. day.Chunk(Math.Max(1, minutes / axis.StepMinutes))]) with { Date = date };
    }

    internal static DayFlows Average(ColumnRun run, int? month = null)
    {
        TimeAxis axis = run.Ledger.Axis;
        int[] counted = [.. Enumerable.Range(0, axis.Count).Where(i => month is not int m || axis.LocalDateOf(i).Month == m)];
        if (counted.Length == 0) throw new ArgumentException(FormattableString.Invariant($"The data have no day of month {month}."));
        var moments = new List<int>[MinutesPerDay / axis.StepMinutes];
        foreach (int i in counted) (moments[axis.LocalMinuteOf(i) / axis.StepMinutes] ??= []).Add(i);
        return Told(run, counted, [.. moments.Where(m => m is not null).Select(m => m.ToArray())]) with { Month = month };
    }

    private static DayFlows Told(ColumnRun run, int[] intervals, IReadOnlyList<int[]> moments)
    {
        TimeAxis axis = run.Ledger.Axis;
        Home home = run.Home;
        double[] stored = run.Ledger[LedgerColumn.StoredKwh].ToArray();
        int[] firsts = [.. moments[0].Where(i => axis.LocalMinuteOf(i) == axis.LocalMinuteOf(moments[0][0]))];
        DayMoment[] told = [.. moments.Select(of => Moment(run, of))];
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
            LowestKwh = run.Installed.Run.Plant.LowestKwh,
            HighestKwh = run.Installed.Run.Plant.HighestKwh,
            StepHours = told[0].Hours,
            StartKwh = firsts.Average(i => i == 0 ? run.Ledger.Sums.StartKwh : stored[i - 1]),
            Moments = told,
        };
    }

    private static DayMoment Moment(ColumnRun run, int[] of)
    {
        TimeAxis axis = run.Ledger.Axis;
        double Mean(params ReadOnlySpan<LedgerColumn> columns)
        {
            double sum = 0;
            foreach (LedgerColumn column in columns)
            {
                ReadOnlySpan<double> kw = run.Ledger[column];
                foreach (int i in of) sum += kw[i];
            }
            return sum / of.Length;
        }
        double use = Mean(LedgerColumn.LoadKw, LedgerColumn.StandbyKw), sun = Mean(LedgerColumn.SolarDcToLoadKw, LedgerColumn.SolarAcToLoadKw);
        double battery = Mean(LedgerColumn.CellsToLoadKw);
        double price = 0;
        foreach (int i in of) price += run.Prices.BuyPerKwh[i];
        string period = run.PeriodOf(of[0]);
        // Of a day the last interval is the moment's end; of many days each ends it.
        bool isOneDay = axis.LocalDayOf(of[0]) == axis.LocalDayOf(of[^1]);
        return new DayMoment
        {
            At = isOneDay ? axis.OffsetStartOf(of[0]) : null,
            Hours = (isOneDay ? of.Length : 1) * axis.StepHours,
            LocalMinute = axis.LocalMinuteOf(of[0]),
            UseKw = use,
            SunToHomeKw = sun,
            BatteryToHomeKw = battery,
            GridToHomeKw = Math.Max(0, use - sun - battery),
            IntoBatteryKw = Mean(LedgerColumn.SolarDcToCellsKw, LedgerColumn.SolarAcToCellsKw, LedgerColumn.GridToCellsKw),
            SunToBatteryKw = Mean(LedgerColumn.SolarDcToCellsKw, LedgerColumn.SolarAcToCellsKw),
            GridToBatteryKw = Mean(LedgerColumn.GridToCellsKw),
            SoldKw = Mean(LedgerColumn.ExportKw),
            SunSoldKw = Mean(LedgerColumn.SolarToGridKw),
            BatterySoldKw = Mean(LedgerColumn.CellsToGridKw),
            BoughtKw = Mean(LedgerColumn.ImportKw),
            SunKw = Mean(LedgerColumn.SolarDcKw, LedgerColumn.SolarAcKw),
            SunLostKw = Mean(LedgerColumn.ClippedInputKw, LedgerColumn.CurtailedDcKw, LedgerColumn.CurtailedAcKw),
            StoredKwh = isOneDay ? run.Ledger[LedgerColumn.StoredKwh][of[^1]] : Mean(LedgerColumn.StoredKwh),
            Period = isOneDay || of.All(i => run.PeriodOf(i) == period) ? period : null,
            BuyPerKwh = price / of.Length,
            Limits = isOneDay ? LimitsIn(run.Ledger, of) : [],
        };
    }

    private static List<(Limit Limit, int Minutes)> LimitsIn(Ledger ledger, int[] of)
    {
        var limits = new List<(Limit, int)>();
        foreach (Limit limit in Enum.GetValues<Limit>())
        {
            int bound = of.Count(i => Enum.GetValues<LimitSite>().Any(s => Limits.LimitOf(s) == limit && ledger.Bound(i, s)));
            if (bound > 0) limits.Add((limit, bound * ledger.Axis.StepMinutes));
        }
        return limits;
    }
}
