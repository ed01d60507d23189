namespace EnergySim.Bound;

/// <summary>
/// The equations of a step along the central path: H·dx − Aᵀ·dy = f and A·dx = r, where A holds a programme's rows and H is a diagonal. A row
/// that is no equation has a slack, which is a column after the programme's own. Columns and rows of one interval stand together in time order,
/// what spans intervals stands last: the fill stays a few entries a row. Regularised so, the matrix is quasi-definite and any order of elimination
/// will do (R. J. Vanderbei, SIAM Journal on Optimization 5, 1995; from memory).
/// </summary>
internal sealed class KktSystem
{
    // Keeps every pivot off zero: a step stays a little nearer to where it begins (a proximal step), and less so the shorter steps become.
    private const double Near = 1e-8;
    private const double FixedWidth = 1e-10;

    private readonly int[] _active, _rowStart, _column, _columnNode, _rowNode, _slackOf;
    private readonly double[] _factor, _fixed, _upper, _diagonal, _right, _solved, _curve, _restX, _restY;
    private readonly SparseFactor _matrix;

    public KktSystem(Programme programme)
    {
        int columns = programme.ColumnCount, active = 0;
        _fixed = new double[columns];
        _active = new int[columns];
        for (int c = 0; c < columns; c++)
        {
            (double low, double high) = programme.Columns[c];
            bool isFixed = high - low <= FixedWidth;
            _active[c] = isFixed ? -1 : active++;
            _fixed[c] = isFixed ? low : 0;
        }
        RowCount = programme.Rows.Count;
        _slackOf = new int[RowCount];
        int slacks = 0;
        for (int r = 0; r < RowCount; r++) _slackOf[r] = programme.Rows[r].High - programme.Rows[r].Low > FixedWidth ? active + slacks++ : -1;
        (Low, High, Cost, Right) = (new double[active + slacks], new double[active + slacks], new double[active + slacks], new double[RowCount]);
        for (int c = 0; c < columns; c++)
            if (_active[c] >= 0) (Low[_active[c]], High[_active[c]]) = programme.Columns[c];
        foreach ((int column, double factor) in programme.Objective.Terms)
            if (_active[column] >= 0) Cost[_active[column]] += factor;
        (_rowStart, _column, _factor) = Rows(programme);
        (_columnNode, _rowNode) = Order(programme, active);
        (_matrix, _upper) = Matrix(active);
        int size = active + RowCount;
        (_diagonal, _right, _solved) = (new double[size], new double[size], new double[size]);
        (_curve, _restX, _restY) = (new double[Low.Length], new double[Low.Length], new double[RowCount]);
    }

    public int RowCount { get; }

    /// <summary>Lower bounds of columns that can move, then of slacks.</summary>
    public double[] Low { get; }

    public double[] High { get; }

    public double[] Cost { get; }

    /// <summary>What each row comes to, less its fixed columns; with its slack, 0.</summary>
    public double[] Right { get; }

    /// <summary>A·x.</summary>
    public void Activity(double[] x, double[] rows)
    {
        for (int r = 0; r < rows.Length; r++)
        {
            double sum = _slackOf[r] >= 0 ? -x[_slackOf[r]] : 0;
            for (int e = _rowStart[r]; e < _rowStart[r + 1]; e++) sum += _factor[e] * x[_column[e]];
            rows[r] = sum;
        }
    }

    /// <summary>Aᵀ·y.</summary>
    public void Transposed(double[] y, double[] columns)
    {
        Array.Clear(columns);
        for (int r = 0; r < y.Length; r++)
        {
            if (_slackOf[r] >= 0) columns[_slackOf[r]] = -y[r];
            for (int e = _rowStart[r]; e < _rowStart[r + 1]; e++) columns[_column[e]] += _factor[e] * y[r];
        }
    }

    /// <summary>Factors the equations for a diagonal H ≥ 0.</summary>
    public void Factor(double[] curve)
    {
        curve.CopyTo(_curve, 0);
        for (int c = 0; c < _columnNode.Length; c++) _diagonal[_columnNode[c]] = -(curve[c] + Near);
        for (int r = 0; r < RowCount; r++) _diagonal[_rowNode[r]] = Near + (_slackOf[r] >= 0 ? 1 / curve[_slackOf[r]] : 0);
        _matrix.Factor(_upper, _diagonal);
    }

