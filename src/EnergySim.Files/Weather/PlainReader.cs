using System.Globalization;

namespace EnergySim.Files;

/// <summary>Reads plain CSV whose columns are declared.</summary>
internal sealed class PlainReader
{
    private readonly string _file;
    private readonly WeatherColumns _columns;
    private readonly ProblemList _problems;
    private readonly StampPattern _pattern;
    private readonly List<WeatherCell> _cells = [];
    private int[] _stampAt = [];
    private int _width;

    private PlainReader(string file, WeatherColumns columns, ProblemList problems)
    {
        (_file, _columns, _problems) = (file, columns, problems);
        _pattern = new StampPattern(columns.Pattern, null);
    }

    /// <summary>The rows; null, with problems, when the header can not be used.</summary>
    public static WeatherTable? Read(string file, string text, WeatherColumns columns, ProblemList problems)
    {
        if (PatternFault(columns.Pattern) is string fault)
        {
            problems.Add(new Problem { File = file, Field = "pattern", Value = columns.Pattern, Rule = fault });
            return null;
        }
        if (PlaceFault(columns) is (string field, double number, string rule))
        {
            problems.Add(new Problem { File = file, Field = field, Value = number.ToString(CultureInfo.InvariantCulture), Rule = rule });
            return null;
        }
        var reader = new PlainReader(file, columns, problems);
        var lines = new CsvLines(text);
        if (reader.ReadHeader(ref lines) is not WeatherTable table) return null;
        while (!lines.IsAtEnd && lines.NextLine()) reader.ReadRow(table, ref lines);
        return table;
    }

    private static string? PatternFault(string? pattern) =>
        pattern is null ? null
        : StampPattern.FaultOf(pattern) ?? (pattern.Contains("YYYY", StringComparison.Ordinal) ? null : "names no year (YYYY); weather stamps carry theirs");

    private static (string Field, double Number, string Rule)? PlaceFault(WeatherColumns columns)
    {
        if (new Bounds(-90, 90).FaultOf(columns.Place.LatitudeDegrees) is string latitude) return ("latitude", columns.Place.LatitudeDegrees, latitude);
        return new Bounds(-180, 180).FaultOf(columns.Place.LongitudeDegrees) is string longitude ? ("longitude", columns.Place.LongitudeDegrees, longitude) : null;
    }

    private WeatherTable? ReadHeader(ref CsvLines lines)
    {
        var headers = new List<string>();
        if (lines.NextLine())
            while (lines.NextField(out ReadOnlySpan<char> field)) headers.Add(field.ToString());
        _width = headers.Count;
        int before = _problems.Count;
        _stampAt = _columns.StampColumns.Count == 0 ? [0] : [.. _columns.StampColumns.Select(name => Find(headers, name))];
        Add(WeatherField.Global, _columns.Global);
        Add(WeatherField.DirectNormal, _columns.DirectNormal);
        Add(WeatherField.Diffuse, _columns.Diffuse);
        Add(WeatherField.Air, _columns.Air);
        Add(WeatherField.Wind, _columns.Wind);
        Add(WeatherField.Albedo, _columns.Albedo);
        Add(WeatherField.Snow, _columns.Snow);
        if (_problems.Count > before) return null;
        return new WeatherTable(_file, _problems, _cells)
        {
            Source = Path.GetFileName(_file),
            Place = _columns.Place,
            OffsetMinutes = _columns.StandardOffset.Seconds / 60,
            Mark = _columns.Mark,
            StampField = string.Join(' ', _stampAt.Select(at => headers[at])) is { Length: > 0 } name ? name : "stamp",
        };

        void Add(WeatherField field, WeatherColumn? column)
        {
            if (column is null) return;
            _cells.Add(new WeatherCell(field, Find(headers, column.Header), column.Header.Trim())
            {
                MissingCodes = column.MissingCodes,
                IsFahrenheit = field == WeatherField.Air && _columns.IsAirFahrenheit,
            });
        }
    }

    private int Find(List<string> headers, string name)
    {
        int at = headers.IndexOf(name.Trim());
        if (at >= 0 && headers.LastIndexOf(name.Trim()) == at) return at;
        string rule = at >= 0 ? "names more than one column" : $"names no column{Nearest.Hint(name, headers)}";
        _problems.Add(new Problem { File = _file, Line = 1, Field = "header", Value = name, Rule = rule });
        return 0;
    }

    private void ReadRow(WeatherTable table, ref CsvLines lines)
    {
        int line = lines.Line, index = 0;
        ReadOnlySpan<char> stamp = [];
        string[]? parts = _stampAt.Length > 1 ? new string[_stampAt.Length] : null;
        Span<double?> row = new double?[WeatherTable.FieldCount];
        for (; lines.NextField(out ReadOnlySpan<char> field); index++)
        {
            if (parts is null && index == _stampAt[0]) stamp = field;
            if (parts is not null && Array.IndexOf(_stampAt, index) is >= 0 and var part) parts[part] = field.ToString();
            foreach (WeatherCell cell in _cells)
                if (cell.At == index) row[(int)cell.Field] = table.Number(line, cell, field);
        }
        if (index != _width)
        {
            table.Report(line, null, null, string.Create(CultureInfo.InvariantCulture, $"the row has {index} fields where the header has {_width}"));
            return;
        }
        if (parts is not null) stamp = string.Join(' ', parts);
        if (_pattern.Read(stamp, out Stamp read) is string fault) table.Report(line, table.StampField, stamp.ToString(), fault);
        else table.Add(line, read.Minute + (read.OffsetMinutes is int own ? table.OffsetMinutes - own : 0), row);
    }
}
