using NodaTime;

namespace EnergySim.Studies.Lifetime;

/// <summary>What must be said beside any promised saving, as far as it is known. Null or blank = not known.</summary>
public sealed record AssumptionsTold
{
    /// <summary>Name of the tariff.</summary>
    public string? TariffName { get; init; }

    /// <summary>Effective date of its prices.</summary>
    public LocalDate? TariffDate { get; init; }

    /// <summary>The days that the data are of.</summary>
    public string? DataYear { get; init; }

    /// <summary>How prices are assumed to grow.</summary>
    public string? Growth { get; init; }

    /// <summary>What exported energy earns, and until when.</summary>
    public string? ExportRegime { get; init; }

    /// <summary>What the battery holds when an outage starts.</summary>
    public string? StartOfOutageCharge { get; init; }

    /// <summary>How wide the figure's band is, and of what causes.</summary>
    public string? Band { get; init; }
}
