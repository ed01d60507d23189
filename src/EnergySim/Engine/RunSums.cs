namespace EnergySim.Engine;

/// <summary>The sums of a run, kWh, hours and counts.</summary>
public sealed class RunSums
{
    private readonly double[] _flowsKwh;
    private readonly double[] _withheldKwh;
    private readonly double[] _boundHours;

    internal RunSums(in SumsBook book, double startKwh, double endKwh, double stepHours, UnservedByCause unservedKwh, MeterColumns meter)
    {
        _flowsKwh = new double[Ledger.ColumnCount];
        for (int i = 0; i < _flowsKwh.Length; i++) _flowsKwh[i] = book.SumKw[i] * stepHours;
        DarkIntervals = (int)book.SumKw[(int)LedgerColumn.Dark];
        _withheldKwh = new double[Limits.SiteCount];
        for (int i = 0; i < _withheldKwh.Length; i++) _withheldKwh[i] = book.WithheldKw[i] * stepHours;
        _boundHours = new double[Limits.Count];
        for (int i = 0; i < _boundHours.Length; i++) _boundHours[i] = book.BoundIntervals[i] * stepHours;
        StartKwh = startKwh;
        EndKwh = endKwh;
        UnservedKwh = unservedKwh;
        Meter = meter;
    }

    /// <summary>Energy in the cells at the start of the span, kWh.</summary>
    public double StartKwh { get; }

    /// <summary>Energy in the cells at its end, kWh.</summary>
    public double EndKwh { get; }

    /// <summary>Number of dark intervals.</summary>
    public int DarkIntervals { get; }

    /// <summary>What the meters saw.</summary>
    public MeterColumns Meter { get; }

    /// <summary>House load not served, by what withheld it, kWh.</summary>
    public UnservedByCause UnservedKwh { get; }

    /// <summary>House load that was off by a rule of the outage, kWh. It was not asked for, and is not unserved.</summary>
    public double ShedKwh { get; internal init; }

    /// <summary>Energy of a flow over the span, kWh. Not for <see cref="LedgerColumn.StoredKwh"/> and <see cref="LedgerColumn.Dark"/>.</summary>
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
}
