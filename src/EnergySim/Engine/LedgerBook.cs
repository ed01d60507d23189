namespace EnergySim.Engine;

/// <summary>Writes every flow of every interval into a <see cref="Ledger"/>, and keeps the sums as well.</summary>
internal struct LedgerBook(Ledger ledger) : IBook<Scalar>
{
    public SumsBook Sums;
    private int _index;

    public void Cut(LimitSite site, Scalar withheldKw) => Sums.Cut(site, withheldKw);

    public void Close(in Flows<Scalar> flows)
    {
        Sums.Close(in flows);
        ledger.Write(_index++, in flows, Sums.SitesNow);
        Sums.Next();
    }
}
