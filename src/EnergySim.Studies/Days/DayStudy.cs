using EnergySim.Engine;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Days;

/// <summary>Reads days out of the runs of a home: for each offer a day of ordinary load and the mean day, in July and in January where the data have them.</summary>
public sealed class DayStudy
{
    private const int SummerMonth = 7, WinterMonth = 1, MinutesPerHour = 60, HoursPerDay = 24, Months = 12;

    private readonly Home _home;
    private readonly TariffCalendar _calendar;
    private readonly double[] _buyPerKwh;
    private readonly (Installation Installation, Ledger Ledger)[] _runs;
    private readonly int[] _dayStart;

    /// <param name="home">The home.</param>
    /// <exception cref="ArgumentException">The plan does not fit the axis, or an offer cannot be run.</exception>
    public DayStudy(Home home)
    {
        ArgumentNullException.ThrowIfNull(home);
        _home = home;
        TimeAxis axis = home.Load.Axis;
        _calendar = new TariffCalendar(home.Tariff, axis, home.Account, home.Load.Kw);
        _buyPerKwh = new MarginalPrices(_calendar).BuyPerKwh.ToArray();
        _runs = [.. Installation.Of(home, _calendar).Select(i => (i, i.Run.Ledger()))];
        _dayStart = [.. Enumerable.Range(0, axis.Count).Where(i => i == 0 || axis.LocalDayOf(i) != axis.LocalDayOf(i - 1)), axis.Count];
    }

    /// <summary>For each offer: the ordinary day and the mean day of July (else the first month), then of January (else the last month, if another).</summary>
    public IReadOnlyList<DayFlows> OfOffers()
    {
        TimeAxis axis = _home.Load.Axis;
        int[] months = [.. Enumerable.Range(0, _dayStart.Length - 1).Select(d => axis.LocalDateOf(_dayStart[d]).Month).Distinct()];
        int summer = months.Contains(SummerMonth) ? SummerMonth : months[0];
        int winter = months.Contains(WinterMonth) ? WinterMonth : months[^1];
        var days = new List<DayFlows>();
        foreach ((Installation installation, Ledger ledger) in _runs.Skip(1))
        {
            foreach (int month in summer == winter ? (int[])[summer] : [summer, winter])
            {
                int[] inMonth = [.. Enumerable.Range(0, _dayStart.Length - 1).Where(d => axis.LocalDateOf(_dayStart[d]).Month == month)];
                days.Add(Of(installation, ledger, [OrdinaryDay(inMonth)], isMean: false));
                days.Add(Of(installation, ledger, inMonth, isMean: true));
            }
        }
        return days;
    }

    /// <summary>The home's year by month and hour.</summary>
    public MonthHours ByMonthAndHour()
    {
        Ledger asItIs = _runs[0].Ledger;
        var tables = new List<MonthHourTable> { Table(MonthHourFigure.Load, "", 0, asItIs[LedgerColumn.LoadKw]) };
        if (_home.Solar is HomeSolar solar) tables.Add(Table(MonthHourFigure.Solar, "", 0, solar.Profile.Kw));
        foreach ((Installation i, Ledger ledger) in _runs) tables.Add(Table(MonthHourFigure.Import, i.Name, i.Units, ledger[LedgerColumn.ImportKw]));
        foreach ((Installation i, Ledger ledger) in _runs.Skip(1)) tables.Add(Table(MonthHourFigure.Stored, i.Name, i.Units, ledger[LedgerColumn.StoredKwh]));
        return new MonthHours { Home = _home.Name, Tariff = _home.Tariff.Name, Currency = _home.Tariff.Currency, Tables = tables, Periods = Periods() };
    }

    // The day of the month whose load is in the middle of all its days', whole days only where there are any.
    private int OrdinaryDay(int[] days)
    {
        int longest = days.Max(Length);
        int[] whole = [.. days.Where(d => Length(d) == longest).OrderBy(LoadOf).ThenBy(d => d)];
        return whole[whole.Length / 2];

        int Length(int day) => _dayStart[day + 1] - _dayStart[day];
        double LoadOf(int day)
        {
            double sum = 0;
            for (int i = _dayStart[day]; i < _dayStart[day + 1]; i++) sum += _home.Load.Kw[i];
            return sum;
        }
    }

