namespace EnergySim.Engine;

/// <summary>Sums of every flow and of what every limit withheld, over a span.</summary>
public sealed class RunFlows
{
    private readonly double[] _flowsKwh = new double[Ledger.ColumnCount];
    private readonly double[] _withheldKwh = new double[Limits.SiteCount];
    private readonly double[] _boundHours = new double[Limits.Count];

    internal RunFlows() { }

    /// <summary>Energy of a flow over the span, kWh. Not for <see cref="LedgerColumn.StoredKwh"/> and <see cref="LedgerColumn.Dark"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The column is no flow.</exception>
    public double Kwh(LedgerColumn flow)
    {
        if (flow is LedgerColumn.StoredKwh or LedgerColumn.Dark)
            throw new ArgumentOutOfRangeException(nameof(flow), flow, "This column is not a flow.");
        return _flowsKwh[(int)flow];
    }

    /// <summary>Energy withheld at a site of the step, kWh (AC or DC as <see cref="LimitSite"/> says).</summary>
    public double WithheldKwh(LimitSite site) => _withheldKwh[(int)site];

    /// <summary>Hours in which a limit bound, once an interval.</summary>
    public double BoundHours(Limit limit) => _boundHours[(int)limit];

    /// <summary>Takes sums over intervals as energy and hours.</summary>
    /// <param name="sumKw">A sum a column, kW.</param>
    /// <param name="withheldKw">A sum a site, kW.</param>
    /// <param name="boundIntervals">A count a limit.</param>
    /// <param name="stepHours">Length of an interval, h.</param>
    internal void Fill(ReadOnlySpan<double> sumKw, ReadOnlySpan<double> withheldKw, ReadOnlySpan<int> boundIntervals, double stepHours)
    {
        for (int i = 0; i < _flowsKwh.Length; i++) _flowsKwh[i] = sumKw[i] * stepHours;
        for (int i = 0; i < _withheldKwh.Length; i++) _withheldKwh[i] = withheldKw[i] * stepHours;
        for (int i = 0; i < _boundHours.Length; i++) _boundHours[i] = boundIntervals[i] * stepHours;
    }
}
