namespace EnergySim.Files;

/// <summary>Walks the lines and fields of comma-separated text. Quotes may stand around a field, not around a line break.</summary>
internal ref struct CsvLines(ReadOnlySpan<char> text)
{
    private ReadOnlySpan<char> _rest = text;
    private ReadOnlySpan<char> _line;
    private bool _hasField;

    /// <summary>Number of the line, from 1.</summary>
    public int Line { get; private set; }

    /// <summary>The line as it stands.</summary>
    public readonly ReadOnlySpan<char> Text => _line;

    /// <summary>True when nothing but blank lines follows.</summary>
    public readonly bool IsAtEnd => _rest.IsWhiteSpace();

    /// <summary>Goes to the next line.</summary>
    public bool NextLine()
    {
        if (_rest.IsEmpty) return false;
        int end = _rest.IndexOf('\n');
        _line = end < 0 ? _rest : _rest[..end];
        _rest = end < 0 ? [] : _rest[(end + 1)..];
        if (_line.Length > 0 && _line[^1] == '\r') _line = _line[..^1];
        _hasField = true;
        Line++;
        return true;
    }

    /// <summary>Takes the next field of the line, without the blanks and quotes around it.</summary>
    public bool NextField(out ReadOnlySpan<char> field)
    {
        field = [];
        if (!_hasField) return false;
        ReadOnlySpan<char> start = _line.TrimStart();
        int end;
        if (start.Length > 0 && start[0] == '"' && start[1..].IndexOf('"') is >= 0 and var close)
        {
            field = start.Slice(1, close).Trim();
            start = start[(close + 2)..];
            end = start.IndexOf(',');
        }
        else
        {
            end = _line.IndexOf(',');
            field = (end < 0 ? _line : _line[..end]).Trim();
            start = _line;
        }
        _hasField = end >= 0;
        _line = end < 0 ? [] : start[(end + 1)..];
        return true;
    }
}
