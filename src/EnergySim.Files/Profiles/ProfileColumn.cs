using NodaTime;

namespace EnergySim.Files;

/// <summary>What a column's numbers are.</summary>
public enum ProfileUnit
{
    /// <summary>Mean power over the interval.</summary>
    KW,

    /// <summary>Energy of the interval.</summary>
    KWh,
}

/// <summary>Which end of its interval a stamp names.</summary>
public enum StampMark
{
    /// <summary>The start.</summary>
    Start,

    /// <summary>The end.</summary>
    End,
}

/// <summary>What is done with a file that keeps 24 hours on every day, also when the clock changes.</summary>
public enum ClockChange
{
    /// <summary>Nothing: the hour that the clock skips is absent and the hour that it repeats stands twice.</summary>
    AsOnTheClock,

    /// <summary>The slot that does not exist must be zero or empty and is dropped; the slot that holds the sum of both passes is split evenly in two.</summary>
    SplitAndDrop,
}

/// <summary>The clock that stamps without an offset of their own are read on.</summary>
public abstract record ProfileClock
{
    private ProfileClock() { }

    /// <summary>The wall clock of the zone, with daylight saving.</summary>
    public sealed record Local : ProfileClock;

    /// <summary>The zone's standard time all year (typical-year files).</summary>
    public sealed record Standard : ProfileClock;

    /// <summary>A fixed offset all year; zero is UTC.</summary>
    /// <param name="Offset">Local time minus UTC.</param>
    public sealed record Fixed(Offset Offset) : ProfileClock;

    /// <summary>Every stamp carries its own offset, or Z.</summary>
    public sealed record InStamp : ProfileClock;
}

/// <summary>How one column of a profile file is to be read. Nothing of it is guessed.</summary>
public sealed record ProfileColumn
{
    /// <summary>Header of the column that holds the values; blanks around it do not count.</summary>
    public required string Column { get; init; }

    /// <summary>What its numbers are.</summary>
    public required ProfileUnit Unit { get; init; }

    /// <summary>Headers of the columns that make the stamp, in order, joined by a blank. Empty = the first column.</summary>
    public IReadOnlyList<string> StampColumns { get; init; } = [];

    /// <summary>Which end of its interval a stamp names.</summary>
    public required StampMark Stamp { get; init; }

    /// <summary>The clock of stamps that carry no offset.</summary>
    public required ProfileClock Clock { get; init; }

    /// <summary>
    /// How stamps are written: YYYY, MM, DD, HH (0–24), mm, ss with two digits; M, D, H with one or two; Z an offset; a blank stands for any
    /// number of blanks; the rest stands for itself. Null = ISO 8601 with a blank or T.
    /// </summary>
    public string? Pattern { get; init; }

    /// <summary>Where stamps carry no year: the year they are laid on. Where they do: the local calendar year that is taken from the file; null = all of it.</summary>
    public int? Year { get; init; }

    /// <summary>Length of an interval, minutes; null = the distance of the first two rows.</summary>
    public int? StepMinutes { get; init; }

    /// <summary>What is done on the days on which the clock changes; used with the local clock only.</summary>
    public ClockChange ClockChange { get; init; }

    /// <summary>A column of a file of our own: <c>start</c> with an offset, mean kW.</summary>
    /// <param name="column">Its header: <c>load_kw</c>, <c>solar_dc_kw</c> or <c>solar_ac_kw</c>.</param>
    public static ProfileColumn Ours(string column) => new()
    {
        Column = column,
        Unit = ProfileUnit.KW,
        StampColumns = ["start"],
        Stamp = StampMark.Start,
        Clock = new ProfileClock.InStamp(),
    };
}
