using System.Globalization;
using NodaTime;

namespace EnergySim.Files;

/// <summary>
/// Reads the open record format of the Australian market (meter data file format NEM12): 200 opens a channel, 300 holds a day, 400 qualifies parts of it.
/// Times are market time, UTC+10 all year. From general knowledge of the format.
/// </summary>
internal static class MarketRecords
{
    private static readonly Offset s_marketTime = Offset.FromHours(10);

    public static bool Is(CsvGrid grid) => grid.Rows > 2 && grid.Cell(0, 0) is "100" && grid.Cell(0, 1) is "NEM12";

    public static (MeterRows Rows, DateTimeZone? Zone) Read(CsvGrid grid, string file, MeterOptions options)
    {
        var told = new MeterRows();
        var problems = new ProblemList();
        told.Found("format", "record format of the Australian market (NEM12)", "record 100", 1);
        told.Found("clock", "market time, UTC+10:00 all year", "the format", 1);
        told.Found("stamps", "intervals counted from midnight", "the format", 1);
        var meters = new SortedDictionary<string, List<MeterRow>>(StringComparer.Ordinal);
        List<MeterRow>? channel = null;
        Channel head = default;
        int dayFrom = 0;
        for (int row = 1; row < grid.Rows; row++)
        {
            ReadOnlySpan<char> kind = grid.Cell(row, 0);
            if (kind is "200")
            {
                head = Open(grid, row, told, problems, file);
                channel = head.IsUsed ? meters.TryGetValue(head.Meter, out List<MeterRow>? list) ? list : meters[head.Meter] = [] : null;
            }
            else if (kind is "300" && channel is not null)
            {
                dayFrom = channel.Count;
                Day(grid, row, head, channel, problems, file);
            }
            else if (kind is "400" && channel is not null) Qualify(grid, row, channel, dayFrom);
        }
        problems.ThrowIfAny();
        told.Rows.AddRange(Choose(meters, file, options, told));
        return (told, options.Zone ?? DateTimeZone.ForOffset(s_marketTime));
    }

    private readonly record struct Channel(string Meter, MeterFlow Flow, MeterUnit Unit, int Minutes, bool IsUsed);

    private static Channel Open(CsvGrid grid, int row, MeterRows told, ProblemList problems, string file)
    {
        string suffix = grid.Text(row, 4), unit = grid.Text(row, 7);
        int.TryParse(grid.Cell(row, 8), NumberStyles.None, CultureInfo.InvariantCulture, out int minutes);
        MeterUnit? known = UnitWord.Of(unit);
        // E: taken from the grid; B: given to it. Q and K are reactive.
        bool isUsed = known is not null && suffix.Length > 0 && suffix[0] is 'E' or 'B';
        if (!isUsed) told.Notes.Add($"Channel \"{SafeText.Of(suffix)}\" ({SafeText.Of(unit)}) was left out: it is no active energy.");
        if (minutes is not (1 or 5 or 15 or 30 or 60)) problems.Add(new Problem { File = file, Line = grid.Line(row), Field = "interval length", Value = SafeText.Of(grid.Text(row, 8)), Rule = "is not 1, 5, 15, 30 or 60 minutes" });
        if (isUsed && !told.Findings.Exists(f => f.Subject == "unit")) told.Found("unit", UnitWord.Text(known!.Value), "record 200", 1);
        return new Channel(grid.Text(row, 1), suffix.StartsWith('B') ? MeterFlow.Export : MeterFlow.Import, known ?? MeterUnit.KWh, minutes, isUsed);
    }

    private static void Day(CsvGrid grid, int row, in Channel head, List<MeterRow> channel, ProblemList problems, string file)
    {
        if (head.Minutes == 0) return;
        if (!StampText.TryRead(grid.Cell(row, 1), out StampParts date) || date.Minute(false, null) is not long minute)
        {
            problems.Add(new Problem { File = file, Line = grid.Line(row), Field = "date", Value = SafeText.Of(grid.Text(row, 1)), Rule = "is no date" });
            return;
        }
        int count = 1440 / head.Minutes;
        if (grid.Width(row) < count + 2)
        {
            problems.Add(new Problem { File = file, Line = grid.Line(row), Rule = string.Create(CultureInfo.InvariantCulture, $"the record has {grid.Width(row) - 2} fields after the date where a day of {head.Minutes}-minute values has {count}") });
            return;
        }
        SpanMark mark = MarkOf(grid.Cell(row, 2 + count));
        for (int i = 0; i < count; i++)
        {
            ReadOnlySpan<char> cell = grid.Cell(row, 2 + i);
            double? kwh = null;
            if (!cell.IsEmpty && new NumberText(false).TryRead(cell, out double value) && value >= 0) kwh = value * UnitWord.Kwh(head.Unit, head.Minutes);
            else if (!cell.IsEmpty) problems.Add(new Problem { File = file, Line = grid.Line(row), Field = string.Create(CultureInfo.InvariantCulture, $"value {i + 1}"), Value = SafeText.Of(cell.ToString()), Rule = "is no number ≥ 0" });
            long start = (minute + (i * head.Minutes) - (s_marketTime.Seconds / 60)) * 60;
            channel.Add(new MeterRow(start, head.Minutes * 60, kwh, head.Flow, kwh is null ? SpanMark.Missing : mark, grid.Line(row)));
        }
    }

    private static void Qualify(CsvGrid grid, int row, List<MeterRow> channel, int dayFrom)
    {
        if (!int.TryParse(grid.Cell(row, 1), NumberStyles.None, CultureInfo.InvariantCulture, out int from) || !int.TryParse(grid.Cell(row, 2), NumberStyles.None, CultureInfo.InvariantCulture, out int to)) return;
        SpanMark mark = MarkOf(grid.Cell(row, 3));
        for (int i = Math.Max(1, from); i <= to && dayFrom + i <= channel.Count; i++)
            if (channel[dayFrom + i - 1].Kwh is not null) channel[dayFrom + i - 1] = channel[dayFrom + i - 1] with { Mark = mark };
    }

    // A actual; E estimated, F and S substituted; N none; V: see the 400 records.
    private static SpanMark MarkOf(ReadOnlySpan<char> quality) => quality.Length > 0 && quality[0] is 'E' or 'F' or 'S' ? SpanMark.Estimated : SpanMark.Measured;

    private static List<MeterRow> Choose(SortedDictionary<string, List<MeterRow>> meters, string file, MeterOptions options, MeterRows told)
    {
        if (meters.Count > 1 && options.Meter is null) told.Ask("--meter", $"The file holds {meters.Count} meters; which is wanted?", [.. meters.Keys.Select(SafeText.Of), "sum"]);
        told.ThrowIfAsking(file);
        if (options.Meter is string wanted && wanted != "sum")
            return meters.TryGetValue(wanted, out List<MeterRow>? one) ? one : throw new ArgumentException($"--meter {wanted}: the file has {string.Join(", ", meters.Keys.Select(SafeText.Of))}.");
        return MeterSum.Of(file, [.. meters.Values], told);
    }
}
