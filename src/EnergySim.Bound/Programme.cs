namespace EnergySim.Bound;

/// <summary>A linear programme: columns with bounds, rows with bounds, one objective to be made least. It knows no solver.</summary>
internal sealed class Programme
{
    /// <summary>The interval of what belongs to none: it comes last where a solver goes through time.</summary>
    public const int Spanning = int.MaxValue;

    private readonly List<(double Low, double High)> _columns = [];
    private readonly List<Row> _rows = [];
    private readonly List<int> _intervalOfColumn = [], _intervalOfRow = [];

    /// <summary>The interval that columns and rows belong to which are added now.</summary>
    public int Interval { get; set; } = Spanning;

    /// <summary>What is made least.</summary>
    public Expression Objective { get; } = new();

    public int ColumnCount => _columns.Count;

    public int IntervalOfColumn(int column) => _intervalOfColumn[column];

    public int IntervalOfRow(int row) => _intervalOfRow[row];

    public IReadOnlyList<(double Low, double High)> Columns => _columns;

    public IReadOnlyList<Row> Rows => _rows;

    /// <summary>Adds a column.</summary>
    /// <returns>Its index.</returns>
    public int Column(double low = 0, double high = double.PositiveInfinity)
    {
        _columns.Add((low, high));
        _intervalOfColumn.Add(Interval);
        return _columns.Count - 1;
    }

    /// <summary>Says that low ≤ expression ≤ high.</summary>
    public void Row(Expression expression, double low, double high)
    {
        _rows.Add(new Row(expression, low - expression.Constant, high - expression.Constant));
        _intervalOfRow.Add(Interval);
    }

    /// <summary>A column that equals an expression; the expression itself where it is one already.</summary>
    public int Named(Expression expression, double low = double.NegativeInfinity)
    {
        int column = Column(low);
        Row(expression.Minus(column), 0, 0);
        return column;
    }

    /// <summary>A column of at least 0 and at least the expression: its positive part, once it costs something.</summary>
    public int PositivePart(Expression expression)
    {
        int column = Column();
        Row(expression.Minus(column), double.NegativeInfinity, 0);
        return column;
    }
}

/// <summary>A row of a programme: its bounds are those of the terms alone.</summary>
internal sealed record Row(Expression Terms, double Low, double High);

/// <summary>A sum of columns with factors, and a constant.</summary>
internal sealed class Expression
{
    private readonly List<(int Column, double Factor)> _terms = [];

    public IReadOnlyList<(int Column, double Factor)> Terms => _terms;

    public double Constant { get; private set; }

    public Expression Plus(int column, double factor = 1)
    {
        if (factor != 0) _terms.Add((column, factor));
        return this;
    }

    public Expression Minus(int column) => Plus(column, -1);

    public Expression Plus(double constant)
    {
        Constant += constant;
        return this;
    }

    public Expression Plus(Expression other, double factor = 1)
    {
        foreach ((int column, double share) in other._terms) Plus(column, share * factor);
        Constant += other.Constant * factor;
        return this;
    }

    /// <summary>The part of it that is above zero where no column is below.</summary>
    public Expression Charges()
    {
        Expression charges = new Expression().Plus(Math.Max(0, Constant));
        foreach ((int column, double factor) in _terms)
            if (factor > 0) charges.Plus(column, factor);
        return charges;
    }

    public double ValueIn(ReadOnlySpan<double> columns)
    {
        double value = Constant;
        foreach ((int column, double factor) in _terms) value += factor * columns[column];
        return value;
    }
}
