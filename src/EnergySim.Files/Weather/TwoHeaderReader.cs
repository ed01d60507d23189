using System.Globalization;
using EnergySim.Solar;

namespace EnergySim.Files;

/// <summary>
/// Reads the CSV of satellite data bases: a row of names and a row of values that tell the place and the units, a row of columns, then
/// rows whose stamps are the middle of the interval, on the clock that "Time Zone" names.
/// </summary>
internal sealed class TwoHeaderReader
{
    private static readonly string[] s_parts = ["Year", "Month", "Day", "Hour", "Minute"];
    private static readonly (WeatherField Field, string Name, string? Units, string[] Known)[] s_columns =
    [
        (WeatherField.Global, "GHI", "GHI Units", ["w/m2"]),
        (WeatherField.DirectNormal, "DNI", "DNI Units", ["w/m2"]),
        (WeatherField.Diffuse, "DHI", "DHI Units", ["w/m2"]),
        (WeatherField.Air, "Temperature", "Temperature Units", ["c", "f"]),
        (WeatherField.Wind, "Wind Speed", "Wind Speed Units", ["m/s"]),
        (WeatherField.Albedo, "Surface Albedo", null, []),
        (WeatherField.Snow, "Snow Depth", "Snow Depth Units", ["cm"]),
    ];

    private readonly string _file;
    private readonly ProblemList _problems;
    private readonly Dictionary<string, string> _facts = new(StringComparer.OrdinalIgnoreCase);
    private readonly int[] _stampAt = [-1, -1, -1, -1, -1];
    private WeatherCell?[] _cells = [];
    private int _width;

    private TwoHeaderReader(string file, ProblemList problems) => (_file, _problems) = (file, problems);

    /// <summary>True when the first line names a place's facts.</summary>
    public static bool Fits(ReadOnlySpan<char> text)
    {
        var lines = new CsvLines(text);
        bool latitude = false, longitude = false;
        if (!lines.NextLine()) return false;
        while (lines.NextField(out ReadOnlySpan<char> field))
        {
            latitude |= field.Equals("Latitude", StringComparison.OrdinalIgnoreCase);
            longitude |= field.Equals("Longitude", StringComparison.OrdinalIgnoreCase);
        }
        if (!latitude || !longitude || !lines.NextLine() || !lines.NextLine()) return false;
        // An index column without a name may stand before it.
        while (lines.NextField(out ReadOnlySpan<char> field))
            if (!field.IsEmpty) return field.Equals(s_parts[0], StringComparison.OrdinalIgnoreCase) || field is "0";
        return false;
    }

    /// <summary>The rows; null, with problems, when the header can not be used.</summary>
    public static WeatherTable? Read(string file, string text, ProblemList problems)
    {
        var reader = new TwoHeaderReader(file, problems);
        var lines = new CsvLines(text);
        if (reader.ReadHeader(ref lines) is not WeatherTable table) return null;
        while (!lines.IsAtEnd && lines.NextLine()) reader.ReadRow(table, ref lines);
        return table;
    }

    private WeatherTable? ReadHeader(ref CsvLines lines)
    {
        List<string> names = NextFields(ref lines), values = NextFields(ref lines), columns = NextFields(ref lines);
        for (int i = 0; i < Math.Min(names.Count, values.Count); i++)
            if (names[i].Length > 0) _facts.TryAdd(names[i], values[i]);
        _width = columns.Count;
        int before = _problems.Count;
        double latitude = Fact("Latitude", new Bounds(-90, 90)), longitude = Fact("Longitude", new Bounds(-180, 180));
        double hours = Fact("Time Zone", new Bounds(-12, 14)), elevation = Fact("Elevation", new Bounds(-500, 9000));
        for (int part = 0; part < s_parts.Length; part++) _stampAt[part] = Find(columns, s_parts[part]) ?? Missing(s_parts[part], columns);
        IReadOnlyList<WeatherCell> cells = CellsOf(columns);
        if (_problems.Count > before) return null;
        _cells = new WeatherCell?[columns.Count];
        foreach (WeatherCell cell in cells) _cells[cell.At] = cell;
        return new WeatherTable(_file, _problems, cells)
        {
            Source = $"{Path.GetFileName(_file)}: {_facts.GetValueOrDefault("Source", "satellite data")} {_facts.GetValueOrDefault("Location ID", "")}".TrimEnd(),
            Place = new Place(latitude, longitude, elevation),
            OffsetMinutes = (int)Math.Round(60 * hours),
            Mark = WeatherMark.Middle,
            StampField = "Year to Minute",
        };
    }

