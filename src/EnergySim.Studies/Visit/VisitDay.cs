using EnergySim.Engine;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Visit;

/// <summary>One local day of one column, hour by hour.</summary>
public sealed record VisitDay
{
    /// <summary>The column.</summary>
    public required string Column { get; init; }

    /// <summary>The day.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>Lowest energy that the cells may hold, kWh.</summary>
    public required double LowestKwh { get; init; }

    /// <summary>Highest energy, kWh; 0 = no battery.</summary>
    public required double HighestKwh { get; init; }

    /// <summary>Its hours: 24, or 23 and 25 where the clock changes.</summary>
    public required IReadOnlyList<VisitHour> Hours { get; init; }

    /// <summary>Tells a day.</summary>
    /// <param name="visit">The home as chosen.</param>
    /// <param name="calendar">Its plan on the axis of its load.</param>
    /// <param name="column">0 = as it is, then the offers.</param>
    /// <param name="date">A day of the data.</param>
    /// <exception cref="ArgumentException">There is no such column, or the day is not in the data.</exception>
    public static VisitDay Of(VisitHome visit, TariffCalendar calendar, int column, LocalDate date)
    {
        ArgumentNullException.ThrowIfNull(visit);
        if (column < 0 || column > visit.Home.Offers.Count) throw new ArgumentException(FormattableString.Invariant($"There is no column {column}; they are 0 to {visit.Home.Offers.Count}."));
        Installation installed = column == 0 ? Installation.Of(visit.Home with { Offers = [] }, calendar)[0] : Installation.Of(visit.With(column - 1), calendar)[1];
        Ledger ledger = installed.Run.Ledger();
        TimeAxis axis = ledger.Axis;
        int first = 0;
        while (first < axis.Count && axis.LocalDateOf(first) < date) first++;
        if (first == axis.Count || axis.LocalDateOf(first) != date) throw new ArgumentException(FormattableString.Invariant($"{date:uuuu-MM-dd} is not a day of the data, which go from {axis.LocalDateOf(0):uuuu-MM-dd} to {axis.LocalDateOf(axis.Count - 1):uuuu-MM-dd}."));
        var hours = new List<VisitHour>();
        int perHour = 60 / axis.StepMinutes;
        for (int i = first; i < axis.Count && axis.LocalDateOf(i) == date; i += perHour)
            hours.Add(VisitHour.Of(ledger, calendar, i, Math.Min(perHour, axis.Count - i)));
        return new VisitDay
        {
            Column = installed.Name,
            Date = date,
            LowestKwh = installed.Run.Plant.LowestKwh,
            HighestKwh = installed.Run.Plant.HighestKwh,
            Hours = hours,
        };
    }
}

/// <summary>One hour: what flowed where, and what held it back. Energies kWh of the hour, AC but where said.</summary>
public sealed record VisitHour
{
    /// <summary>Local start with its offset.</summary>
    public required OffsetDateTime At { get; init; }

    /// <summary>Period of the plan.</summary>
    public required string Period { get; init; }

    /// <summary>What the house and the plant's own consumption used.</summary>
    public required double UsedKwh { get; init; }

    /// <summary>Solar used at once.</summary>
    public required double SolarToHouseKwh { get; init; }

    /// <summary>Solar to the cells, DC at their terminals.</summary>
    public required double SolarToCellsKwh { get; init; }

    /// <summary>Solar sold.</summary>
    public required double SolarToGridKwh { get; init; }

    /// <summary>Solar not used, DC and AC together.</summary>
    public required double SolarLostKwh { get; init; }

    /// <summary>Cells to the house.</summary>
    public required double CellsToHouseKwh { get; init; }

    /// <summary>Cells to the grid.</summary>
    public required double CellsToGridKwh { get; init; }

    /// <summary>Grid to the cells, DC at their terminals.</summary>
    public required double GridToCellsKwh { get; init; }

    /// <summary>Bought at the meter.</summary>
    public required double BoughtKwh { get; init; }

    /// <summary>Sold at the meter.</summary>
    public required double SoldKwh { get; init; }

    /// <summary>In the cells at the hour's end, kWh.</summary>
    public required double StoredKwh { get; init; }

    /// <summary>The limits that bound in it, with the minutes in which they did, in the order in which they act.</summary>
    public required IReadOnlyList<(Limit Limit, int Minutes)> Limits { get; init; }

    internal static VisitHour Of(Ledger ledger, TariffCalendar calendar, int first, int count)
    {
        double Kwh(params ReadOnlySpan<LedgerColumn> columns)
        {
            double kw = 0;
            foreach (LedgerColumn column in columns)
                foreach (double value in ledger[column].Slice(first, count)) kw += value;
            return kw * ledger.Axis.StepHours;
        }
        int Minutes(Limit limit)
        {
            int bound = 0;
            for (int i = first; i < first + count; i++)
                if (Enum.GetValues<LimitSite>().Any(s => Engine.Limits.LimitOf(s) == limit && ledger.Bound(i, s))) bound++;
            return bound * ledger.Axis.StepMinutes;
        }
        return new VisitHour
        {
            At = ledger.Axis.OffsetStartOf(first),
            Period = calendar.Buckets[calendar.BucketOf[first]].Period,
            UsedKwh = Kwh(LedgerColumn.LoadKw, LedgerColumn.StandbyKw),
            SolarToHouseKwh = Kwh(LedgerColumn.SolarDcToLoadKw, LedgerColumn.SolarAcToLoadKw),
            SolarToCellsKwh = Kwh(LedgerColumn.SolarDcToCellsKw, LedgerColumn.SolarAcToCellsKw),
            SolarToGridKwh = Kwh(LedgerColumn.SolarToGridKw),
            SolarLostKwh = Kwh(LedgerColumn.ClippedInputKw, LedgerColumn.CurtailedDcKw, LedgerColumn.CurtailedAcKw),
            CellsToHouseKwh = Kwh(LedgerColumn.CellsToLoadKw),
            CellsToGridKwh = Kwh(LedgerColumn.CellsToGridKw),
            GridToCellsKwh = Kwh(LedgerColumn.GridToCellsKw),
            BoughtKwh = Kwh(LedgerColumn.ImportKw),
            SoldKwh = Kwh(LedgerColumn.ExportKw),
            StoredKwh = ledger[LedgerColumn.StoredKwh][first + count - 1],
            Limits = [.. Enum.GetValues<Limit>().Select(l => (Limit: l, Minutes: Minutes(l))).Where(l => l.Minutes > 0)],
        };
    }
}
