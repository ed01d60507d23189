using NodaTime;

namespace EnergySim.Files;

/// <summary>The readings of both channels, each in order of time, laid side by side.</summary>
internal sealed class MeterChannels(string file, ProblemList problems)
{
    public required List<MeterRow> Import { get; init; }

    public required List<MeterRow> Export { get; init; }

    /// <summary>The lengths that occur, s.</summary>
    public SortedSet<int> Lengths => field ??= LengthsOf();

    /// <summary>From the first start to the last end, s.</summary>
    public long SpanSeconds => Until - From;

    private long From => Math.Min(Import.Count > 0 ? Import[0].StartSecond : long.MaxValue, Export.Count > 0 ? Export[0].StartSecond : long.MaxValue);

    private long Until => Math.Max(EndOf(Import), EndOf(Export));

    /// <summary>Equal spans without a hole.</summary>
    public List<MeterSpan> Grid(int stepMinutes)
    {
        int step = stepMinutes * 60;
        bool sums = Lengths.Any(s => s != step);
        long from = sums ? From - (((From % step) + step) % step) : From;
        int count = (int)((Until - from + step - 1) / step);
        double[] import = Unknown(count, Import), export = Unknown(count, Export);
        var marks = new SpanMark[count];
        if (sums)
        {
            Spread(Import, from, step, import, marks);
            Spread(Export, from, step, export, marks);
        }
        else
        {
            Place(Import, from, step, import, marks);
            Place(Export, from, step, export, marks);
        }
        var spans = new List<MeterSpan>(count);
        for (int i = 0; i < count; i++)
        {
            double? bought = Known(import, i), sold = Known(export, i);
            bool isMissing = (bought is null && Import.Count > 0) || (sold is null && Export.Count > 0);
            spans.Add(new MeterSpan(Instant.FromUnixTimeSeconds(from + ((long)step * i)), step, bought, sold, isMissing ? SpanMark.Missing : marks[i]));
        }
        return spans;
    }

    /// <summary>Days or months as they stand.</summary>
    public List<MeterSpan> Uneven()
    {
        var spans = new SortedDictionary<(long Start, int Seconds), MeterSpan>();
        foreach (MeterRow row in Import.Concat(Export))
        {
            spans.TryGetValue((row.StartSecond, row.Seconds), out MeterSpan span);
            spans[(row.StartSecond, row.Seconds)] = new MeterSpan(
                Instant.FromUnixTimeSeconds(row.StartSecond), row.Seconds,
                row.Flow == MeterFlow.Import ? row.Kwh : span.ImportKwh,
                row.Flow == MeterFlow.Export ? row.Kwh : span.ExportKwh,
                row.Kwh is null ? SpanMark.Missing : (SpanMark)Math.Max((int)row.Mark, (int)span.Mark));
        }
        return [.. spans.Values];
    }

    // Not a number where nothing is known yet; nothing at all for a channel that the file has not.
    private static double[] Unknown(int count, List<MeterRow> rows)
    {
        if (rows.Count == 0) return [];
        var kwh = new double[count];
        Array.Fill(kwh, double.NaN);
        return kwh;
    }

    private static double? Known(double[] kwh, int i) => i < kwh.Length && !double.IsNaN(kwh[i]) ? kwh[i] : null;

    private void Place(List<MeterRow> rows, long from, int step, double[] kwh, SpanMark[] marks)
    {
        foreach (MeterRow row in rows)
        {
            long at = row.StartSecond - from;
            if (at % step != 0)
            {
                problems.Add(MeterAssembly.At(file, row, $"is not a whole number of {step / 60}-minute intervals after the first reading"));
                continue;
            }
            int i = (int)(at / step);
            kwh[i] = row.Kwh ?? double.NaN;
            if (row.Mark > marks[i]) marks[i] = row.Mark;
        }
    }

    // A span that is not wholly covered by readings stays unknown.
    private static void Spread(List<MeterRow> rows, long from, int step, double[] kwh, SpanMark[] marks)
    {
        var covered = new int[kwh.Length];
        foreach (MeterRow row in rows)
        {
            long end = row.StartSecond + row.Seconds;
            for (long at = row.StartSecond; at < end;)
            {
                int i = (int)((at - from) / step);
                long next = Math.Min(end, from + ((long)step * (i + 1)));
                if (row.Kwh is double all)
                {
                    kwh[i] = (double.IsNaN(kwh[i]) ? 0 : kwh[i]) + (all * (next - at) / row.Seconds);
                    covered[i] += (int)(next - at);
                }
                SpanMark mark = row.Mark == SpanMark.Measured && next - at < row.Seconds ? SpanMark.Split : row.Mark;
                if (mark > marks[i]) marks[i] = mark;
                at = next;
            }
        }
        for (int i = 0; i < kwh.Length; i++)
            if (covered[i] < step) kwh[i] = double.NaN;
    }

    private SortedSet<int> LengthsOf()
    {
        var lengths = new SortedSet<int>();
        int last = 0;
        foreach (List<MeterRow> rows in (ReadOnlySpan<List<MeterRow>>)[Import, Export])
            foreach (MeterRow row in rows)
            {
                if (row.Seconds == last) continue;
                last = row.Seconds;
                lengths.Add(last);
            }
        return lengths;
    }

    private static long EndOf(List<MeterRow> rows)
    {
        long end = long.MinValue;
        foreach (MeterRow row in rows) end = Math.Max(end, row.StartSecond + row.Seconds);
        return end;
    }
}
