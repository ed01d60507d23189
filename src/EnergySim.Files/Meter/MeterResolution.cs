namespace EnergySim.Files;

/// <summary>What is left of a peak, of import and of export when intervals are this long.</summary>
/// <param name="Minutes">Length of the interval.</param>
/// <param name="PeakKw">Highest mean import power, kW.</param>
/// <param name="ImportKwh">Bought, kWh, with import and export inside an interval netted.</param>
/// <param name="ExportKwh">Sold, kWh, likewise.</param>
public readonly record struct MeterResolutionRow(int Minutes, double PeakKw, double ImportKwh, double ExportKwh);

/// <summary>What averaging to an interval hides: measured by averaging the data further, and from that estimated for the data's own interval.</summary>
public sealed record MeterResolution
{
    /// <summary>The data's own interval first, then twice and four times as long (as far as 60 minutes).</summary>
    public required IReadOnlyList<MeterResolutionRow> Rows { get; init; }

    /// <summary>Estimated share by which the true peak is above that of the data; null where the data can not show it.</summary>
    public required double? PeakHiddenFraction { get; init; }

    /// <summary>Estimated kWh of import, and as much of export, that the data's own interval nets away; null where the data can not show it.</summary>
    public required double? NettedKwh { get; init; }

    /// <summary>Works it out.</summary>
    /// <param name="data">Meter data in equal intervals.</param>
    public static MeterResolution Of(MeterData data)
    {
        ArgumentNullException.ThrowIfNull(data);
        int step = data.StepMinutes ?? throw new ArgumentException("The data are not in equal intervals.", nameof(data));
        var rows = new List<MeterResolutionRow>();
        for (int times = 1; times <= 4 && times * step <= 60; times *= 2) rows.Add(Row(data, step, times));
        return new MeterResolution
        {
            Rows = rows,
            PeakHiddenFraction = rows.Count < 3 || rows[0].PeakKw <= 0 ? null : Hidden(rows[0].PeakKw - rows[1].PeakKw, rows[1].PeakKw - rows[2].PeakKw) / rows[0].PeakKw,
            NettedKwh = rows.Count < 3 || !data.HasExport ? null : Hidden(rows[0].ImportKwh - rows[1].ImportKwh, rows[1].ImportKwh - rows[2].ImportKwh),
        };
    }

    // The losses of two doublings continued as a geometric series to ever shorter intervals; a ratio near 1 would not converge and is held at 0.8.
    private static double? Hidden(double first, double second)
    {
        if (first <= 0 || second <= 0) return 0;
        double ratio = Math.Min(0.8, first / second);
        return first * ratio / (1 - ratio);
    }

    private static MeterResolutionRow Row(MeterData data, int step, int times)
    {
        double import = 0, export = 0, peak = 0;
        for (int i = 0; i + times <= data.Spans.Count; i += times)
        {
            double bought = 0, sold = 0;
            bool known = true;
            for (int k = i; k < i + times; k++)
            {
                MeterSpan span = data.Spans[k];
                known &= span.ImportKwh is not null || !data.HasImport;
                bought += span.ImportKwh ?? 0;
                sold += span.ExportKwh ?? 0;
            }
            if (!known) continue;
            if (times > 1) (bought, sold) = (Math.Max(0, bought - sold), Math.Max(0, sold - bought));
            import += bought;
            export += sold;
            peak = Math.Max(peak, bought * 60 / (step * times));
        }
        return new MeterResolutionRow(step * times, peak, import, export);
    }
}
