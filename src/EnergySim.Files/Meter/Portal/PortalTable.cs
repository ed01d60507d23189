using System.Text;

namespace EnergySim.Files;

/// <summary>The parts of an export: what stands before the data, the header, the data, and how their columns look.</summary>
internal sealed class PortalTable
{
    private const int Sample = 3000, Run = 64;

    private PortalTable(CsvGrid grid) => Grid = grid;

    public CsvGrid Grid { get; }

    /// <summary>Number of cells that rows of data have.</summary>
    public int Width { get; private set; }

    /// <summary>The first row of data.</summary>
    public int FirstRow { get; private set; }

    /// <summary>The row of headers; −1 where there is none.</summary>
    public int HeaderRow { get; private set; } = -1;

    public IReadOnlyList<ColumnProfile> Columns { get; private set; } = [];

    /// <summary>Whether stamps are numbers: seconds or days counted from some day.</summary>
    public bool HasCountedStamps { get; private set; }

    /// <summary>Finds the parts; null when no rows look like data.</summary>
    public static PortalTable? Of(CsvGrid grid)
    {
        var table = new PortalTable(grid);
        if (!table.FindData(counted: false) && !table.FindData(counted: true)) return null;
        table.FindHeader();
        table.LookAtColumns();
        return table;
    }

    /// <summary>True when a row has so many cells as rows of data have; separators at its end do not count.</summary>
    public bool HasWidth(int row)
    {
        int width = Grid.Width(row);
        if (Math.Abs(width - Width) <= 1) return true;
        while (width > Width && Grid.Cell(row, width - 1).IsEmpty) width--;
        return width == Width;
    }

    // Rows of data are those of one width that have a date in the same column.
    private bool FindData(bool counted)
    {
        var counts = new Dictionary<(int Width, int Column), (int Count, int First)>();
        int step = Math.Max(1, Grid.Rows / Sample);
        for (int row = 0; row < Grid.Rows; row += row < 200 ? 1 : step)
        {
            int width = Grid.Width(row);
            for (int c = 0; c < Math.Min(width, 12); c++)
            {
                ReadOnlySpan<char> cell = Grid.Cell(row, c);
                bool isStamp = counted ? CountedStamp.Is(cell) : StampText.TryRead(cell, out StampParts parts) && parts.HasDate;
                if (!isStamp || !HasNumberBeside(row, c)) continue;
                (int count, int first) = counts.GetValueOrDefault((width, c), (0, row));
                counts[(width, c)] = (count + 1, first);
                if (counted) break;
            }
        }
        if (counts.Count == 0) return false;
        KeyValuePair<(int Width, int Column), (int Count, int First)> best = counts.OrderByDescending(p => p.Value.Count).ThenBy(p => p.Key.Column).First();
        Width = best.Key.Width;
        FirstRow = best.Value.First;
        HasCountedStamps = counted;
        return best.Value.Count >= 1;
    }

    private bool HasNumberBeside(int row, int column)
    {
        for (int c = 0; c < Grid.Width(row); c++)
            if (c != column && NumberText.LooksNumeric(Grid.Cell(row, c))) return true;
        return false;
    }

    // Upwards from the data: lines of units have a blank where the stamp is, the header has not.
    private void FindHeader()
    {
        for (int row = FirstRow - 1; row >= 0 && row >= FirstRow - 6; row--)
        {
            if (!HasWidth(row)) break;
            if (Grid.Cell(row, 0).IsEmpty && Width > 1 && row > 0 && HasWidth(row - 1) && CountText(row) < Width) continue;
            if (CountText(row) == 0) break;
            // Two full lines of words: names, and units below them.
            bool isSecond = Width > 2 && row > 0 && Grid.Width(row - 1) == Width && CountText(row) == Width && CountText(row - 1) == Width && !HasNumberBeside(row - 1, -1);
            HeaderRow = isSecond ? row - 1 : row;
            break;
        }
    }

    private int CountText(int row)
    {
        int count = 0;
        for (int c = 0; c < Grid.Width(row); c++)
            if (!Grid.Cell(row, c).IsEmpty) count++;
        return count;
    }

    private void LookAtColumns()
    {
        var columns = new ColumnProfile[Width];
        for (int c = 0; c < Width; c++) columns[c] = new ColumnProfile { Index = c, Header = HeaderOf(c) };
        int step = Math.Max(1, (Grid.Rows - FirstRow) / Sample);
        for (int row = FirstRow; row < Grid.Rows; row++)
        {
            // Whole runs of rows: every second one alone would miss the half of a file whose channels alternate.
            if ((row - FirstRow) / Run % step != 0 || !HasWidth(row)) continue;
            for (int c = 0; c < Width; c++) columns[c].Take(Grid.Cell(row, c));
        }
        Columns = columns;
    }

    private string HeaderOf(int column)
    {
        if (HeaderRow < 0) return "";
        var text = new StringBuilder();
        for (int row = HeaderRow; row < FirstRow; row++)
        {
            ReadOnlySpan<char> cell = Grid.Cell(row, column);
            if (cell.IsEmpty) continue;
            if (text.Length > 0) text.Append(' ');
            text.Append(cell);
        }
        return text.ToString();
    }

    /// <summary>What stands outside the table, a cell each: titles, account lines, notes at the end.</summary>
    public IEnumerable<string> Around()
    {
        int top = HeaderRow >= 0 ? HeaderRow : FirstRow;
        for (int row = 0; row < top; row++)
            for (int c = 0; c < Grid.Width(row); c++) yield return Grid.Text(row, c);
        for (int row = Math.Max(FirstRow, Grid.Rows - 8); row < Grid.Rows; row++)
            if (!HasWidth(row))
                for (int c = 0; c < Grid.Width(row); c++) yield return Grid.Text(row, c);
    }
}
