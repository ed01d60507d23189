using System.Globalization;

namespace EnergySim.Files;

/// <summary>Reads the rows of a table whose layout is known, each row for itself.</summary>
internal sealed class PortalRows(PortalTable table, StampLayout stamps, ValueLayout values, MeterOptions options, string file)
{
    private readonly NumberText _number = new(values.IsDecimalComma);
    private readonly Dictionary<string, short> _meters = new(StringComparer.OrdinalIgnoreCase);
    private readonly ProblemList _problems = new();
    private readonly TextMemo<bool> _isEstimate = new(t => t.Length > 0 && HeaderWords.IsEstimate(t)), _isOtherService = new(HeaderWords.IsOtherService);
    private TextMemo<MeterFlow?>? _way;
    private int _totals, _services, _others;

    // A date may stand once, in the first row of its day.
    private StampParts _lastDate;
    private string _lastDateText = "";

    // Of the stamp read last: minutes from the midnight of its date, as written.
    private long _minuteOfDay;

    public List<PortalRow> Rows { get; } = [];

    /// <summary>Reads all rows.</summary>
    /// <exception cref="ProblemsException">A row can not be read.</exception>
    public static PortalRows Read(PortalTable table, StampLayout stamps, ValueLayout values, MeterOptions options, string file, bool dayFirst)
    {
        var reader = new PortalRows(table, stamps, values, options, file);
        for (int row = table.FirstRow; row < table.Grid.Rows; row++) reader.Take(row, dayFirst);
        reader._problems.ThrowIfAny();
        if (reader.Rows.Count == 0 && reader._services > 0)
            throw new ProblemsException([new Problem { File = file, Rule = "the file holds gas or water, not electricity; only electricity is read" }]);
        return reader;
    }

    /// <summary>Says what was left out.</summary>
    public void Tell(MeterRows rows)
    {
        void Say(int count, string what)
        {
            if (count > 0) rows.Notes.Add(string.Create(CultureInfo.InvariantCulture, $"{count:N0} {what}."));
        }
        Say(_services, "rows of gas, water or another service were left out; only electricity is read");
        Say(_totals, "rows of totals were left out");
        Say(_others, "lines that are no data (titles, notes) were left out");
    }

    private void Take(int row, bool dayFirst)
    {
        if (!table.HasWidth(row))
        {
            _others++;
            return;
        }
        if (MinuteOf(row, stamps.Date, stamps.Kind is StampKind.DateAndTime or StampKind.DateAndOrdinal ? stamps.Time : -1, dayFirst, out int? offset) is not long label)
        {
            Skip(row);
            return;
        }
        long dayMinute = label - _minuteOfDay;
        if (IsOtherService(row))
        {
            _services++;
            return;
        }
        if (MeterOf(row) is not short meter) return;
        MeterFlow? way = values.Direction < 0 ? null : (_way ??= new TextMemo<MeterFlow?>(t => WayOf(t, options))).Of(table.Grid.Cell(row, values.Direction));
        if (values.Direction >= 0 && way is null)
        {
            _others++;
            return;
        }
        bool isEstimated = values.Quality >= 0 && _isEstimate.Of(table.Grid.Cell(row, values.Quality));
        int minutes = stamps.EndDate >= 0 || stamps.EndTime >= 0 ? MinutesTo(row, label - (offset ?? 0), dayFirst) : 0;
        if (stamps.Kind == StampKind.Wide)
        {
            foreach (WideColumn column in stamps.Wide) Add(row, column.Column, label + column.Minute, values.Columns[0], way);
            return;
        }
        foreach (ValueColumn column in values.Columns) Add(row, column.Column, label, column, way);

        void Add(int row, int cellColumn, long label, in ValueColumn column, MeterFlow? way)
        {
            ReadOnlySpan<char> cell = table.Grid.Cell(row, cellColumn);
            double? number = null;
            if (!NumberText.IsMissing(cell))
            {
                if (_number.TryRead(cell, out double read)) number = read;
                else _problems.Add(At(row, column.Header, cell, "is not a number"));
            }
            MeterUnit unit = values.Unit >= 0 && UnitWord.Of(table.Grid.Cell(row, values.Unit)) is MeterUnit u && options.Unit is null ? u : column.Unit ?? MeterUnit.KWh;
            Rows.Add(new PortalRow(table.Grid.Line(row), label, dayMinute, offset, minutes, number, unit, way ?? column.Flow, isEstimated, meter));
        }
    }

    private Problem At(int row, string field, ReadOnlySpan<char> value, string rule) => new()
    {
        File = file,
        Line = table.Grid.Line(row),
        Field = field.Length > 0 ? SafeText.Of(field) : null,
        Value = SafeText.Of(value.ToString()),
        Rule = rule,
    };

