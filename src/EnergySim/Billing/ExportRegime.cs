using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>
/// What one export regime does to a bill: which kWh are billed at retail, which credits it adds, how its year is settled. It keeps what
/// is carried from bill to bill, also when its terms change; another regime begins with nothing.
/// </summary>
internal abstract class ExportRegime(ExportTerms terms)
{
    /// <summary>The terms in force.</summary>
    public ExportTerms Terms { get; private set; } = terms;

    /// <summary>True when the never-offset part is paid on metered import, not on the net.</summary>
    public virtual bool NeverOffsetsOnImport => false;

    /// <summary>True when terms are of the same regime.</summary>
    public bool Fits(ExportTerms other) => other.GetType() == Terms.GetType();

    /// <summary>Goes on under new terms of the same regime.</summary>
    public void Renew(ExportTerms other) => Terms = other;

    /// <summary>Says what is billed of each bucket; left alone it is the import.</summary>
    public virtual void SetBilled(int bill, BilledBucket[] buckets) { }

    /// <summary>Adds the lines that stand between demand and the minimum.</summary>
    public virtual void AddCredits(BillDraft draft, MeterSums sums, int bill, TariffVersion version) { }

    /// <summary>Adds the lines that close a settlement year, and forgets what lapses.</summary>
    public virtual void Settle(BillDraft draft, TariffVersion version) { }

    public static ExportRegime Of(ExportTerms terms) => terms switch
    {
        ExportTerms.RetailNetting retail => new RetailNettingRegime(retail),
        ExportTerms.NetBilling billing => new NetBillingRegime(billing),
        ExportTerms.MonthlyNetting monthly => new MonthlyNettingRegime(monthly),
        ExportTerms.TwoWay twoWay => new TwoWayRegime(twoWay),
        ExportTerms.SellAll all => new SellAllRegime(all),
        _ => new NoExportRegime(terms),
    };
}

/// <summary>Exported energy earns nothing.</summary>
internal sealed class NoExportRegime(ExportTerms terms) : ExportRegime(terms);

/// <summary>All load is bought at retail, all solar sold at a contract price.</summary>
internal sealed class SellAllRegime(ExportTerms.SellAll terms) : ExportRegime(terms)
{
    public override void SetBilled(int bill, BilledBucket[] buckets)
    {
        foreach (BilledBucket bucket in buckets) bucket.BilledKwh = bucket.LoadKwh;
    }

    public override void AddCredits(BillDraft draft, MeterSums sums, int bill, TariffVersion version) =>
        draft.Add("export", "all solar", -BillDraft.Exact(sums.SolarKwh[bill]), "kWh", ((ExportTerms.SellAll)Terms).PricePerKwh);
}
