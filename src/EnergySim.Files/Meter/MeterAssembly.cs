using System.Globalization;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Puts readings in order and side by side: one span for import and export, none twice, holes seen.</summary>
internal static class MeterAssembly
{
    private const int MostSpans = 6_000_000;

    // 1950 and 2150: a stamp outside is a wrong unit, not a date.
    private const long LeastSecond = -631_152_000, MostSecond = 5_680_281_600;

    public static MeterData Of(string file, MeterRows rows, DateTimeZone? zone, MeterOptions options)
    {
        var problems = new ProblemList();
        if (rows.Rows.Count == 0) problems.Add(new Problem { File = file, Rule = "the file holds no readings of electricity" });
        foreach (MeterRow row in rows.Rows)
            if (row.StartSecond is < LeastSecond or > MostSecond)
                problems.Add(At(file, row, "lies outside the years 1950 to 2150; the stamps are in another unit (milliseconds?) or wrong", row.StartSecond.ToString(CultureInfo.InvariantCulture)));
        problems.ThrowIfAny();
        bool isNetted = rows.Rows.Exists(r => r.Flow == MeterFlow.Net);
        var channels = new MeterChannels(file, problems)
        {
            Import = MeterDuplicates.Settle(file, Of(rows.Rows, MeterFlow.Import), options.Duplicates, rows, problems, "import"),
            Export = MeterDuplicates.Settle(file, Of(rows.Rows, MeterFlow.Export), options.Duplicates, rows, problems, "export"),
        };
        problems.ThrowIfAny();
        int? step = StepOf(rows, channels, options);
        rows.ThrowIfAsking(file);
        if (step is not null && channels.SpanSeconds / 60 / step > MostSpans)
            problems.Add(new Problem { File = file, Rule = "the stamps lie too many years apart for one meter file" });
        problems.ThrowIfAny();
        List<MeterSpan> spans = step is int minutes ? channels.Grid(minutes) : channels.Uneven();
        problems.ThrowIfAny();
        var data = new MeterData
        {
            File = file,
            Zone = zone ?? DateTimeZone.Utc,
            Spans = spans,
            StepMinutes = step,
            HasImport = channels.Import.Count > 0,
            HasExport = channels.Export.Count > 0,
            IsNetted = isNetted,
            Findings = rows.Findings,
            Notes = rows.Notes,
            Warnings = rows.Warnings,
        };
        return Finish(data, options);
    }

    private static MeterData Finish(MeterData data, MeterOptions options)
    {
        var notes = new List<string>(data.Notes);
        foreach (MeterGap gap in MeterGap.Of(data).Take(ProblemsException.Most)) notes.Add($"Missing: {gap.Text(data.Zone)}.");
        data = data with { Notes = notes };
        if (options.FillsGaps) data = GapFilling.Filled(data);
        return data with { Warnings = [.. data.Warnings, .. MeterDoubts.Of(data)] };
    }

    private static List<MeterRow> Of(List<MeterRow> all, MeterFlow flow)
    {
        if (all.TrueForAll(r => r.Flow == flow)) return all;
        var list = new List<MeterRow>();
        foreach (MeterRow row in all)
        {
            if (row.Flow == flow) list.Add(row);
            else if (row.Flow == MeterFlow.Net)
                list.Add(row with { Flow = flow, Kwh = row.Kwh is double net ? Math.Max(0, flow == MeterFlow.Import ? net : -net) : null });
        }
        return list;
    }

    // Null where the spans are days or months.
    private static int? StepOf(MeterRows rows, MeterChannels channels, MeterOptions options)
    {
        if (options.StepMinutes is int wanted)
        {
            if (!TimeAxis.AllowedStepMinutes.Contains(wanted)) throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"--step {wanted}: an interval is 1, 5, 15, 30 or 60 minutes long."));
            string lengths = string.Join(", ", channels.Lengths.Select(s => string.Create(CultureInfo.InvariantCulture, $"{s / 60.0:0.##}")));
            if (channels.Lengths.Any(s => s != wanted * 60)) rows.Notes.Add(string.Create(CultureInfo.InvariantCulture, $"Readings of {lengths} minutes were turned into {wanted} minutes; the energy is the same."));
            return wanted;
        }
        if (channels.Lengths.Count == 1 && channels.Lengths.First() is var only && only <= 3600 && only % 60 == 0 && TimeAxis.AllowedStepMinutes.Contains(only / 60)) return only / 60;
        if (channels.Lengths.All(s => s > 3600)) return null;
        rows.Ask("--step", $"The readings are {string.Join(" and ", channels.Lengths.Select(s => string.Create(CultureInfo.InvariantCulture, $"{s / 60.0:0.##}")))} minutes long; which length is wanted? (Finer ones are summed, coarser ones shared out evenly.)", "60", "15");
        return null;
    }

    internal static Problem At(string file, in MeterRow row, string rule, string? value = null) => new()
    {
        File = file,
        Line = row.Line > 0 ? row.Line : null,
        Value = value ?? Instant.FromUnixTimeSeconds(row.StartSecond).ToString("uuuu-MM-dd'T'HH:mm'Z'", CultureInfo.InvariantCulture),
        Rule = rule,
    };
}
