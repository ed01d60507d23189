using System.Diagnostics;
using System.Globalization;
using System.Text;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Files;

/// <summary>How a sweep is run.</summary>
public sealed record SweepOptions
{
    /// <summary>How many cores; the number changes no row.</summary>
    public int Cores { get; init; } = Environment.ProcessorCount;

    /// <summary>Which share of the sweep to run, (k, n) for the k-th of n; null = all of it, and then the table is written.</summary>
    public (int Number, int Of)? Share { get; init; }

    /// <summary>True to keep all rows in memory too, for the questions of what matters.</summary>
    public bool KeepsTable { get; init; }

    /// <summary>Told after each stretch of variants.</summary>
    public Action<SweepProgress>? Progress { get; init; }

    /// <summary>Asks to stop; what is done stays done.</summary>
    public CancellationToken Stop { get; init; }
}

/// <summary>How far a sweep is.</summary>
/// <param name="Done">Rows done, those of earlier runs included.</param>
/// <param name="Of">Rows to be done.</param>
/// <param name="PerSecond">Variants a second in this run.</param>
/// <param name="SecondsLeft">At that rate.</param>
public sealed record SweepProgress(int Done, int Of, double PerSecond, double SecondsLeft);

/// <summary>What a run of a sweep came to.</summary>
/// <param name="Rows">Rows of the sweep.</param>
/// <param name="Run">Rows run now.</param>
/// <param name="Found">Rows that were there from an earlier run.</param>
/// <param name="Errors">Of those run now, rows that are errors.</param>
/// <param name="Seconds">Time it took.</param>
/// <param name="IsStopped">True when it was asked to stop before its end.</param>
/// <param name="Table">The table written; null = not yet all there, or only a share was asked.</param>
public sealed record SweepSummary(int Rows, int Run, int Found, int Errors, double Seconds, bool IsStopped, string? Table)
{
    /// <summary>All rows; null = not asked for, or not all there.</summary>
    public SweepTable? InMemory { get; init; }
}

/// <summary>
/// Runs a sweep in parts beside its table, <c>TABLE.parts/</c>: a run that was stopped, in whatever way, goes on from the parts that are there,
/// and the table is the same to the byte. It is written once all parts are there, and the parts then removed.
/// </summary>
public sealed class SweepRun
{
    private const int RowsPerPart = 4096, SlowRowsPerPart = 64, Stretch = 512, SlowStretch = 16;

    private readonly SweepReading _reading;
    private readonly SweepStudy _study;
    private readonly SweepCsv _csv;
    private readonly SweepParts _parts;
    private readonly string _table;
    private readonly int _stretch;

