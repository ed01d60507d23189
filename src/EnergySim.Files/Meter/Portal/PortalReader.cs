using NodaTime;

namespace EnergySim.Files;

/// <summary>Reads a table of unknown layout: finds out how it is written, asks what it leaves open, and places its rows in time.</summary>
internal sealed class PortalReader
{
    // Minutes of a month: reading the order of day and month wrongly puts days this far apart.
    private const int DaysApart = 27 * 1440;
    private readonly PortalTable _table;
    private readonly string _file;
    private readonly MeterOptions _options;
    private readonly MeterRows _told = new();
    private DateTimeZone? _zone;

    private PortalReader(PortalTable table, string file, MeterOptions options) => (_table, _file, _options, _zone) = (table, file, options, options.Zone);

    /// <summary>Reads a table.</summary>
    public static (MeterRows Rows, DateTimeZone? Zone) Read(string text, string file, MeterOptions options, MeterSource source)
    {
        CsvGrid grid = CsvGrid.Of(text, file);
        if (MarketRecords.Is(grid)) return MarketRecords.Read(grid, file, options);
        if (PortalTable.Of(grid) is not PortalTable table)
            throw new ProblemsException([new Problem { File = file, Rule = grid.Rows <= 1 ? "the file has no rows of data below its header" : "no rows with a date and a number were found; this is no table of meter readings" }]);
        var reader = new PortalReader(table, file, options);
        reader._told.Found("format", $"table, {grid.SeparatorText}-separated, {source.Encoding.WebName}{(source.Packing != Packing.None ? $", unpacked from {source.Packing.ToString().ToLowerInvariant()}" : "")}, data from line {grid.Line(table.FirstRow)}", source.EncodingGround, 1);
        return reader.Read();
    }

    private (MeterRows Rows, DateTimeZone? Zone) Read()
    {
        if (StampSniffer.Of(_table) is not StampLayout stamps) throw Problem("no column of dates and times was found");
        ValueLayout? values = new ValueSniffer(_table, stamps, _options, _told).Find();
        if (values is null) throw Problem("no column of amounts of electricity was found");
        if (!HasYear(stamps) && _options.Year is null)
        {
            _told.Ask("--year", "The stamps carry no year; which is it?", "2025");
        }
        DateOrder order = DateOrder.Of(_table, stamps, _options);
        List<PortalRow>? rows = HasYear(stamps) || _options.Year is not null ? RowsOf(stamps, values, order, _told) : null;
        if (rows is null || rows.Count == 0)
        {
            _told.ThrowIfAsking(_file);
            throw Problem("the file has no rows of data below its header");
        }
        Place(rows, stamps, values);
        _told.ThrowIfAsking(_file);
        return (_told, _zone);
    }

    private bool HasYear(StampLayout stamps) =>
        stamps.Kind == StampKind.Counted || !StampText.TryRead(_table.Grid.Cell(_table.FirstRow, stamps.Date), out StampParts parts) || parts.HasYear;

    // Reads the rows; where day and month may change places, both ways, and the better one if it is surely better.
    private List<PortalRow> RowsOf(StampLayout stamps, ValueLayout values, DateOrder order, MeterRows told)
    {
        bool dayFirst = order.IsDayFirst ?? false;
        if (order.IsDayFirst is null)
        {
            int monthGaps = MonthGaps(PortalRows.Read(_table, stamps, values, _options, _file, dayFirst: false).Rows);
            int dayGaps = MonthGaps(PortalRows.Read(_table, stamps, values, _options, _file, dayFirst: true).Rows);
            dayFirst = dayGaps < monthGaps;
            bool isMonthFirstLand = DateOrder.IsMonthFirst(_zone, _options);
            if (monthGaps < dayGaps && (isMonthFirstLand || ShowsClockChange(stamps, values)))
                told.Found("dates", "month first", isMonthFirstLand ? "the days then follow one another, and that is the order of the zone's country" : "the days then follow one another, and the clock changes on the right one", 0.95);
            else
                told.Ask("--day-first", $"The dates can be read day first or month first ({(dayFirst ? "day" : monthGaps < dayGaps ? "month" : "neither")} first makes the days follow one another); which is it?", "yes", "no");
        }
        else if (order.Ground.Length > 0)
        {
            told.Found("dates", dayFirst ? "day first" : "month first", order.Ground, 1);
        }
        PortalRows read = PortalRows.Read(_table, stamps, values, _options, _file, dayFirst);
        read.Tell(told);
        return read.Rows;
    }

    // With the month first: does the file behave at a clock change as the zone's clock does?
    private bool ShowsClockChange(StampLayout stamps, ValueLayout values)
    {
        if (_zone is null || stamps.Kind == StampKind.Counted) return false;
        List<PortalRow> rows = PortalRows.Read(_table, stamps, values, _options, _file, dayFirst: false).Rows;
        if (rows[0].OffsetMinutes is not null) return false;
        StampMark mark = PortalOrder.Settle(rows, stamps, _options, new MeterRows()) ?? StampMark.Start;
        PortalSteps.Settle(rows, stamps, mark);
        var clock = new PortalClock(rows, mark, stamps.IsCounted, _options, _file);
        clock.Place(_zone, new MeterRows());
        return clock.ShowsChange;
    }

    private static int MonthGaps(List<PortalRow> rows)
    {
        long[] labels = [.. rows.Select(r => r.Label).Distinct().Order()];
        int gaps = 0;
        for (int i = 1; i < labels.Length; i++)
            if (labels[i] - labels[i - 1] >= DaysApart) gaps++;
        return gaps;
    }

