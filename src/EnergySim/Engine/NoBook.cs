namespace EnergySim.Engine;

/// <summary>Keeps nothing.</summary>
internal struct NoBook : IBook<Scalar>
{
    public static bool KeepsFlows => false;

    public static bool KeepsGross => false;

    public readonly void Cut(LimitSite site, Scalar withheldKw) { }

    public readonly void Flow(LedgerColumn column, Scalar value) { }

    public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) { }

    public readonly void Close() { }
}
