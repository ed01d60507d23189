namespace EnergySim.Studies.Days;

/// <summary>What a table by month and hour holds.</summary>
public enum MonthHourFigure
{
    /// <summary>What the house uses, kW.</summary>
    Load,

    /// <summary>What the panels give, kW.</summary>
    Solar,

    /// <summary>Bought from the grid, kW.</summary>
    Import,

    /// <summary>Energy in the cells at the hour's end, kWh.</summary>
    Stored,
}

/// <summary>Means by month and hour of the local clock.</summary>
public sealed record MonthHourTable
{
    /// <summary>What it holds.</summary>
    public required MonthHourFigure Figure { get; init; }

    /// <summary>The installation: "as it is" or an offer; empty where it is the same for all.</summary>
    public required string Installation { get; init; }

    /// <summary>Number of battery units.</summary>
    public required int BatteryUnits { get; init; }

    /// <summary>12 rows of 24 means; null = no data in that month or hour.</summary>
    public required IReadOnlyList<IReadOnlyList<double?>> Rows { get; init; }
}

/// <summary>A period of the plan in one hour of the day.</summary>
/// <param name="Period">Its name, that of most weekdays of the month.</param>
/// <param name="BuyPerKwh">What one more kWh bought costs then, the mean of those days.</param>
public sealed record PeriodHour(string Period, double BuyPerKwh);

/// <summary>A home's year by month and hour of the local clock.</summary>
public sealed record MonthHours
{
    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>The plan.</summary>
    public required string Tariff { get; init; }

    /// <summary>ISO 4217 code.</summary>
    public required string Currency { get; init; }

    /// <summary>Load, solar (where there is any), import as it is and with each offer, stored energy with each offer.</summary>
    public required IReadOnlyList<MonthHourTable> Tables { get; init; }

    /// <summary>Periods on weekdays: 12 rows of 24; null = no weekday in the data.</summary>
    public required IReadOnlyList<IReadOnlyList<PeriodHour?>> Periods { get; init; }
}