    private void Place(List<PortalRow> rows, StampLayout stamps, ValueLayout values)
    {
        PortalSigns.Settle(rows, _file, _told);
        StampMark? mark = values.IsRegister ? StampMark.Start : PortalOrder.Settle(rows, stamps, _options, _told);
        if (values.IsRegister) PortalOrder.Sort(rows);
        int step = PortalSteps.Settle(rows, stamps, mark);
        if (step == 0)
        {
            // One row alone: its length can not be told.
            throw Problem("the file has a single row; the length of its interval can not be told");
        }
        if (values.IsRegister) _told.Found("numbers", "readings of a register that counts up; the energy is their difference", _options.IsRegister is not null ? "as said" : "the numbers only grow", 0.95);
        long[]? starts = StartsOf(rows, stamps, mark ?? StampMark.Start, out PortalClock? clock);
        if (starts is null || _told.Questions.Count > 0) return;
        if (clock is not null) _told.Notes.AddRange(clock.Notes);
        var meters = new SortedDictionary<short, List<MeterRow>>();
        if (values.IsRegister) Registers(rows, starts, step, meters);
        else Amounts(rows, starts, clock, meters);
        if (stamps.Kind == StampKind.DateOnly && _zone is not null) WholeDays(meters.Values, _zone);
        _told.Rows.AddRange(MeterSum.Of(_file, [.. meters.Values], _told));
    }

    // Null where the zone must be asked for.
    private long[]? StartsOf(List<PortalRow> rows, StampLayout stamps, StampMark mark, out PortalClock? clock)
    {
        clock = null;
        if (rows[0].OffsetMinutes is not null)
        {
            PortalRow bare = rows.Find(r => r.OffsetMinutes is null);
            if (bare.Line > 0) throw new ProblemsException([new Problem { File = _file, Line = bare.Line, Rule = "the stamp carries no offset from UTC, while others of the file do" }]);
            _told.Found("clock", "each stamp carries its offset from UTC", "the stamps", 1);
            if (_zone is null) _told.Found("zone", "not known; times are given in UTC", "--zone says it", 1);
            return [.. rows.Select(r => r.Label - r.OffsetMinutes!.Value - (mark == StampMark.End ? r.Minutes : 0))];
        }
        MeterOptions options = _options;
        string? ground = null;
        if (options.Clock is null && HeaderWords.IsUtc(_table.Columns[stamps.Date].Header))
        {
            options = options with { Clock = new ProfileClock.Fixed(Offset.Zero) };
            _zone ??= DateTimeZone.Utc;
            ground = "the header of the stamps";
        }
        if (_zone is null && options.Clock is ProfileClock.Fixed f) _zone = DateTimeZone.ForOffset(f.Offset);
        if (_zone is null)
        {
            _told.Ask("--zone", "The stamps name no zone; where is the meter?", "America/Denver", "Europe/Berlin");
            return null;
        }
        if (options.Clock is null && stamps.Kind == StampKind.DateOnly) options = options with { Clock = new ProfileClock.Local() };
        clock = new PortalClock(rows, mark, stamps.IsCounted, options, _file, ground);
        return clock.Place(_zone, _told);
    }

    private static void Amounts(List<PortalRow> rows, long[] starts, PortalClock? clock, SortedDictionary<short, List<MeterRow>> meters)
    {
        for (int i = 0; i < rows.Count; i++)
        {
            if (starts[i] == ClockTrial.Nowhere) continue;
            PortalRow row = rows[i];
            long second = 0;
            bool isSplit = clock?.SecondPasses.TryGetValue(i, out second) == true;
            double? kwh = row.Value * UnitWord.Kwh(row.Unit, row.Minutes) / (isSplit ? 2 : 1);
            SpanMark mark = row.Value is null ? SpanMark.Missing : isSplit ? SpanMark.Split : row.IsEstimated ? SpanMark.Estimated : SpanMark.Measured;
            if (!meters.TryGetValue(row.Meter, out List<MeterRow>? list)) meters[row.Meter] = list = new List<MeterRow>(rows.Count);
            list.Add(new MeterRow(starts[i] * 60, row.Minutes * 60, kwh, row.Flow, mark, row.Line));
            if (isSplit) list.Add(new MeterRow(second * 60, row.Minutes * 60, kwh, row.Flow, mark, row.Line));
        }
    }

    // A row a day lasts from one local midnight to the next: 23 or 25 hours where the clock changes.
    private static void WholeDays(IEnumerable<List<MeterRow>> meters, DateTimeZone zone)
    {
        foreach (List<MeterRow> rows in meters)
            for (int i = 0; i < rows.Count; i++)
            {
                LocalDate next = Instant.FromUnixTimeSeconds(rows[i].StartSecond).InZone(zone).Date.PlusDays(1);
                rows[i] = rows[i] with { Seconds = (int)(zone.AtStartOfDay(next).ToInstant().ToUnixTimeSeconds() - rows[i].StartSecond) };
            }
    }

    private void Registers(List<PortalRow> rows, long[] starts, int step, SortedDictionary<short, List<MeterRow>> meters)
    {
        foreach (IGrouping<(short Meter, MeterFlow Flow), int> channel in Enumerable.Range(0, rows.Count).Where(i => starts[i] != ClockTrial.Nowhere).GroupBy(i => (rows[i].Meter, rows[i].Flow)))
        {
            var made = new MeterRows();
            RegisterRows.Add([.. channel.OrderBy(i => starts[i]).Select(i => (starts[i] * 60, rows[i]))], step * 60, made);
            _told.Notes.AddRange(made.Notes);
            if (meters.TryGetValue(channel.Key.Meter, out List<MeterRow>? list)) list.AddRange(made.Rows);
            else meters[channel.Key.Meter] = made.Rows;
        }
    }

    private ProblemsException Problem(string rule) => new([new Problem { File = _file, Rule = rule }]);
}