    /// <param name="reading">The sweep.</param>
    /// <param name="table">Where the table goes; its folder must exist. Ending in <c>.parquet</c>: as Parquet, else as CSV.</param>
    public SweepRun(SweepReading reading, string table)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentException.ThrowIfNullOrEmpty(table);
        if (Path.GetDirectoryName(Path.GetFullPath(table)) is string folder && !Directory.Exists(folder))
            throw new ProblemsException([new Problem { File = table, Rule = "there is no such folder" }]);
        (_reading, _table) = (reading, table);
        _study = reading.Study();
        _csv = new SweepCsv(reading, _study.Columns);
        bool isSlow = reading.Plan.Outputs.Any(o => o.Measure.Source is MeasureSource.Lifetime or MeasureSource.Outages);
        _stretch = isSlow ? SlowStretch : Stretch;
        _parts = new SweepParts(table + ".parts", reading.PlanHash, _study.Variants.Count, isSlow ? SlowRowsPerPart : RowsPerPart);
    }

    /// <summary>Runs what is missing, and writes the table when all is there.</summary>
    /// <param name="options">How.</param>
    /// <exception cref="ProblemsException">A part that is there is of another plan.</exception>
    public SweepSummary Run(SweepOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        var watch = Stopwatch.StartNew();
        (int first, int end) = StretchOf(options.Share, _parts.Count);
        int rows = 0, found = 0, run = 0, errors = 0;
        var missing = new List<int>();
        for (int part = first; part < end; part++)
        {
            int count = _parts.RowsOf(part).Count;
            rows += count;
            if (_parts.Has(part)) found += count;
            else missing.Add(part);
        }
        try
        {
            foreach (int part in missing)
            {
                (int from, int count) = _parts.RowsOf(part);
                var text = new StringBuilder();
                for (int at = 0; at < count; at += _stretch)
                {
                    IReadOnlyList<SweepRow> done = _study.Rows(from + at, Math.Min(_stretch, count - at), options.Cores, options.Stop);
                    errors += done.Count(r => r.Error is not null);
                    run += done.Count;
                    text.Append(_csv.Text(done));
                    double rate = run / Math.Max(watch.Elapsed.TotalSeconds, 1e-9);
                    options.Progress?.Invoke(new SweepProgress(found + run, rows, rate, (rows - found - run) / rate));
                }
                _parts.Write(part, text.ToString());
            }
        }
        catch (OperationCanceledException)
        {
            return new SweepSummary(rows, run, found, errors, watch.Elapsed.TotalSeconds, true, null);
        }
        if (options.Share is not null) return new SweepSummary(rows, run, found, errors, watch.Elapsed.TotalSeconds, false, null);
        return new SweepSummary(rows, run, found, errors, watch.Elapsed.TotalSeconds, false, _table) { InMemory = Finish(options.KeepsTable) };
    }

    /// <summary>Writes the table from parts that were run as shares; asks that all are there and of this plan.</summary>
    /// <exception cref="ProblemsException">A part is missing or of another plan.</exception>
    /// <param name="keepsTable">True to keep all rows in memory too.</param>
    public SweepSummary Merge(bool keepsTable = false)
    {
        var watch = Stopwatch.StartNew();
        IReadOnlyList<int> missing = _parts.Missing();
        if (missing.Count > 0)
            throw new ProblemsException(missing.Select(p => new Problem
            {
                File = _parts.Folder,
                Rule = string.Create(CultureInfo.InvariantCulture, $"rows {_parts.RowsOf(p).From + 1L} to {(long)_parts.RowsOf(p).From + _parts.RowsOf(p).Count} are not there yet"),
            }));
        SweepTable? table = Finish(keepsTable);
        return new SweepSummary(_study.Variants.Count, 0, _study.Variants.Count, 0, watch.Elapsed.TotalSeconds, false, _table) { InMemory = table };
    }

    /// <summary>The parts of a share, as first and end.</summary>
    internal static (int First, int End) StretchOf((int Number, int Of)? share, int parts)
    {
        if (share is not (int number, int of)) return (0, parts);
        if (of < 1 || number < 1 || number > of) throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"There is no share {number} of {of}; write 1/8 to 8/8."));
        return ((int)((long)parts * (number - 1) / of), (int)((long)parts * number / of));
    }

    private SweepTable? Finish(bool keepsTable)
    {
        SweepTable? table = keepsTable ? TableOf() : null;
        WholeFile.Write(_table, stream =>
        {
            if (Path.GetExtension(_table) == ".parquet")
            {
                SweepParquet.Write(stream, _reading.Plan, _csv.Names, Enumerable.Range(0, _parts.Count).Select(p => Encoding.UTF8.GetString(PartOf(p).Span))).GetAwaiter().GetResult();
                return;
            }
            stream.Write(Encoding.UTF8.GetBytes(_csv.Header));
            for (int part = 0; part < _parts.Count; part++) stream.Write(PartOf(part).Span);
        });
        _parts.Remove();
        return table;
    }

    private SweepTable TableOf()
    {
        var table = new SweepTable(_reading.Plan, _study.Columns, _reading.Homes.OwnValue) { CurrencyOf = _reading.Homes.CurrencyOf };
        var outputs = new double?[_study.Columns.Count];
        int before = 3 + _reading.Plan.Inputs.Count;
        for (int part = 0; part < _parts.Count; part++)
            foreach (string[] row in SweepTableReader.RowsOf(Encoding.UTF8.GetString(PartOf(part).Span)))
            {
                for (int c = 0; c < outputs.Length; c++) outputs[c] = SweepTableReader.NumberIn(row[before + c]);
                table.Take(int.Parse(row[0], CultureInfo.InvariantCulture) - 1, outputs);
            }
        return table;
    }

    private ReadOnlyMemory<byte> PartOf(int part) => _parts.Read(part) ?? throw new IOException($"A part in {_parts.Folder} went away.");
}
