namespace EnergySim.Bound;

/// <summary>
/// A linear programme: columns with bounds, rows with bounds, one objective to be made least. It knows no solver. Beside the rows stand choices,
/// of which a linear programme can only say what follows from both sides, and claims, which ask of a solution whether it is one.
/// </summary>
internal sealed class Programme
{
    /// <summary>The interval of what belongs to none: it comes last where a solver goes through time.</summary>
    public const int Spanning = int.MaxValue;

    private readonly List<(double Low, double High)> _columns = [];
    private readonly List<Row> _rows = [];
    private readonly List<int> _intervalOfColumn = [], _intervalOfRow = [];
    private readonly List<Choice> _choices = [];
    private readonly List<(string Name, Func<double[], bool> Holds)> _claims = [];

    /// <summary>What is made least.</summary>
    public Expression Objective { get; } = new();

    /// <summary>The interval that columns and rows belong to which are added now.</summary>
    public int Interval { get; set; } = Spanning;

    public int ColumnCount => _columns.Count;

    public IReadOnlyList<(double Low, double High)> Columns => _columns;

    public IReadOnlyList<Row> Rows => _rows;

    public IReadOnlyList<Choice> Choices => _choices;

    public int IntervalOfColumn(int column) => _intervalOfColumn[column];

    public int IntervalOfRow(int row) => _intervalOfRow[row];

    /// <summary>Adds a column.</summary>
    /// <returns>Its index.</returns>
    public int Column(double low = 0, double high = double.PositiveInfinity)
    {
        _columns.Add((low, high));
        _intervalOfColumn.Add(Interval);
        return _columns.Count - 1;
    }

    /// <summary>Gives a column another lower bound.</summary>
    public void SetLow(int column, double low) => _columns[column] = (low, _columns[column].High);

    /// <summary>Says that low ≤ expression ≤ high.</summary>
    public void Row(Expression expression, double low, double high)
    {
        _rows.Add(new Row(expression, low - expression.Constant, high - expression.Constant));
        _intervalOfRow.Add(Interval);
    }

    /// <summary>Says that an expression is at least 0.</summary>
    public void AtLeastZero(Expression expression) => Row(expression, 0, double.PositiveInfinity);

    /// <summary>A column that equals an expression, which is never below a bound.</summary>
    public int Named(Expression expression, double low)
    {
        int column = Column(low, Math.Max(low, HighOf(expression)));
        Row(new Expression().Plus(expression).Minus(column), 0, 0);
        return column;
    }

    /// <summary>A column of at least 0 and at least the expression: its positive part, once it costs something.</summary>
    public int PositivePart(Expression expression)
    {
        int column = Column(0, Math.Max(0, HighOf(expression)));
        AtLeastZero(new Expression().Plus(column).Plus(expression, -1));
        return column;
    }

    /// <summary>
    /// Says that one expression or the other is at least 0. The rows say only what follows of it: measured by how far each can be below, the two
    /// together miss no more than one whole.
    /// </summary>
    /// <param name="name">What a bound that does not keep to it must be told to leave open.</param>
    /// <param name="one">One side.</param>
    /// <param name="other">The other.</param>
    public void Either(string name, Expression one, Expression other)
    {
        (double oneLow, double otherLow) = (LowOf(one), LowOf(other));
        if (oneLow >= 0 || otherLow >= 0) return;
        int first = Named(one, oneLow), second = Named(other, otherLow);
        _choices.Add(new Choice(name, first, second, Math.Max(-oneLow, Small), Math.Max(-otherLow, Small)));
        if (double.IsFinite(oneLow) && double.IsFinite(otherLow) && -oneLow > Small && -otherLow > Small)
            Row(new Expression().Plus(first, -1 / oneLow).Plus(second, -1 / otherLow), -1, double.PositiveInfinity);
    }

    /// <summary>Says what a solution may break, as no row can say it.</summary>
    public void Claim(string name, Func<double[], bool> holds) => _claims.Add((name, holds));

    /// <summary>The names of choices and claims that a solution does not keep to.</summary>
    public IEnumerable<string> BrokenIn(double[] values) =>
        [.. _choices.Where(c => c.MissedIn(values) > 0).Select(c => c.Name), .. _claims.Where(c => !c.Holds(values)).Select(c => c.Name)];

    /// <summary>The least that columns let an expression be.</summary>
    public double LowOf(Expression expression) => -HighOf(new Expression().Plus(expression, -1));

    /// <summary>The most that columns let an expression be.</summary>
    public double HighOf(Expression expression)
    {
        double high = expression.Constant;
        foreach ((int column, double factor) in expression.Terms) high += factor * (factor > 0 ? _columns[column].High : _columns[column].Low);
        return high;
    }

    private const double Small = 1e-9;
}

/// <summary>A row of a programme: its bounds are those of the terms alone.</summary>
internal sealed record Row(Expression Terms, double Low, double High);

/// <summary>Two columns of which one is at least 0.</summary>
/// <param name="Name">What is left open where neither is.</param>
/// <param name="One">A column.</param>
/// <param name="Other">The other.</param>
/// <param name="OneSize">The most by which it can be below.</param>
/// <param name="OtherSize">The same of the other.</param>
internal sealed record Choice(string Name, int One, int Other, double OneSize, double OtherSize)
{
    private const double SmallShare = 1e-6;

    /// <summary>Share by which both are below 0; 0 where one is not.</summary>
    public double MissedIn(ReadOnlySpan<double> values)
    {
        double missed = Math.Min(-values[One] / OneSize, -values[Other] / OtherSize);
        return missed > SmallShare ? missed : 0;
    }
}
