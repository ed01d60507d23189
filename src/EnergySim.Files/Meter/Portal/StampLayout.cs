namespace EnergySim.Files;

/// <summary>How a table tells the time.</summary>
internal enum StampKind
{
    /// <summary>Date and time in one cell.</summary>
    Moment,

    /// <summary>Date and time in two cells.</summary>
    DateAndTime,

    /// <summary>A date, and the number of the interval within the day.</summary>
    DateAndOrdinal,

    /// <summary>A row a day, a column an interval.</summary>
    Wide,

    /// <summary>A row a day, one number.</summary>
    DateOnly,

    /// <summary>A count of seconds or days.</summary>
    Counted,
}

/// <summary>A column of a table that has a row a day: the minute of the day that it stands for, counted as if every day had 24 hours.</summary>
internal readonly record struct WideColumn(int Column, int Minute);

/// <summary>Where the stamps of a table are.</summary>
internal sealed record StampLayout
{
    public required StampKind Kind { get; init; }

    /// <summary>Column of the date, or of the whole stamp.</summary>
    public required int Date { get; init; }

    /// <summary>Column of the time or of the ordinal; −1 = none.</summary>
    public int Time { get; init; } = -1;

    /// <summary>Columns of the end of the interval; −1 = none.</summary>
    public int EndDate { get; init; } = -1;

    public int EndTime { get; init; } = -1;

    /// <summary>Which end the stamp names, where the headers say so.</summary>
    public StampMark? Mark { get; init; }

    public string MarkGround { get; init; } = "";

    /// <summary>Minutes of an interval, where the layout says so.</summary>
    public int? StepMinutes { get; init; }

    /// <summary>Number of the first interval of a day: 0 or 1.</summary>
    public int FirstOrdinal { get; init; }

    public IReadOnlyList<WideColumn> Wide { get; init; } = [];

    /// <summary>True where intervals are counted from midnight: the clock's change shows in how many there are.</summary>
    public bool IsCounted { get; init; }

    public bool Uses(int column) =>
        column == Date || column == Time || column == EndDate || column == EndTime || Wide.Any(w => w.Column == column);
}
