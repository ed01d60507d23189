using NodaTime;

namespace EnergySim.Files;

/// <summary>What the numbers of a meter file are.</summary>
public enum MeterUnit
{
    /// <summary>Energy of the interval, Wh.</summary>
    Wh,

    /// <summary>Energy of the interval, kWh.</summary>
    KWh,

    /// <summary>Energy of the interval, MWh.</summary>
    MWh,

    /// <summary>Mean power over the interval, W.</summary>
    W,

    /// <summary>Mean power over the interval, kW.</summary>
    KW,
}

/// <summary>What a column of a meter file holds.</summary>
public enum MeterRole
{
    /// <summary>What was bought.</summary>
    Import,

    /// <summary>What was sold.</summary>
    Export,

    /// <summary>Bought less sold: below 0 where the home sold.</summary>
    Net,

    /// <summary>Nothing that is wanted.</summary>
    Ignore,
}

/// <summary>Which row counts where a file has two with different numbers for one interval.</summary>
public enum DuplicateRule
{
    /// <summary>None: the file is refused.</summary>
    Refuse,

    /// <summary>The one that stands first in the file.</summary>
    First,

    /// <summary>The one that stands last in the file.</summary>
    Last,

    /// <summary>The larger.</summary>
    Larger,

    /// <summary>Their sum.</summary>
    Sum,
}

/// <summary>What a person says of a meter file. What is null is inferred; where it can not be, it is asked.</summary>
public sealed record MeterOptions
{
    /// <summary>The meter's zone.</summary>
    public DateTimeZone? Zone { get; init; }

    /// <summary>The clock of stamps without an offset: the wall clock of the zone, its standard time all year, or a fixed offset.</summary>
    public ProfileClock? Clock { get; init; }

    /// <summary>Whether 03/04 is the third of April.</summary>
    public bool? DayFirst { get; init; }

    /// <summary>Which end of its interval a stamp names.</summary>
    public StampMark? Stamp { get; init; }

    /// <summary>Whether the decimal mark is a comma.</summary>
    public bool? DecimalComma { get; init; }

    /// <summary>What the numbers are.</summary>
    public MeterUnit? Unit { get; init; }

    /// <summary>The year of stamps that carry none.</summary>
    public int? Year { get; init; }

    /// <summary>The meter that is wanted where the file has several; <c>sum</c> adds them up.</summary>
    public string? Meter { get; init; }

    /// <summary>What columns hold, by header.</summary>
    public IReadOnlyDictionary<string, MeterRole> Roles { get; init; } = new Dictionary<string, MeterRole>();

    /// <summary>Whether the numbers are those of a register that only counts up.</summary>
    public bool? IsRegister { get; init; }

    /// <summary>Whether the file is the record of a solar inverter: what it calls generation is what is wanted.</summary>
    public bool IsSolarRecord { get; init; }

    /// <summary>Length of an interval that is wanted, minutes: finer data are summed, coarser ones shared out evenly. Null = the file's own.</summary>
    public int? StepMinutes { get; init; }

    /// <summary>What is done with a file that keeps 24 hours on every day.</summary>
    public ClockChange? ClockChange { get; init; }

    /// <summary>What is done with two different numbers for one interval.</summary>
    public DuplicateRule Duplicates { get; init; }

    /// <summary>Whether missing intervals are filled with the median of the same hour of like days.</summary>
    public bool FillsGaps { get; init; }
}