    private DayFlows Of(Installation installation, Ledger ledger, int[] days, bool isMean)
    {
        TimeAxis axis = _home.Load.Axis;
        IEnumerable<IGrouping<int, int>> byMinute = days.SelectMany(d => Enumerable.Range(_dayStart[d], _dayStart[d + 1] - _dayStart[d])).GroupBy(axis.LocalMinuteOf).OrderBy(g => g.Key);
        return new DayFlows
        {
            Home = _home.Name,
            Installation = installation.Name,
            BatteryUnits = installation.Units,
            Currency = _home.Tariff.Currency,
            From = axis.LocalDateOf(_dayStart[days[0]]),
            To = axis.LocalDateOf(_dayStart[days[^1]]),
            IsMean = isMean,
            StepMinutes = axis.StepMinutes,
            Intervals = [.. byMinute.Select(g => Mean(ledger, g.Key, [.. g]))],
        };
    }

    private DayInterval Mean(Ledger ledger, int minute, int[] at)
    {
        double load = Of(LedgerColumn.LoadKw), sun = Of(LedgerColumn.SolarDcToLoadKw, LedgerColumn.SolarAcToLoadKw), battery = Of(LedgerColumn.CellsToLoadKw);
        return new DayInterval
        {
            FromMinute = minute,
            LoadKw = load,
            SolarToLoadKw = sun,
            BatteryToLoadKw = battery,
            GridToLoadKw = Math.Max(0, load - sun - battery),
            SolarToBatteryKw = Of(LedgerColumn.SolarDcToCellsKw, LedgerColumn.SolarAcToCellsKw),
            GridToBatteryKw = Of(LedgerColumn.GridToCellsKw),
            SoldKw = Of(LedgerColumn.ExportKw),
            StoredKwh = Of(LedgerColumn.StoredKwh),
            Period = at.GroupBy(i => _calendar.Buckets[_calendar.BucketOf[i]].Period).MaxBy(g => g.Count())!.Key,
            BuyPerKwh = at.Average(i => _buyPerKwh[i]),
        };

        double Of(params ReadOnlySpan<LedgerColumn> columns)
        {
            double sum = 0;
            foreach (LedgerColumn column in columns)
                foreach (int i in at) sum += ledger[column][i];
            return sum / at.Length;
        }
    }

    private MonthHourTable Table(MonthHourFigure figure, string installation, int units, ReadOnlySpan<double> values)
    {
        TimeAxis axis = _home.Load.Axis;
        var sums = new double[Months, HoursPerDay];
        var counts = new int[Months, HoursPerDay];
        int month = 0;
        for (int i = 0, day = 0; i < values.Length; i++)
        {
            if (i == _dayStart[day]) month = axis.LocalDateOf(_dayStart[day++]).Month - 1;
            int hour = axis.LocalMinuteOf(i) / MinutesPerHour;
            sums[month, hour] += values[i];
            counts[month, hour]++;
        }
        return new MonthHourTable
        {
            Figure = figure,
            Installation = installation,
            BatteryUnits = units,
            Rows = [.. Enumerable.Range(0, Months).Select(m => Enumerable.Range(0, HoursPerDay).Select(h => counts[m, h] > 0 ? sums[m, h] / counts[m, h] : (double?)null).ToArray())],
        };
    }

    private PeriodHour?[][] Periods()
    {
        TimeAxis axis = _home.Load.Axis;
        var found = new Dictionary<string, (int Count, double Price)>[Months, HoursPerDay];
        for (int d = 0; d < _dayStart.Length - 1; d++)
        {
            LocalDate date = axis.LocalDateOf(_dayStart[d]);
            if (date.DayOfWeek is IsoDayOfWeek.Saturday or IsoDayOfWeek.Sunday) continue;
            for (int i = _dayStart[d]; i < _dayStart[d + 1]; i++)
            {
                Dictionary<string, (int Count, double Price)> cell = found[date.Month - 1, axis.LocalMinuteOf(i) / MinutesPerHour] ??= [];
                string period = _calendar.Buckets[_calendar.BucketOf[i]].Period;
                (int count, double price) = cell.GetValueOrDefault(period);
                cell[period] = (count + 1, price + _buyPerKwh[i]);
            }
        }
        return [.. Enumerable.Range(0, Months).Select(m => Enumerable.Range(0, HoursPerDay).Select(h => Most(found[m, h])).ToArray())];

        static PeriodHour? Most(Dictionary<string, (int Count, double Price)>? cell)
        {
            if (cell is null) return null;
            (string period, (int count, double price)) = cell.MaxBy(c => c.Value.Count);
            return new PeriodHour(period, price / count);
        }
    }
}
