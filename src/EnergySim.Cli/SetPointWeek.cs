using System.Globalization;
using EnergySim.Studies.Control;

namespace EnergySim.Cli;

/// <summary>A week of set-points as seven lines of 48 signs.</summary>
internal static class SetPointWeek
{
    private const int CellsPerDay = 48, MinutesPerCell = 30;

    public const string Legend = "D serves the house   C charges from the grid   S sells   · charges from solar only   (blank: no data)";

    public static IEnumerable<string> Lines(WantedWeek week)
    {
        var cells = new char[7][];
        for (int d = 0; d < cells.Length; d++) cells[d] = [.. Enumerable.Repeat(' ', CellsPerDay)];
        foreach (WantedSpan span in week.Spans)
            for (int c = span.FromMinute / MinutesPerCell; c < Math.Min(CellsPerDay, (span.ToMinute + MinutesPerCell - 1) / MinutesPerCell); c++) cells[span.Day][c] = SignOf(span.Wanted);
        return cells.Select((row, d) => string.Create(CultureInfo.InvariantCulture, $"{week.First.PlusDays(d):ddd MMM d}").PadRight(11) + new string(row).TrimEnd());
    }

    private static char SignOf(Wanted wanted) => wanted switch { Wanted.Sells => 'S', Wanted.Charges => 'C', Wanted.Serves => 'D', _ => '·' };
}
