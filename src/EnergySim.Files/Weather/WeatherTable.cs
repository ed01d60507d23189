using System.Globalization;
using EnergySim.Solar;

namespace EnergySim.Files;

/// <summary>The rows of a weather file as they stand there: start of the interval on the file's standard clock, and numbers or null.</summary>
internal sealed class WeatherTable
{
    private readonly ProblemList _problems;
    private readonly WeatherCell?[] _cells = new WeatherCell?[FieldCount];

    public WeatherTable(string file, ProblemList problems, IReadOnlyList<WeatherCell> cells)
    {
        File = file;
        _problems = problems;
        foreach (WeatherCell cell in cells)
        {
            _cells[(int)cell.Field] = cell;
            Columns[(int)cell.Field] = new List<double?>(8784);
        }
    }

    public const int FieldCount = 7;

    public string File { get; }

    /// <summary>Where the data come from, in words.</summary>
    public required string Source { get; init; }

    public required Place Place { get; init; }

    /// <summary>The file's clock: minutes ahead of UTC.</summary>
    public required int OffsetMinutes { get; init; }

    /// <summary>Minutes from a row to the next; null = as the first two rows are apart.</summary>
    public int? StepMinutes { get; set; }

    /// <summary>True when the file calls itself a typical year.</summary>
    public bool SaysTypical { get; init; }

    /// <summary>What problems call the stamp.</summary>
    public string StampField { get; init; } = "stamp";

    /// <summary>Where in its interval a stamp stands.</summary>
    public required WeatherMark Mark { get; init; }

    /// <summary>The stamps, minutes from 1970-01-01 00:00 on the file's clock.</summary>
    public List<long> Stamps { get; } = new(8784);

    public List<int> Lines { get; } = new(8784);

    /// <summary>A list a field, as long as <see cref="Stamps"/>; null = the file has no such column.</summary>
    public List<double?>?[] Columns { get; } = new List<double?>?[FieldCount];

    /// <summary>Irradiances a little below zero that were taken as zero.</summary>
    public int ClippedCount { get; private set; }

    /// <summary>The least of them, W/m².</summary>
    public double LeastWPerM2 { get; private set; }

    public string NameOf(WeatherField field) => _cells[(int)field]!.Name;

    public bool IsFahrenheit => _cells[(int)WeatherField.Air] is { IsFahrenheit: true };

    /// <summary>Adds a row whose numbers stand in <paramref name="row"/>, one a field.</summary>
    public void Add(int line, long stamp, ReadOnlySpan<double?> row)
    {
        Stamps.Add(stamp);
        Lines.Add(line);
        for (int f = 0; f < FieldCount; f++) Columns[f]?.Add(row[f]);
    }

    /// <summary>The number in a field; null where it is missing, or wrong, which is a problem.</summary>
    public double? Number(int line, WeatherCell cell, ReadOnlySpan<char> text)
    {
        if (text.IsEmpty) return null;
        string? fault;
        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)) fault = "is not a number";
        else if (cell.IsMissing(number)) return null;
        else
        {
            if (cell.IsFahrenheit) number = (number - 32) / 1.8;
            fault = cell.FaultOf(number);
        }
        if (fault is not null)
        {
            Report(line, cell.Name, text.ToString(), fault);
            return null;
        }
        if (!cell.IsIrradiance || number >= 0) return number;
        ClippedCount++;
        LeastWPerM2 = Math.Min(LeastWPerM2, number);
        return 0;
    }

    public void Report(int line, string? field, string? value, string rule) =>
        _problems.Add(new Problem { File = File, Line = line, Field = field, Value = value, Rule = rule });
}
