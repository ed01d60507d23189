using System.Globalization;

namespace EnergySim.Files;

/// <summary>The columns of a weather file on its intervals, with missing values told or filled.</summary>
internal sealed class WeatherValues(WeatherTable table, List<int> rows, int stepMinutes, double gapHours, List<string> repairs, List<string> notes)
{
    /// <summary>A column in which nothing may be missing; null when the file has none or nothing in it. What is missing is a problem.</summary>
    public double[]? Needed(WeatherField field)
    {
        if (table.Columns[(int)field] is not List<double?> column) return null;
        bool isNeeded = field is WeatherField.Global or WeatherField.Air;
        if (!isNeeded && column.TrueForAll(v => v is null)) return null;
        var values = new double[rows.Count];
        int filled = 0;
        for (int i = 0; i < values.Length; i++)
        {
            if (column[rows[i]] is double value)
            {
                values[i] = value;
                continue;
            }
            int to = i;
            while (to < values.Length && column[rows[to]] is null) to++;
            if (i > 0 && to < values.Length && (to - i) * stepMinutes <= gapHours * 60)
            {
                double before = values[i - 1], after = column[rows[to]]!.Value;
                for (int j = i; j < to; j++) values[j] = before + ((after - before) * (j - i + 1) / (to - i + 1));
                filled += to - i;
            }
            else
            {
                table.Report(table.Lines[rows[i]], table.NameOf(field), null, string.Create(CultureInfo.InvariantCulture,
                    $"is missing{(to - i > 1 ? $" for {to - i:N0} rows" : "")}; gaps are filled only up to the hours that the options allow ({gapHours:0.##})"));
            }
            i = to - 1;
        }
        if (filled > 0)
            repairs.Add(string.Create(CultureInfo.InvariantCulture, $"{table.NameOf(field)}: {filled:N0} missing values were filled on straight lines."));
        return values;
    }

    /// <summary>A column that calculations can do without; null, with a note, when anything of it is missing.</summary>
    public double[]? Optional(WeatherField field)
    {
        if (table.Columns[(int)field] is not List<double?> column) return null;
        var values = new double[rows.Count];
        int missing = 0;
        for (int i = 0; i < values.Length; i++)
        {
            if (column[rows[i]] is double value) values[i] = value;
            else missing++;
        }
        if (missing == 0) return values;
        notes.Add(string.Create(CultureInfo.InvariantCulture, $"{table.NameOf(field)} is missing in {missing:N0} of {values.Length:N0} rows and is not used."));
        return null;
    }
}
