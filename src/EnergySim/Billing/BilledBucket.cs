using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>One bucket of a bill: what the meters say, and what the export regime lets be billed of it.</summary>
internal sealed class BilledBucket
{
    public required Bucket Bucket { get; init; }

    public required decimal ImportKwh { get; init; }

    public required decimal ExportKwh { get; init; }

    public required decimal LoadKwh { get; init; }

    /// <summary>kWh billed at the retail price; negative where netting earns it.</summary>
    public decimal BilledKwh { get; set; }
}
