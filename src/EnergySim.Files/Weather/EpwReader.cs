using System.Globalization;
using EnergySim.Solar;

namespace EnergySim.Files;

/// <summary>
/// Reads EPW: eight header lines that name themselves, then 35 fields a row; stamps are the end of the hour, 1 to 24, in standard time.
/// Missing codes are those of the format's data dictionary, a code a field: 999 is missing for wind, snow and albedo, and a legal irradiance.
/// </summary>
internal static class EpwReader
{
    public const string FirstWord = "LOCATION";
    private const int LeastFields = 22, MinuteAt = 4;

    private static readonly WeatherCell[] s_cells =
    [
        new(WeatherField.Air, 6, "dry bulb") { MissingFrom = 99.9 },
        new(WeatherField.Global, 13, "global horizontal") { MissingFrom = 9999 },
        new(WeatherField.DirectNormal, 14, "direct normal") { MissingFrom = 9999 },
        new(WeatherField.Diffuse, 15, "diffuse horizontal") { MissingFrom = 9999 },
        new(WeatherField.Wind, 21, "wind speed") { MissingFrom = 999 },
        new(WeatherField.Snow, 30, "snow depth") { MissingFrom = 999 },
        new(WeatherField.Albedo, 32, "albedo") { MissingFrom = 999 },
    ];

    /// <summary>The rows; null, with problems, when the header can not be used.</summary>
    public static WeatherTable? Read(string file, string text, ProblemList problems)
    {
        var lines = new CsvLines(text);
        lines.NextLine();
        if (TableOf(file, FieldsOf(ref lines), problems) is not WeatherTable table) return null;
        bool hasPeriods = false;
        while (!hasPeriods && lines.NextLine())
        {
            List<string> header = FieldsOf(ref lines);
            if (!header[0].Equals("DATA PERIODS", StringComparison.OrdinalIgnoreCase)) continue;
            hasPeriods = true;
            if (header.Count > 2 && header[2] == "1") continue;
            table.Report(lines.Line, "DATA PERIODS", header.Count > 2 ? header[2] : "", "rows an hour; only files of one row an hour can be read");
            return null;
        }
        if (!hasPeriods)
        {
            problems.Add(new Problem { File = file, Rule = "the header has no line DATA PERIODS" });
            return null;
        }
        var cells = new WeatherCell?[s_cells[^1].At + 1];
        foreach (WeatherCell cell in s_cells) cells[cell.At] = cell;
        while (!lines.IsAtEnd && lines.NextLine()) ReadRow(table, ref lines, cells);
        return table;
    }

    private static void ReadRow(WeatherTable table, ref CsvLines lines, WeatherCell?[] cells)
    {
        int line = lines.Line, index = 0;
        Span<int> stamp = stackalloc int[MinuteAt + 1];
        Span<double?> row = new double?[WeatherTable.FieldCount];
        bool isStamp = true;
        for (; lines.NextField(out ReadOnlySpan<char> field); index++)
        {
            if (index <= MinuteAt) isStamp &= DateParts.Number(table, line, index, field, out stamp[index]);
            else if (index < cells.Length && cells[index] is WeatherCell cell) row[(int)cell.Field] = table.Number(line, cell, field);
        }
        if (index < LeastFields)
        {
            table.Report(line, null, null, string.Create(CultureInfo.InvariantCulture, $"the row has {index} fields; at least {LeastFields} are needed"));
            return;
        }
        if (!isStamp) return;
        if (stamp[3] is < 1 or > 24)
            table.Report(line, "hour", stamp[3].ToString(CultureInfo.InvariantCulture), "is not 1 to 24, the hour that ends then");
        else if (stamp[MinuteAt] is not (0 or 60))
            table.Report(line, "minute", stamp[MinuteAt].ToString(CultureInfo.InvariantCulture), "is not 0 or 60; only files of one row an hour can be read");
        else if (DateParts.Minute(table, line, stamp[0], stamp[1], stamp[2]) is long midnight)
            table.Add(line, midnight + (60 * stamp[3]), row);
    }

    private static WeatherTable? TableOf(string file, List<string> location, ProblemList problems)
    {
        int before = problems.Count;
        double latitude = Number("latitude", 6, new Bounds(-90, 90)), longitude = Number("longitude", 7, new Bounds(-180, 180));
        double hours = Number("time zone", 8, new Bounds(-12, 14)), elevation = Number("elevation", 9, new Bounds(-500, 9000));
        if (problems.Count > before) return null;
        return new WeatherTable(file, problems, s_cells)
        {
            Source = $"{Path.GetFileName(file)}: {location[1]} ({location[4]})",
            Place = new Place(latitude, longitude, elevation),
            OffsetMinutes = (int)Math.Round(60 * hours),
            StepMinutes = 60,
            Mark = WeatherMark.End,
            SaysTypical = location[4].Contains("TMY", StringComparison.OrdinalIgnoreCase),
            StampField = "date and hour",
        };

        double Number(string name, int at, Bounds bounds)
        {
            string text = at < location.Count ? location[at] : "";
            string? fault = double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) ? bounds.FaultOf(number) : "is not a number";
            if (fault is not null) problems.Add(new Problem { File = file, Line = 1, Field = name, Value = text, Rule = fault });
            return number;
        }
    }

    private static List<string> FieldsOf(ref CsvLines lines)
    {
        var fields = new List<string>();
        while (lines.NextField(out ReadOnlySpan<char> field)) fields.Add(field.ToString());
        return fields;
    }
}
