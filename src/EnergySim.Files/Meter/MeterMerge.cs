namespace EnergySim.Files;

/// <summary>Joins files of one meter: months one after another, or one file of import and one of export.</summary>
public static class MeterMerge
{
    /// <summary>The files as one; what stands in two of them must agree, unless a rule says which counts.</summary>
    /// <param name="files">Meter data, at least one.</param>
    /// <param name="options">What was said of them.</param>
    /// <exception cref="ProblemsException">They contradict each other.</exception>
    public static MeterData Of(IReadOnlyList<MeterData> files, MeterOptions options)
    {
        ArgumentNullException.ThrowIfNull(files);
        ArgumentNullException.ThrowIfNull(options);
        if (files.Count == 1) return files[0];
        var rows = new MeterRows();
        foreach (MeterData data in files)
        {
            rows.Findings.AddRange(data.Findings);
            rows.Notes.AddRange(data.Notes.Where(n => !n.StartsWith("Missing: ", StringComparison.Ordinal)).Select(n => $"{data.File}: {n}"));
            foreach (MeterSpan span in data.Spans)
            {
                if (span.Mark == SpanMark.Missing) continue;
                if (data.HasImport) rows.Rows.Add(Row(span, span.ImportKwh, MeterFlow.Import));
                if (data.HasExport) rows.Rows.Add(Row(span, span.ExportKwh, MeterFlow.Export));
            }
        }
        MeterData merged = MeterAssembly.Of(string.Join(" + ", files.Select(f => f.File)), rows, files.Select(f => f.Zone).FirstOrDefault(z => z.Id != "UTC"), options);
        return merged with { IsNetted = files.Any(f => f.IsNetted) };
    }

    private static MeterRow Row(in MeterSpan span, double? kwh, MeterFlow flow) =>
        new(span.Start.ToUnixTimeSeconds(), span.Seconds, kwh, flow, span.Mark, 0);
}
