using NodaTime;

namespace EnergySim.Studies.Days;

/// <summary>A day of one installation on the local clock: one day of the data, or the mean of several.</summary>
public sealed record DayFlows
{
    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>The installation: "as it is" or an offer.</summary>
    public required string Installation { get; init; }

    /// <summary>Number of battery units; 0 as it is.</summary>
    public required int BatteryUnits { get; init; }

    /// <summary>ISO 4217 code.</summary>
    public required string Currency { get; init; }

    /// <summary>First day taken.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last day taken.</summary>
    public required LocalDate To { get; init; }

    /// <summary>True for the mean of the days from <see cref="From"/> to <see cref="To"/>; false for one day.</summary>
    public required bool IsMean { get; init; }

    /// <summary>Length of an interval, minutes.</summary>
    public required int StepMinutes { get; init; }

    /// <summary>The intervals in order of the local clock.</summary>
    public required IReadOnlyList<DayInterval> Intervals { get; init; }
}

/// <summary>One interval of a day. Powers are mean kW ≥ 0.</summary>
public sealed record DayInterval
{
    /// <summary>Minute of the local day at which it begins, 0–1439.</summary>
    public required int FromMinute { get; init; }

    /// <summary>What the house uses.</summary>
    public required double LoadKw { get; init; }

    /// <summary>Of that, from the sun at once.</summary>
    public required double SolarToLoadKw { get; init; }

    /// <summary>Of that, from the battery.</summary>
    public required double BatteryToLoadKw { get; init; }

    /// <summary>Of that, from the grid.</summary>
    public required double GridToLoadKw { get; init; }

    /// <summary>Sun into the battery.</summary>
    public required double SolarToBatteryKw { get; init; }

    /// <summary>Grid into the battery.</summary>
    public required double GridToBatteryKw { get; init; }

    /// <summary>Sold, from the sun and the battery.</summary>
    public required double SoldKw { get; init; }

    /// <summary>Energy in the cells at its end, kWh.</summary>
    public required double StoredKwh { get; init; }

    /// <summary>Period of the plan; of a mean, that of most days.</summary>
    public required string Period { get; init; }

    /// <summary>What one more kWh bought costs; of a mean, the mean.</summary>
    public required double BuyPerKwh { get; init; }
}
