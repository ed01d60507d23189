using System.Globalization;

namespace EnergySim.Files;

/// <summary>Turns the readings of a register that counts up into the energy between them.</summary>
internal static class RegisterRows
{
    private const int LeastRows = 12, MostHours = 24;

    /// <summary>True when a column's numbers count up: never less than before but for a reset, and far above their differences.</summary>
    public static bool LooksLike(PortalTable table, int column, NumberText number, bool isNamed)
    {
        int up = 0, down = 0, equal = 0;
        double last = double.NaN, first = double.NaN, most = 0;
        for (int row = table.FirstRow; row < table.Grid.Rows; row++)
        {
            if (!table.HasWidth(row) || !number.TryRead(table.Grid.Cell(row, column), out double value)) continue;
            if (double.IsNaN(first)) first = value;
            if (!double.IsNaN(last))
            {
                _ = value > last ? up++ : value < last ? down++ : equal++;
                most = Math.Max(most, Math.Abs(value - last));
            }
            last = value;
        }
        int turns = up + down + equal;
        if (turns < (isNamed ? 2 : LeastRows)) return isNamed && turns > 0;
        int against = Math.Min(up, down);
        return isNamed ? against <= Math.Max(2, turns * 0.1) : against <= turns * 0.01 && up + down > turns * 0.3 && Math.Max(first, last) > most * 4;
    }

    /// <summary>The energy between readings, with its place in time: a row a usual interval, longer ones split evenly, resets missing.</summary>
    /// <param name="readings">Readings of one channel with their instants (s), unit kWh, in order of time.</param>
    /// <param name="stepSeconds">The usual distance, s.</param>
    /// <param name="rows">Takes the rows and what is said of them.</param>
    public static void Add(List<(long Second, PortalRow Row)> readings, int stepSeconds, MeterRows rows)
    {
        int resets = 0, splits = 0, gaps = 0;
        (long Second, PortalRow Row)? before = null;
        foreach ((long second, PortalRow row) in readings)
        {
            if (row.Value is not double value) continue;
            if (before is not (long, PortalRow) last)
            {
                before = (second, row);
                continue;
            }
            long length = second - last.Second;
            if (length <= 0)
            {
                if (value == last.Row.Value) continue;
                before = (second, row);
                continue;
            }
            double? kwh = (value - last.Row.Value!.Value) * UnitWord.Kwh(row.Unit, 60);
            if (kwh < 0)
            {
                kwh = null;
                resets++;
            }
            if (length > MostHours * 3600L)
            {
                kwh = null;
                gaps++;
            }
            long parts = length % stepSeconds == 0 ? length / stepSeconds : 1;
            SpanMark mark = kwh is null ? SpanMark.Missing : parts > 1 ? SpanMark.Split : row.IsEstimated ? SpanMark.Estimated : SpanMark.Measured;
            if (parts > 1 && kwh is not null) splits++;
            for (long p = 0; p < Math.Min(parts, 200_000); p++)
                rows.Rows.Add(new MeterRow(last.Second + (p * (length / parts)), (int)(length / parts), kwh / parts, row.Flow, mark, row.Line));
            before = (second, row);
        }
        void Say(int count, string text)
        {
            if (count > 0) rows.Notes.Add(string.Create(CultureInfo.InvariantCulture, $"{count:N0} {text}."));
        }
        Say(resets, "times the register stands lower than before (a reset or a new meter): that interval is missing");
        Say(splits, "differences span several intervals and were shared out evenly");
        Say(gaps, "differences span more than a day: their intervals are missing");
    }
}
