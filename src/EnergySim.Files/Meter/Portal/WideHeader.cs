using System.Globalization;
using System.Text.RegularExpressions;

namespace EnergySim.Files;

/// <summary>Finds the columns of a table that has a row a day and a column an interval.</summary>
internal static partial class WideHeader
{
    private const int LeastColumns = 20;

    /// <summary>The columns; null where the headers are not those of such a table.</summary>
    public static StampLayout? Of(PortalTable table, int dateColumn)
    {
        if (table.HeaderRow < 0) return null;
        return ByTimes(table, dateColumn) ?? ByNumbers(table, dateColumn);
    }

    private static StampLayout? ByTimes(PortalTable table, int dateColumn)
    {
        var wide = new List<WideColumn>();
        bool isRange = false;
        for (int c = 0; c < table.Width; c++)
        {
            ReadOnlySpan<char> cell = table.Grid.Cell(table.HeaderRow, c);
            if (Clock().Match(cell.ToString()) is { Success: true } match) cell = match.Groups[1].Value;
            if (!StampText.TryRead(cell, out StampParts parts) || !parts.HasTime || parts.HasDate) continue;
            isRange |= parts.IsRange;
            wide.Add(new WideColumn(c, parts.MinuteOfDay));
        }
        if (wide.Count < LeastColumns) return null;
        int step = Step(wide);
        bool isEnd = !isRange && wide[0].Minute == step && wide[^1].Minute is 0 or 1440;
        if (isEnd) wide = [.. wide.Select(w => new WideColumn(w.Column, (w.Minute == 0 ? 1440 : w.Minute) - step))];
        return new StampLayout
        {
            Kind = StampKind.Wide,
            Date = dateColumn,
            Wide = wide,
            StepMinutes = step,
            Mark = StampMark.Start,
            MarkGround = isEnd ? "the columns name the ends of their intervals, from the first to midnight" : "the columns name the starts of their intervals, from midnight on",
        };
    }

    // 1 to 24 (25 when the clock goes back), or 1 to 48, 1 to 96; or from 0.
    private static StampLayout? ByNumbers(PortalTable table, int dateColumn)
    {
        var columns = new List<(int Column, int Number)>();
        for (int c = 0; c < table.Width; c++)
            if (c != dateColumn && Numbered().Match(table.Grid.Text(table.HeaderRow, c)) is { Success: true } match)
                columns.Add((c, int.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture)));
        if (columns.Count < LeastColumns) return null;
        int first = columns[0].Number;
        // 0000, 0015, …: hours and minutes without a colon.
        if (first is 0 or 15 or 30 or 100 && columns[^1].Number >= 2300)
        {
            bool isEnd = first > 0;
            int minutes = columns[1].Number - first is 15 or 30 ? columns[1].Number - first : 60;
            return Layout(dateColumn, [.. columns.Select(c => new WideColumn(c.Column, (c.Number / 100 * 60) + (c.Number % 100) - (isEnd ? minutes : 0)))], minutes);
        }
        if (first is not (0 or 1) || columns.Where((c, i) => c.Number != first + i).Any()) return null;
        int step = columns.Count <= 25 ? 60 : columns.Count <= 50 ? 30 : columns.Count <= 100 ? 15 : columns.Count <= 300 ? 5 : 1;
        return Layout(dateColumn, [.. columns.Select(c => new WideColumn(c.Column, (c.Number - first) * step))], step);
    }

    private static StampLayout Layout(int dateColumn, List<WideColumn> wide, int step) => new()
    {
        Kind = StampKind.Wide,
        Date = dateColumn,
        Wide = wide,
        StepMinutes = step,
        Mark = StampMark.Start,
        MarkGround = "the columns count the intervals of the day",
        IsCounted = wide.Count * step > 1440 || wide.Count is 24 or 48 or 96,
    };

    private static int Step(List<WideColumn> wide) =>
        wide.Zip(wide.Skip(1), (a, b) => b.Minute - a.Minute).Where(d => d > 0).GroupBy(d => d).MaxBy(g => g.Count())!.Key;

    [GeneratedRegex(@"^\D{0,20}?[ _:]?(\d{1,2}:\d\d.*)$")]
    private static partial Regex Clock();

    [GeneratedRegex(@"^(?:he|hr?|hour|hora|int|interval|period|p|slot|kwh|val(?:ue)?|v|q)?[ _.-]*0*?(\d{1,4})(?:[ _]?k?wh|h)?$", RegexOptions.IgnoreCase)]
    private static partial Regex Numbered();
}
