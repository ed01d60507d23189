using NodaTime;

namespace EnergySim.Tariffs;

/// <summary>The account with the utility: what differs from customer to customer on one plan.</summary>
public sealed record Account
{
    /// <summary>Meter-read dates: n + 1 dates bound n bills, each bill from its date up to the next. Empty = calendar months.</summary>
    public IReadOnlyList<LocalDate> ReadDates { get; init; } = [];

    /// <summary>The permission to operate, whose anniversary settles the year; null = 1 January.</summary>
    public LocalDate? Anniversary { get; init; }
}
