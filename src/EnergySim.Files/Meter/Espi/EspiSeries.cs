using System.Globalization;

namespace EnergySim.Files;

/// <summary>The readings of one meter reading, and what they are.</summary>
internal sealed class EspiSeries
{
    private readonly List<EspiReading[]> _pieces;
    private readonly int _defaultSeconds;

    public EspiSeries(string point, EspiReadingType type, List<EspiReading[]> pieces)
    {
        (Point, Type, _pieces) = (point, type, pieces);
        Count = pieces.Sum(p => p.Length);
        _defaultSeconds = type.IntervalLength is > 0 and int stated ? stated : Spacing(pieces);
        TypicalSeconds = MostFrequent(pieces.SelectMany(p => p).Select(r => (long)Length(r)));
    }

    /// <summary>Link of its usage point.</summary>
    public string Point { get; }

    public EspiReadingType Type { get; }

    /// <summary>Number of its readings.</summary>
    public int Count { get; }

    /// <summary>The length that most readings have, s.</summary>
    public int TypicalSeconds { get; }

    public string FlowText => Type.FlowDirection switch
    {
        1 => "delivered to the home",
        19 => "received from the home",
        4 => "net (delivered less received)",
        _ => "direction not stated, taken as delivered to the home",
    };

    /// <summary>Turns the readings into rows and lets go of them, piece by piece.</summary>
    public void MoveTo(List<MeterRow> rows, string file, ProblemList problems)
    {
        for (int i = 0; i < _pieces.Count; i++)
        {
            foreach (EspiReading reading in _pieces[i])
                if (RowOf(reading, file, problems) is MeterRow row) rows.Add(row);
            _pieces[i] = [];
        }
    }

    private MeterRow? RowOf(in EspiReading reading, string file, ProblemList problems)
    {
        int seconds = Length(reading);
        if (seconds <= 0)
        {
            problems.Add(new Problem { File = file, Line = reading.Line, Field = "duration", Rule = "is stated neither for the reading nor for its type" });
            return null;
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
            return null;
        }
        int quality = reading.Quality >= 0 ? reading.Quality : Type.DefaultQuality ?? 0;
        // Qualities 8 and 9 are estimated, 12 is a forecast (NAESB REQ.21, QualityOfReading).
        SpanMark mark = quality is 8 or 9 or 12 ? SpanMark.Estimated : SpanMark.Measured;
        return new MeterRow(reading.Start, seconds, reading.Value * Type.KwhPerUnit(seconds), Type.Flow, mark, reading.Line);
    }

    private int Length(in EspiReading reading) => reading.Seconds > 0 ? reading.Seconds : _defaultSeconds;

    // The distance that occurs most; 0 where there is but one reading.
    private static int Spacing(List<EspiReading[]> pieces)
    {
        if (pieces.TrueForAll(p => Array.TrueForAll(p, r => r.Seconds > 0))) return 0;
        long[] starts = [.. pieces.SelectMany(p => p).Select(r => r.Start).Distinct().Order()];
        return starts.Length < 2 ? 0 : MostFrequent(starts.Zip(starts.Skip(1), (a, b) => b - a));
    }

    // Of those that occur equally often, the one that came first.
    private static int MostFrequent(IEnumerable<long> seconds) => (int)Math.Min(int.MaxValue, seconds.CountBy(s => s).MaxBy(c => c.Value).Key);
}
