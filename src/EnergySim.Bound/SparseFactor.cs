namespace EnergySim.Bound;

/// <summary>
/// L·D·Lᵀ of a sparse symmetric matrix whose pattern stays while its numbers change: which entries fill in is worked out once. No pivoting: the
/// matrices here are quasi-definite, so that every order of elimination will do and only the fill depends on it. Pattern by the elimination tree:
/// T. A. Davis, Direct Methods for Sparse Linear Systems, SIAM 2006, chapter 4 (from memory).
/// </summary>
internal sealed class SparseFactor
{
    private readonly int _size;
    private readonly int[] _upperStart, _upperRow, _rowStart, _rowColumn, _columnStart, _columnRow, _filled;
    private readonly double[] _lower, _diagonal, _work;

    /// <param name="size">Rows of the matrix.</param>
    /// <param name="upperStart">Where each column's entries begin; the last value is their number.</param>
    /// <param name="upperRow">Rows of the entries above the diagonal, column after column.</param>
    public SparseFactor(int size, int[] upperStart, int[] upperRow)
    {
        (_size, _upperStart, _upperRow) = (size, upperStart, upperRow);
        (_rowStart, _rowColumn) = Pattern();
        _columnStart = new int[size + 1];
        foreach (int column in _rowColumn) _columnStart[column + 1]++;
        for (int i = 0; i < size; i++) _columnStart[i + 1] += _columnStart[i];
        _columnRow = new int[_rowColumn.Length];
        _filled = new int[size];
        for (int row = 0; row < size; row++)
            for (int e = _rowStart[row]; e < _rowStart[row + 1]; e++) _columnRow[_columnStart[_rowColumn[e]] + _filled[_rowColumn[e]]++] = row;
        (_lower, _diagonal, _work) = (new double[_rowColumn.Length], new double[size], new double[size]);
    }

    /// <summary>Factors the matrix.</summary>
    /// <param name="upper">The entries above the diagonal, in the order of the pattern.</param>
    /// <param name="diagonal">The diagonal; the sign of each pivot is that of its entry.</param>
    public void Factor(double[] upper, double[] diagonal)
    {
        double[] work = _work, lower = _lower;
        int[] columnRow = _columnRow;
        Array.Clear(_filled);
        for (int row = 0; row < _size; row++)
        {
            for (int e = _upperStart[row]; e < _upperStart[row + 1]; e++) work[_upperRow[e]] = upper[e];
            double pivot = diagonal[row];
            for (int e = _rowStart[row]; e < _rowStart[row + 1]; e++)
            {
                int column = _rowColumn[e], from = _columnStart[column], until = from + _filled[column]++;
                double value = work[column];
                work[column] = 0;
                for (int l = from; l < until; l++) work[columnRow[l]] -= lower[l] * value;
                double scaled = value / _diagonal[column];
                lower[until] = scaled;
                pivot -= value * scaled;
            }
            // A pivot lost to rounding is put back on its side; refinement mends what that costs.
            _diagonal[row] = pivot * diagonal[row] > 0 ? pivot : diagonal[row];
        }
    }

    /// <summary>Solves in place.</summary>
    public void Solve(double[] right)
    {
        for (int column = 0; column < _size; column++)
        {
            double value = right[column];
            if (value == 0) continue;
            for (int l = _columnStart[column]; l < _columnStart[column + 1]; l++) right[_columnRow[l]] -= _lower[l] * value;
        }
        for (int column = _size - 1; column >= 0; column--)
        {
            double value = right[column] / _diagonal[column];
            for (int l = _columnStart[column]; l < _columnStart[column + 1]; l++) value -= _lower[l] * right[_columnRow[l]];
            right[column] = value;
        }
    }

    // Row by row: an entry above the diagonal fills in along the elimination tree up to its row.
    private (int[] Start, int[] Column) Pattern()
    {
        int[] parent = new int[_size], seen = new int[_size], start = new int[_size + 1];
        Array.Fill(parent, -1);
        Array.Fill(seen, -1);
        var columns = new List<int>(4 * _upperRow.Length);
        for (int row = 0; row < _size; row++)
        {
            seen[row] = row;
            for (int e = _upperStart[row]; e < _upperStart[row + 1]; e++)
                for (int column = _upperRow[e]; seen[column] != row; column = parent[column])
                {
                    if (parent[column] < 0) parent[column] = row;
                    seen[column] = row;
                    columns.Add(column);
                }
            System.Runtime.InteropServices.CollectionsMarshal.AsSpan(columns)[start[row]..].Sort();
            start[row + 1] = columns.Count;
        }
        return (start, [.. columns]);
    }
}
