namespace EnergySim.Files;

/// <summary>A table of text cut into rows and cells. Quotes may hold separators and line breaks; blank lines are left out.</summary>
internal sealed class CsvGrid
{
    private const int MostLineLength = 1 << 20;
    private static readonly char[] s_separators = ['\t', ';', '|', ','];
    private readonly string _text;
    private readonly List<(int Start, int Length)> _cells;
    private readonly List<int> _firstCell = [0];
    private readonly List<int> _lines = [];

    private CsvGrid(string text, char separator)
    {
        (_text, Separator) = (text, separator);
        _cells = new List<(int, int)>(text.Length / 8);
        Cut();
    }

    public char Separator { get; }

    public int Rows => _lines.Count;

    /// <summary>Cuts a text with the separator that fits it best.</summary>
    public static CsvGrid Of(string text, string file)
    {
        int nul = text.IndexOf('\0', StringComparison.Ordinal);
        if (nul >= 0)
            throw new ProblemsException([new Problem { File = file, Line = LineAt(text, nul), Rule = "the file has NUL bytes here; it was damaged on its way, export it again" }]);
        for (int from = 0; from < text.Length;)
        {
            int end = text.IndexOf('\n', from);
            if (end < 0) end = text.Length;
            if (end - from > MostLineLength)
                throw new ProblemsException([new Problem { File = file, Line = LineAt(text, from), Rule = "the line is longer than a million letters; this is no table of readings" }]);
            from = end + 1;
        }
        return new CsvGrid(text, Best(text));
    }

    /// <summary>Number of cells of a row; blank ones at its end count.</summary>
    public int Width(int row) => _firstCell[row + 1] - _firstCell[row];

    /// <summary>Number of the row's line in the file, from 1.</summary>
    public int Line(int row) => _lines[row];

    /// <summary>A cell without blanks and quotes around it; nothing where the row is shorter.</summary>
    public ReadOnlySpan<char> Cell(int row, int column)
    {
        if (column >= Width(row)) return [];
        (int start, int length) = _cells[_firstCell[row] + column];
        ReadOnlySpan<char> cell = _text.AsSpan(start, length).Trim(" \t\u00A0\u202F\uFEFF");
        if (cell.Length >= 2 && cell[0] == '"' && cell[^1] == '"') cell = cell[1..^1].Trim();
        // A spreadsheet's sign for "take this as text".
        return cell.Length > 1 && cell[0] == '\'' ? cell[1..] : cell;
    }

    public string Text(int row, int column) => Cell(row, column).ToString();

    public bool IsBlank(int row)
    {
        for (int c = 0; c < Width(row); c++)
            if (!Cell(row, c).IsEmpty) return false;
        return true;
    }

    // The separator that cuts most lines into the same number of cells; of equals, the one that is never a decimal mark.
    private static char Best(string text)
    {
        char best = ',';
        double most = 0;
        foreach (char separator in s_separators)
        {
            var counts = new Dictionary<int, int>();
            int lines = 0;
            foreach (ReadOnlySpan<char> line in text.AsSpan().EnumerateLines())
            {
                if (line.IsWhiteSpace()) continue;
                if (lines++ > 400) break;
                int count = 0;
                bool quoted = false;
                foreach (char c in line)
                    if (c == '"') quoted = !quoted;
                    else if (c == separator && !quoted) count++;
                if (count > 0) counts[count] = counts.GetValueOrDefault(count) + 1;
            }
            if (counts.Count == 0) continue;
            double share = counts.Values.Max() / (double)Math.Max(1, lines);
            if (share > most + 0.15) (best, most) = (separator, share);
        }
        return best;
    }

    private void Cut()
    {
        int at = 0, line = 1;
        while (at < _text.Length)
        {
            int first = _cells.Count, startLine = line;
            at = CutRow(at, ref line);
            bool blank = true;
            for (int c = first; c < _cells.Count && blank; c++) blank = _text.AsSpan(_cells[c].Start, _cells[c].Length).IsWhiteSpace();
            if (blank)
            {
                _cells.RemoveRange(first, _cells.Count - first);
                continue;
            }
            _lines.Add(startLine);
            _firstCell.Add(_cells.Count);
        }
    }

    private int CutRow(int at, ref int line)
    {
        int start = at;
        bool quoted = false;
        for (; at < _text.Length; at++)
        {
            char c = _text[at];
            if (c == '"')
            {
                // A quote opens at the beginning of a cell only; elsewhere it is a letter like others.
                if (quoted || _text.AsSpan(start, at - start).IsWhiteSpace()) quoted = !quoted;
            }
            else if (c == '\n' || (c == '\r' && (at + 1 >= _text.Length || _text[at + 1] != '\n')))
            {
                line++;
                if (!quoted || !ClosesSoon(at)) break;
            }
            else if (c == Separator && !quoted)
            {
                _cells.Add((start, at - start));
                start = at + 1;
            }
        }
        int end = at > start && at < _text.Length && _text[at] == '\n' && _text[at - 1] == '\r' ? at - 1 : at;
        _cells.Add((start, end - start));
        return at + 1;
    }

    // A quote that is never closed must not swallow the file.
    private bool ClosesSoon(int at) => _text.AsSpan(at, Math.Min(2000, _text.Length - at)).Contains('"');

    private static int LineAt(string text, int at) => text.AsSpan(0, at).Count('\n') + 1;

    /// <summary>The separator in words.</summary>
    public string SeparatorText => Separator switch
    {
        '\t' => "tab",
        ';' => "semicolon",
        '|' => "bar",
        _ => "comma",
    };
}
