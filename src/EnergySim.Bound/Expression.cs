namespace EnergySim.Bound;

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

    public Expression Minus(Expression other) => Plus(other, -1);

    /// <summary>The part of it that is above zero where no column is below.</summary>
    public Expression Charges()
    {
        Expression charges = new Expression().Plus(Math.Max(0, Constant));
        foreach ((int column, double factor) in _terms)
            if (factor > 0) charges.Plus(column, factor);
        return charges;
    }

    /// <summary>The part of it that is below zero where no column is, with its sign turned.</summary>
    public Expression Credits() => new Expression().Minus(this).Charges();

    public double ValueIn(ReadOnlySpan<double> columns)
    {
        double value = Constant;
        foreach ((int column, double factor) in _terms) value += factor * columns[column];
        return value;
    }
}
