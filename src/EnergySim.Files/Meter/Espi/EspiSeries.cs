using System.Globalization;

namespace EnergySim.Files;

/// <summary>The readings of one meter reading, and what they are.</summary>
internal sealed class EspiSeries
{
    private readonly int _defaultSeconds;

    public EspiSeries(string point, EspiReadingType type, List<EspiReading> readings)
    {
        (Point, Type, Readings) = (point, type, readings);
        _defaultSeconds = type.IntervalLength is > 0 and int stated ? stated : Spacing(readings);
        TypicalSeconds = readings.GroupBy(r => Length(r)).MaxBy(g => g.Count())!.Key;
    }

    /// <summary>Link of its usage point.</summary>
    public string Point { get; }

    public EspiReadingType Type { get; }

    public List<EspiReading> Readings { get; }

    /// <summary>The length that most readings have, s.</summary>
    public int TypicalSeconds { get; }

    public string FlowText => Type.FlowDirection switch
    {
        1 => "delivered to the home",
        19 => "received from the home",
        4 => "net (delivered less received)",
        _ => "direction not stated, taken as delivered to the home",
    };

    public void AddTo(List<MeterRow> rows, string file, ProblemList problems)
    {
        foreach (EspiReading reading in Readings)
        {
            int seconds = Length(reading);
            if (seconds <= 0)
            {
                problems.Add(new Problem { File = file, Line = reading.Line, Field = "duration", Rule = "is stated neither for the reading nor for its type" });
                continue;
            }
            if (reading.Value < 0 && Type.Flow != MeterFlow.Net)
            {
                problems.Add(new Problem
                {
                    File = file,
                    Line = reading.Line,
                    Field = "value",
                    Value = reading.Value.ToString(CultureInfo.InvariantCulture),
                    Rule = $"is below 0 in a series that is {FlowText}",
                });
                continue;
            }
            int quality = reading.Quality >= 0 ? reading.Quality : Type.DefaultQuality ?? 0;
            // Qualities 8 and 9 are estimated, 12 is a forecast (NAESB REQ.21, QualityOfReading).
            SpanMark mark = quality is 8 or 9 or 12 ? SpanMark.Estimated : SpanMark.Measured;
            rows.Add(new MeterRow(reading.Start, seconds, reading.Value * Type.KwhPerUnit(seconds), Type.Flow, mark, reading.Line));
        }
    }

    private int Length(in EspiReading reading) => reading.Seconds > 0 ? reading.Seconds : _defaultSeconds;

    // The distance that occurs most; 0 where there is but one reading.
    private static int Spacing(List<EspiReading> readings)
    {
        if (readings.TrueForAll(r => r.Seconds > 0)) return 0;
        long[] starts = [.. readings.Select(r => r.Start).Distinct().Order()];
        return starts.Length < 2 ? 0 : (int)Math.Min(int.MaxValue, starts.Zip(starts.Skip(1), (a, b) => b - a).GroupBy(d => d).MaxBy(g => g.Count())!.Key);
    }
}
