using System.Globalization;

namespace EnergySim.Files;

/// <summary>One row: its line, its stamp, and its number, or null where the field is empty or no number.</summary>
internal readonly record struct ProfileRow(int Line, Stamp Stamp, double? Value, bool IsEmpty);

/// <summary>The rows of a profile file with stamps and numbers read, each row for itself.</summary>
internal sealed class ProfileRows
{
    private readonly string _file;
    private readonly ProfileColumn _column;
    private readonly ProblemList _problems;
    private readonly StampPattern _pattern;
    private int[] _stampAt = [];
    private int _valueAt;
    private int _width;

    private ProfileRows(string file, ProfileColumn column, ProblemList problems)
    {
        (_file, _column, _problems) = (file, column, problems);
        _pattern = new StampPattern(column.Pattern, column.Year);
    }

    public List<ProfileRow> Rows { get; } = [];

    /// <summary>False when a row had no stamp that could be read: then the rows' order says nothing.</summary>
    public bool IsWhole { get; private set; } = true;

    /// <summary>True when stamps carry a year of their own.</summary>
    public bool HasYear => _pattern.HasYear;

    /// <summary>What problems call the stamp.</summary>
    public string StampField { get; private set; } = "";

    /// <summary>The rows; null when the file can not be opened or lacks a column.</summary>
    public static ProfileRows? Read(string file, ProfileColumn column, ProblemList problems)
    {
        if (InputText.Read(file, problems) is not string text) return null;
        var rows = new ProfileRows(file, column, problems);
        var lines = new CsvLines(text);
        if (!rows.ReadHeader(ref lines)) return null;
        while (!lines.IsAtEnd && lines.NextLine()) rows.ReadRow(ref lines);
        if (rows.Rows.Count >= 2 || !rows.IsWhole) return rows;
        problems.Add(new Problem { File = file, Rule = "the file has fewer than two rows below its header" });
        return null;
    }

    public void Report(in ProfileRow row, string field, string? value, string rule) =>
        _problems.Add(new Problem { File = _file, Line = row.Line, Field = field, Value = value, Rule = rule });

    private bool ReadHeader(ref CsvLines lines)
    {
        var headers = new List<string>();
        if (lines.NextLine())
            while (lines.NextField(out ReadOnlySpan<char> field)) headers.Add(field.ToString());
        _width = headers.Count;
        int before = _problems.Count;
        _valueAt = Find(headers, _column.Column);
        _stampAt = _column.StampColumns.Count == 0 ? [0] : [.. _column.StampColumns.Select(name => Find(headers, name))];
        if (_problems.Count > before) return false;
        StampField = string.Join(' ', _stampAt.Select(at => headers[at])) is { Length: > 0 } name ? name : "stamp";
        return true;
    }

    private int Find(List<string> headers, string name)
    {
        int at = headers.IndexOf(name.Trim());
        if (at >= 0 && headers.LastIndexOf(name.Trim()) == at) return at;
        string rule = at >= 0 ? "names more than one column" : $"names no column{Nearest.Hint(name, headers)}";
        _problems.Add(new Problem { File = _file, Line = 1, Field = "header", Value = name, Rule = rule });
        return 0;
    }

    private void ReadRow(ref CsvLines lines)
    {
        int line = lines.Line, index = 0;
        ReadOnlySpan<char> value = [], stamp = [];
        string[]? parts = _stampAt.Length > 1 ? new string[_stampAt.Length] : null;
        for (; lines.NextField(out ReadOnlySpan<char> field); index++)
        {
            if (index == _valueAt) value = field;
            if (parts is null && index == _stampAt[0]) stamp = field;
            if (parts is not null && Array.IndexOf(_stampAt, index) is >= 0 and var part) parts[part] = field.ToString();
        }
        if (index != _width)
        {
            string count = string.Create(CultureInfo.InvariantCulture, $"the row has {index} fields where the header has {_width}");
            _problems.Add(new Problem { File = _file, Line = line, Rule = count });
            IsWhole = false;
            return;
        }
        if (parts is not null) stamp = string.Join(' ', parts);
        string? fault = _pattern.Read(stamp, out Stamp read);
        IsWhole &= fault is null;
        if (fault is not null) _problems.Add(new Problem { File = _file, Line = line, Field = StampField, Value = stamp.ToString(), Rule = fault });
        double? number = Number(line, value);
        if (fault is null) Rows.Add(new ProfileRow(line, read, number, value.IsEmpty));
    }

    // A gigawatt in watts: above it is a damaged file, whose sums would leave the range of money.
    private const double MostOfAnyHome = 1e9;

    private double? Number(int line, ReadOnlySpan<char> text)
    {
        if (text.IsEmpty && _column.ClockChange == ClockChange.SplitAndDrop) return null;
        string? fault = null;
        if (text.IsEmpty) fault = "is empty; every interval needs a number";
        else if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)) fault = "is not a number";
        else if (!double.IsFinite(number)) fault = "is not a finite number";
        else if (number > MostOfAnyHome) fault = "is more than any home, in any unit";
        else if (number < 0) fault = "is below 0; a profile holds what is used or produced, never the net of both";
        else return number;
        _problems.Add(new Problem { File = _file, Line = line, Field = _column.Column, Value = text.ToString(), Rule = fault });
        return null;
    }
}