    private List<WeatherCell> CellsOf(List<string> columns)
    {
        var cells = new List<WeatherCell>();
        foreach ((WeatherField field, string name, string? units, string[] known) in s_columns)
        {
            bool isNeeded = field is WeatherField.Global or WeatherField.Air;
            if (Find(columns, name) is not int at)
            {
                if (isNeeded) Missing(name, columns);
                continue;
            }
            string? unit = units is null ? null : _facts.GetValueOrDefault(units);
            if (unit is not null && !known.Contains(unit, StringComparer.OrdinalIgnoreCase))
                _problems.Add(new Problem { File = _file, Line = 2, Field = units, Value = unit, Rule = $"is not {string.Join(" or ", known)}" });
            cells.Add(new WeatherCell(field, at, name) { IsFahrenheit = field == WeatherField.Air && string.Equals(unit, "f", StringComparison.OrdinalIgnoreCase) });
        }
        return cells;
    }

    private void ReadRow(WeatherTable table, ref CsvLines lines)
    {
        int line = lines.Line, index = 0;
        Span<int> stamp = stackalloc int[s_parts.Length];
        Span<double?> row = new double?[WeatherTable.FieldCount];
        bool isStamp = true;
        for (; lines.NextField(out ReadOnlySpan<char> field); index++)
        {
            int part = Array.IndexOf(_stampAt, index);
            if (part >= 0) isStamp &= DateParts.Number(table, line, part, field, out stamp[part]);
            else if (index < _cells.Length && _cells[index] is WeatherCell cell) row[(int)cell.Field] = table.Number(line, cell, field);
        }
        if (index < _width)
        {
            table.Report(line, null, null, string.Create(CultureInfo.InvariantCulture, $"the row has {index} fields where the header has {_width}"));
            return;
        }
        if (!isStamp) return;
        if (stamp[3] is < 0 or > 23 || stamp[4] is < 0 or > 59)
            table.Report(line, "Hour and Minute", string.Create(CultureInfo.InvariantCulture, $"{stamp[3]}:{stamp[4]:00}"), "is no time of the day");
        else if (DateParts.Minute(table, line, stamp[0], stamp[1], stamp[2]) is long midnight)
            table.Add(line, midnight + (60 * stamp[3]) + stamp[4], row);
    }

    private double Fact(string name, Bounds bounds)
    {
        string text = _facts.GetValueOrDefault(name, "");
        string? fault = double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) ? bounds.FaultOf(number) : "is not a number";
        if (fault is not null) _problems.Add(new Problem { File = _file, Line = 2, Field = name, Value = text, Rule = fault });
        return number;
    }

    private static int? Find(List<string> columns, string name)
    {
        int at = columns.FindIndex(c => c.Equals(name, StringComparison.OrdinalIgnoreCase));
        return at < 0 ? null : at;
    }

    private int Missing(string name, List<string> columns)
    {
        _problems.Add(new Problem { File = _file, Line = 3, Field = "header", Value = name, Rule = $"names no column{Nearest.Hint(name, columns)}" });
        return -1;
    }

    private static List<string> NextFields(ref CsvLines lines)
    {
        var fields = new List<string>();
        if (lines.NextLine())
            while (lines.NextField(out ReadOnlySpan<char> field)) fields.Add(field.ToString());
        return fields;
    }
}
