using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>One bucket of a bill: what the meters say, and what the export regime lets be billed of it.</summary>
internal sealed class BilledBucket
{
    private readonly MeterSums _sums;

    public BilledBucket(EnergyRow row, MeterSums sums)
    {
        (Row, _sums) = (row, sums);
        ImportKwh = BilledKwh = BillDraft.Exact(sums.ImportKwh[row.Index]);
    }

    public EnergyRow Row { get; }

    public Bucket Bucket => Row.Bucket;

    public decimal ImportKwh { get; }

    public decimal ExportKwh => BillDraft.Exact(_sums.ExportKwh[Row.Index]);

    public decimal LoadKwh => BillDraft.Exact(_sums.LoadKwh[Row.Index]);

    /// <summary>kWh billed at the retail price: the import, where no regime says otherwise; negative where netting earns it.</summary>
    public decimal BilledKwh { get; set; }
}