    /// <summary>Solves the equations, and once more for what rounding left.</summary>
    public void Solve(double[] force, double[] rows, double[] dx, double[] dy)
    {
        Array.Clear(dx);
        Array.Clear(dy);
        Improve(force, rows, dx, dy);
        Transposed(dy, _restX);
        for (int j = 0; j < dx.Length; j++) _restX[j] += force[j] - ((_curve[j] + (j < _columnNode.Length ? Near : 0)) * dx[j]);
        Activity(dx, _restY);
        for (int r = 0; r < RowCount; r++) _restY[r] = rows[r] - _restY[r] - (Near * dy[r]);
        Improve(_restX, _restY, dx, dy);
    }

    /// <summary>The programme's columns, the fixed ones too.</summary>
    public double[] ColumnsOf(double[] x)
    {
        var values = new double[_active.Length];
        for (int c = 0; c < values.Length; c++) values[c] = _active[c] >= 0 ? x[_active[c]] : _fixed[c];
        return values;
    }

    private void Improve(double[] force, double[] rows, double[] dx, double[] dy)
    {
        for (int c = 0; c < _columnNode.Length; c++) _solved[_columnNode[c]] = -force[c];
        for (int r = 0; r < RowCount; r++) _solved[_rowNode[r]] = rows[r] + (_slackOf[r] >= 0 ? force[_slackOf[r]] / _curve[_slackOf[r]] : 0);
        _matrix.Solve(_solved);
        for (int c = 0; c < _columnNode.Length; c++) dx[c] += _solved[_columnNode[c]];
        for (int r = 0; r < RowCount; r++)
        {
            double by = _solved[_rowNode[r]];
            dy[r] += by;
            if (_slackOf[r] is >= 0 and int slack) dx[slack] += (force[slack] - by) / _curve[slack];
        }
    }

    // Terms of one column added up, fixed columns taken to the right.
    private (int[] Start, int[] Column, double[] Factor) Rows(Programme programme)
    {
        var start = new int[RowCount + 1];
        var entries = new List<(int Column, double Factor)>();
        int[] at = new int[programme.ColumnCount];
        Array.Fill(at, -1);
        for (int r = 0; r < RowCount; r++)
        {
            Row row = programme.Rows[r];
            double right = 0;
            foreach ((int column, double factor) in row.Terms.Terms)
            {
                if (_active[column] < 0) right -= factor * _fixed[column];
                else if (at[column] >= start[r]) entries[at[column]] = (_active[column], entries[at[column]].Factor + factor);
                else
                {
                    at[column] = entries.Count;
                    entries.Add((_active[column], factor));
                }
            }
            start[r + 1] = entries.Count;
            if (_slackOf[r] >= 0) (Low[_slackOf[r]], High[_slackOf[r]], Right[r]) = (row.Low + right, row.High + right, 0);
            else Right[r] = row.Low + right;
        }
        return (start, [.. entries.Select(e => e.Column)], [.. entries.Select(e => e.Factor)]);
    }

    private (int[] Columns, int[] Rows) Order(Programme programme, int active)
    {
        var nodes = new List<(int At, bool IsRow, int Index)>(active + RowCount);
        for (int c = 0; c < _active.Length; c++)
            if (_active[c] >= 0) nodes.Add((programme.IntervalOfColumn(c), false, _active[c]));
        for (int r = 0; r < RowCount; r++) nodes.Add((programme.IntervalOfRow(r), true, r));
        nodes.Sort();
        int[] columns = new int[active], rows = new int[RowCount];
        for (int n = 0; n < nodes.Count; n++) (nodes[n].IsRow ? rows : columns)[nodes[n].Index] = n;
        return (columns, rows);
    }

    private (SparseFactor Matrix, double[] Upper) Matrix(int active)
    {
        int size = active + RowCount;
        var start = new int[size + 1];
        for (int r = 0; r < RowCount; r++)
            for (int e = _rowStart[r]; e < _rowStart[r + 1]; e++) start[Math.Max(_rowNode[r], _columnNode[_column[e]]) + 1]++;
        for (int n = 0; n < size; n++) start[n + 1] += start[n];
        int[] rows = new int[_factor.Length], next = start[..size];
        var upper = new double[_factor.Length];
        for (int r = 0; r < RowCount; r++)
            for (int e = _rowStart[r]; e < _rowStart[r + 1]; e++)
            {
                int one = _rowNode[r], other = _columnNode[_column[e]], place = next[Math.Max(one, other)]++;
                (rows[place], upper[place]) = (Math.Min(one, other), _factor[e]);
            }
        return (new SparseFactor(size, start, rows), upper);
    }
}
