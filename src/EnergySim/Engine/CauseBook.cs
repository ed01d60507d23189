using System.Runtime.CompilerServices;

namespace EnergySim.Engine;

/// <summary>Keeps only the clamps that can leave the house unserved: enough for sums over very many outages, and nothing on the heap.</summary>
internal struct CauseBook : IPendingBook
{
    private double _floorKw, _rateKw, _inverterKw, _breakerKw, _busbarKw;
    private double _solarInverterKw, _solarBreakerKw, _solarBusbarKw;

    /// <summary>True when the interval was dark.</summary>
    public bool IsDark { get; private set; }

    /// <inheritdoc/>
    public double GeneratorKw { get; private set; }

    /// <inheritdoc/>
    public readonly bool WantsEnergy => _floorKw > Step.TinyKw;

    /// <inheritdoc/>
    public static bool KeepsFlows => true;

    /// <inheritdoc/>
    public static bool KeepsGross => true;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Cut(LimitSite site, Scalar withheldKw)
    {
        double kw = Math.Max(0, withheldKw.Value);
        switch (site)
        {
            case LimitSite.Rule5Floor: _floorKw += kw; break;
            case LimitSite.Rule5DischargeRate: _rateKw += kw; break;
            case LimitSite.Rule5Inverter: _inverterKw += kw; break;
            case LimitSite.Rule5InverterBreaker: _breakerKw += kw; break;
            case LimitSite.Rule5Busbar: _busbarKw += kw; break;
            case LimitSite.Rule3Inverter: _solarInverterKw += kw; break;
            case LimitSite.Rule3InverterBreaker: _solarBreakerKw += kw; break;
            case LimitSite.Rule3Busbar: _solarBusbarKw += kw; break;
        }
    }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Flow(LedgerColumn column, Scalar value)
    {
        if (column == LedgerColumn.Dark) IsDark = true;
        if (column == LedgerColumn.ImportKw) GeneratorKw = value.Value;
    }

    /// <inheritdoc/>
    public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) { }

    /// <inheritdoc/>
    public readonly void Close() { }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Clear() => this = default;

    /// <inheritdoc/>
    public readonly void PassOn<TBook>(ref TBook book) where TBook : struct, IBook<Scalar> => book.Close();

    /// <summary>
    /// What left the house unserved: the clamps of rule 5 where the cells were asked, else (the cells were charging) those of rule 3.
    /// Standby is served first, so the last kW withheld are the house's: causes are taken from the last to act backwards.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly UnservedByCause Causes(Scalar unservedKw) => unservedKw.Value <= 0 ? default : CausesOf(unservedKw.Value);

    [MethodImpl(MethodImplOptions.NoInlining)]
    private readonly UnservedByCause CausesOf(double left)
    {
        var causes = new UnservedByCause();
        if (_floorKw + _rateKw + _inverterKw + _breakerKw + _busbarKw > 0)
        {
            causes.DischargeRate = Take(_rateKw, ref left);
            causes.Inverter = Take(_inverterKw, ref left);
            causes.InverterBreaker = Take(_breakerKw, ref left);
            causes.Busbar = Take(_busbarKw, ref left);
            causes.Energy = left;
            return causes;
        }
        // Solar was left for the cells, so the way to the house was what bound: the tightest limit takes what no clamp names.
        causes.Inverter = Take(_solarInverterKw, ref left);
        causes.InverterBreaker = Take(_solarBreakerKw, ref left);
        causes.Busbar = Take(_solarBusbarKw, ref left);
        if (_solarBusbarKw > 0) causes.Busbar += left;
        else if (_solarBreakerKw > 0) causes.InverterBreaker += left;
        else causes.Inverter += left;
        return causes;
    }

    private static double Take(double withheldKw, ref double left)
    {
        double taken = Math.Min(left, withheldKw);
        left -= taken;
        return taken;
    }
}
