using System.Globalization;
using EnergySim.Strategies;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Cli;

/// <summary>A week of set-points as seven lines of 48 signs.</summary>
internal static class SetPointWeek
{
    private const int CellsPerDay = 48, MinutesPerCell = 30;

    public const string Legend = "D serves the house   C charges from the grid   S sells   · charges from solar only   (blank: no data)";

    public static IEnumerable<string> Lines(TimeAxis axis, SetPoints setPoints, LocalDate first)
    {
        var cells = new char[7][];
        for (int d = 0; d < cells.Length; d++) cells[d] = [.. Enumerable.Repeat(' ', CellsPerDay)];
        int firstDay = TimeAxis.DayOfDate(first);
        for (int i = 0; i < axis.Count; i++)
        {
            int day = axis.LocalDayOf(i) - firstDay, cell = axis.LocalMinuteOf(i) / MinutesPerCell;
            if (day is < 0 or > 6) continue;
            char sign = SignOf(setPoints.Rows[setPoints.Picks[i]]);
            for (int c = cell; c < Math.Min(CellsPerDay, cell + Math.Max(1, axis.StepMinutes / MinutesPerCell)); c++) cells[day][c] = sign;
        }
        return cells.Select((row, d) => string.Create(CultureInfo.InvariantCulture, $"{first.PlusDays(d):ddd MMM d}").PadRight(11) + new string(row).TrimEnd());
    }

    private static char SignOf(SetPointRow row) =>
        !double.IsInfinity(row.SellDownKwh) ? 'S' : row.GridCeilingKwh > 0 ? 'C' : double.IsInfinity(row.ImportTargetKw) ? '·' : 'D';
}
