using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>One bucket of a bill: what the meters say, and what the export regime lets be billed of it.</summary>
internal sealed class BilledBucket(EnergyRow row, MeterSums sums)
{
    public EnergyRow Row => row;

    public Bucket Bucket => row.Bucket;

    public decimal ImportKwh { get; } = BillDraft.Exact(sums.ImportKwh[row.Index]);

    public decimal ExportKwh => BillDraft.Exact(sums.ExportKwh[row.Index]);

    public decimal LoadKwh => BillDraft.Exact(sums.LoadKwh[row.Index]);

    /// <summary>kWh billed at the retail price: the import, where no regime says otherwise; negative where netting earns it.</summary>
    public decimal BilledKwh { get; set; } = BillDraft.Exact(sums.ImportKwh[row.Index]);
}
