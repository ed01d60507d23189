namespace EnergySim.Engine;

/// <summary>Holds the clamps of one interval until it is known whether the interval stands: off the grid a step may be taken back.</summary>
internal struct PendingBook() : IBook<Scalar>
{
    private readonly double[] _withheldKw = new double[Limits.SiteCount];
    private readonly double[] _flows = new double[Ledger.ColumnCount];

    /// <inheritdoc/>
    public readonly void Cut(LimitSite site, Scalar withheldKw) => _withheldKw[(int)site] += Math.Max(0, withheldKw.Value);

    /// <inheritdoc/>
    public readonly void Flow(LedgerColumn column, Scalar value) => _flows[(int)column] = value.Value;

    /// <inheritdoc/>
    public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) { }

    /// <inheritdoc/>
    public readonly void Close() { }

    /// <summary>Forgets all.</summary>
    public readonly void Clear()
    {
        Array.Clear(_withheldKw);
        Array.Clear(_flows);
    }

    /// <summary>What was withheld at a site, kW.</summary>
    public readonly double WithheldKw(LimitSite site) => _withheldKw[(int)site];

    /// <summary>Hands everything to the book that keeps it, and closes the interval there.</summary>
    public readonly void PassOn<TBook>(ref TBook book) where TBook : struct, IBook<Scalar>
    {
        for (int site = 0; site < Limits.SiteCount; site++)
            if (_withheldKw[site] > 0) book.Cut((LimitSite)site, new Scalar(_withheldKw[site]));
        for (int column = 0; column < Ledger.ColumnCount; column++)
            if (_flows[column] != 0) book.Flow((LedgerColumn)column, new Scalar(_flows[column]));
        book.Close();
    }

    /// <summary>
    /// What left the house unserved: the clamps of rule 5 where the cells were asked, else (the cells were charging) those of rule 3.
    /// Standby is served first, so the last kW withheld are the house's: causes are taken from the last to act backwards.
    /// </summary>
    internal readonly UnservedByCause Causes(Scalar unservedKw)
    {
        var causes = new UnservedByCause();
        double left = unservedKw.Value;
        if (left <= 0) return causes;
        bool asked = WithheldKw(LimitSite.Rule5Floor) + WithheldKw(LimitSite.Rule5DischargeRate) + WithheldKw(LimitSite.Rule5Inverter)
            + WithheldKw(LimitSite.Rule5InverterBreaker) + WithheldKw(LimitSite.Rule5Busbar) > 0;
        if (asked)
        {
            causes.DischargeRate = Take(LimitSite.Rule5DischargeRate, ref left);
            causes.Inverter = Take(LimitSite.Rule5Inverter, ref left);
            causes.InverterBreaker = Take(LimitSite.Rule5InverterBreaker, ref left);
            causes.Busbar = Take(LimitSite.Rule5Busbar, ref left);
            causes.Energy = left;
        }
        else
        {
            // Solar was left for the cells, so the way to the house was what bound: the tightest limit takes what no clamp names.
            causes.Inverter = Take(LimitSite.Rule3Inverter, ref left);
            causes.InverterBreaker = Take(LimitSite.Rule3InverterBreaker, ref left);
            causes.Busbar = Take(LimitSite.Rule3Busbar, ref left);
            if (WithheldKw(LimitSite.Rule3Busbar) > 0) causes.Busbar += left;
            else if (WithheldKw(LimitSite.Rule3InverterBreaker) > 0) causes.InverterBreaker += left;
            else causes.Inverter += left;
        }
        return causes;
    }

    private readonly double Take(LimitSite site, ref double left)
    {
        double taken = Math.Min(left, WithheldKw(site));
        left -= taken;
        return taken;
    }
}
