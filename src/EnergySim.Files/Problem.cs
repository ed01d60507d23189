using System.Globalization;

namespace EnergySim.Files;

/// <summary>One thing that is wrong with an input file: where, what, and the rule it breaks.</summary>
public sealed record Problem
{
    /// <summary>Path of the file, as it was given.</summary>
    public required string File { get; init; }

    /// <summary>Line, from 1; null when the file as a whole is meant.</summary>
    public int? Line { get; init; }

    /// <summary>Column within the line, from 1; null where the field says it.</summary>
    public int? Column { get; init; }

    /// <summary>The field: a column's name in a table, the path of a key elsewhere.</summary>
    public string? Field { get; init; }

    /// <summary>The text that stands there; null when nothing does.</summary>
    public string? Value { get; init; }

    /// <summary>What is wrong with it, as the end of a sentence whose subject is <see cref="Value"/> (or a clause of its own where there is none); no full stop.</summary>
    public required string Rule { get; init; }

    /// <summary>The problem as one plain sentence.</summary>
    public override string ToString()
    {
        string line = Line is int l ? string.Create(CultureInfo.InvariantCulture, $" line {l}") : "";
        string column = Column is int c ? string.Create(CultureInfo.InvariantCulture, $" column {c}") : "";
        string field = Field is null ? "" : (line.Length > 0 ? ", " : " ") + Field;
        string value = Value is null ? "" : $"\"{Value}\" ";
        return $"{File}{line}{column}{field}: {value}{Rule}.";
    }
}