    // A row without a date: a total, a header once more, a note; anything else is a problem.
    private void Skip(int row)
    {
        for (int c = 0; c < Math.Min(table.Grid.Width(row), 4); c++)
        {
            if (!HeaderWords.IsTotal(table.Grid.Text(row, c))) continue;
            _totals++;
            return;
        }
        ReadOnlySpan<char> date = table.Grid.Cell(row, stamps.Date);
        bool isHeader = table.HeaderRow >= 0 && date.SequenceEqual(table.Grid.Cell(table.HeaderRow, stamps.Date));
        bool hasNumber = values.Columns.Any(v => NumberText.LooksNumeric(table.Grid.Cell(row, v.Column)));
        if (isHeader || !hasNumber) _others++;
        else _problems.Add(At(row, table.Columns[stamps.Date].Header, date, date.IsEmpty ? "has no date" : "is not a date and time"));
    }

    // Minutes since 1970-01-01 of a date and a time on the file's own clock.
    private long? MinuteOf(int row, int dateColumn, int timeColumn, bool dayFirst, out int? offset)
    {
        offset = null;
        ReadOnlySpan<char> date = table.Grid.Cell(row, dateColumn);
        if (stamps.Kind == StampKind.Counted)
        {
            if (!CountedStamp.TryRead(date, out long counted, out bool isUtc)) return null;
            offset = isUtc ? 0 : null;
            return counted;
        }
        // A day's rows have one date, which need not be read again.
        bool isSame = _lastDate.HasDate && timeColumn >= 0 && (date.IsEmpty || date.SequenceEqual(_lastDateText));
        StampParts parts = _lastDate;
        if (!isSame)
        {
            if (!StampText.TryRead(date, out parts) || !parts.HasDate) return null;
            (_lastDate, _lastDateText) = (parts, timeColumn >= 0 ? date.ToString() : "");
        }
        offset = parts.OffsetMinutes;
        _minuteOfDay = parts.MinuteOfDay;
        if (timeColumn >= 0 || stamps.Kind == StampKind.Wide) _minuteOfDay = parts.MinuteOfDay = 0;
        if (parts.Minute(dayFirst, options.Year) is not long minute) return null;
        if (timeColumn < 0) return minute;
        if (TimeOf(table.Grid.Cell(row, timeColumn), ref offset) is not int time) return null;
        _minuteOfDay = time;
        return minute + time;
    }

    private int? TimeOf(ReadOnlySpan<char> time, ref int? offset)
    {
        if (stamps.Kind == StampKind.DateAndOrdinal)
            return int.TryParse(time, NumberStyles.None, CultureInfo.InvariantCulture, out int ordinal) ? (ordinal - stamps.FirstOrdinal) * stamps.StepMinutes!.Value : null;
        if (StampText.TryRead(time, out StampParts clock) && clock.HasTime)
        {
            offset = clock.OffsetMinutes ?? offset;
            return clock.MinuteOfDay;
        }
        return time.Length <= 4 && int.TryParse(time, NumberStyles.None, CultureInfo.InvariantCulture, out int hhmm) && hhmm <= 2400 && hhmm % 100 < 60
            ? (hhmm / 100 * 60) + (hhmm % 100) : null;
    }

    private int MinutesTo(int row, long startUtc, bool dayFirst)
    {
        bool ownDate = stamps.EndDate >= 0;
        if (MinuteOf(row, ownDate ? stamps.EndDate : stamps.Date, stamps.Kind == StampKind.DateAndTime ? stamps.EndTime : -1, dayFirst, out int? offset) is not long end) return 0;
        long minutes = end - (offset ?? 0) - startUtc;
        if (minutes <= 0 && !ownDate) minutes += 1440;
        return minutes is > 0 and < 100_000 ? (int)minutes : 0;
    }

    private bool IsOtherService(int row)
    {
        foreach (int column in values.Services)
            if (_isOtherService.Of(table.Grid.Cell(row, column))) return true;
        return values.Unit >= 0 && table.Grid.Cell(row, values.Unit) is { IsEmpty: false } unit && UnitWord.Of(unit) is null && _isOtherService.Of(unit);
    }

    private short? MeterOf(int row)
    {
        if (values.Meter < 0) return 0;
        string name = table.Grid.Text(row, values.Meter);
        if (options.Meter != "sum") return string.Equals(name, options.Meter, StringComparison.OrdinalIgnoreCase) ? (short)0 : null;
        if (!_meters.TryGetValue(name, out short index)) _meters[name] = index = (short)_meters.Count;
        return index;
    }

    private static MeterFlow? WayOf(string text, MeterOptions options)
    {
        foreach ((string name, MeterRole role) in options.Roles)
            if (string.Equals(name.Trim(), text, StringComparison.OrdinalIgnoreCase))
                return role switch { MeterRole.Export => MeterFlow.Export, MeterRole.Net => MeterFlow.Net, MeterRole.Ignore => null, _ => MeterFlow.Import };
        return HeaderWords.IsExport(text) ? MeterFlow.Export : HeaderWords.IsGeneration(text) ? null : HeaderWords.IsNet(text) ? MeterFlow.Net : MeterFlow.Import;
    }
}
