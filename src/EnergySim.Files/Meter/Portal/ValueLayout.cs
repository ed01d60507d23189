namespace EnergySim.Files;

/// <summary>A column of amounts.</summary>
internal readonly record struct ValueColumn(int Column, string Header, MeterFlow Flow, MeterUnit? Unit);

/// <summary>Where the amounts of a table are, and the columns that say something of them. −1 = none.</summary>
internal sealed record ValueLayout
{
    /// <summary>The columns of amounts; in a table with a row a day, one that stands for all its columns.</summary>
    public required IReadOnlyList<ValueColumn> Columns { get; init; }

    /// <summary>Column that says which way the energy went.</summary>
    public int Direction { get; init; } = -1;

    /// <summary>Column of units.</summary>
    public int Unit { get; init; } = -1;

    /// <summary>Column that names one of several meters.</summary>
    public int Meter { get; init; } = -1;

    /// <summary>Column that says whether a number is estimated.</summary>
    public int Quality { get; init; } = -1;

    /// <summary>Columns in which a row of gas or water is told from one of electricity.</summary>
    public IReadOnlyList<int> Services { get; init; } = [];

    /// <summary>Whether the numbers are those of a register that counts up.</summary>
    public bool IsRegister { get; init; }

    public bool IsDecimalComma { get; init; }
}
