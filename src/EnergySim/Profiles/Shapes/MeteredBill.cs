using NodaTime;

namespace EnergySim.Profiles.Shapes;

/// <summary>What a bill says of a stretch of days.</summary>
public sealed record MeteredBill
{
    /// <summary>First day.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last day.</summary>
    public required LocalDate To { get; init; }

    /// <summary>Energy, kWh ≥ 0.</summary>
    public required double Kwh { get; init; }

    /// <summary>Highest mean power over an interval, kW; null = not known.</summary>
    public double? PeakKw { get; init; }

    /// <summary>Number of days.</summary>
    public int Days => Period.DaysBetween(From, To) + 1;
}
