namespace EnergySim.Engine;

/// <summary>Holds the clamps of one interval until it is known whether the interval stands: off the grid a step may be taken back.</summary>
internal struct PendingBook() : IPendingBook
{
    private readonly double[] _withheldKw = new double[Limits.SiteCount];
    private readonly double[] _flows = new double[Ledger.ColumnCount];
    private CauseBook _causes;

    /// <inheritdoc/>
    public readonly double GeneratorKw => _flows[(int)LedgerColumn.ImportKw];

    /// <inheritdoc/>
    public readonly bool WantsEnergy => _causes.WantsEnergy;

    /// <inheritdoc/>
    public static bool KeepsFlows => true;

    /// <inheritdoc/>
    public static bool KeepsGross => true;

    /// <inheritdoc/>
    public void Cut(LimitSite site, Scalar withheldKw)
    {
        _withheldKw[(int)site] += Math.Max(0, withheldKw.Value);
        _causes.Cut(site, withheldKw);
    }

    /// <inheritdoc/>
    public readonly void Flow(LedgerColumn column, Scalar value) => _flows[(int)column] = value.Value;

    /// <inheritdoc/>
    public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) { }

    /// <inheritdoc/>
    public readonly void Close() { }

    /// <inheritdoc/>
    public void Clear()
    {
        _causes.Clear();
        Array.Clear(_withheldKw);
        Array.Clear(_flows);
    }

    /// <inheritdoc/>
    public readonly void PassOn<TBook>(ref TBook book) where TBook : struct, IBook<Scalar>
    {
        for (int site = 0; site < Limits.SiteCount; site++)
            if (_withheldKw[site] > 0) book.Cut((LimitSite)site, new Scalar(_withheldKw[site]));
        for (int column = 0; column < Ledger.ColumnCount; column++)
            if (_flows[column] != 0) book.Flow((LedgerColumn)column, new Scalar(_flows[column]));
        book.Close();
    }

    /// <inheritdoc/>
    public readonly UnservedByCause Causes(Scalar unservedKw) => _causes.Causes(unservedKw);
}
