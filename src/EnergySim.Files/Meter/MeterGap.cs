using System.Globalization;
using NodaTime;

namespace EnergySim.Files;

/// <summary>A run of missing intervals.</summary>
/// <param name="First">Index of the first.</param>
/// <param name="Count">How many.</param>
/// <param name="Start">Its start.</param>
/// <param name="End">Its end.</param>
public readonly record struct MeterGap(int First, int Count, Instant Start, Instant End)
{
    /// <summary>The gaps of meter data, in order of time.</summary>
    public static IReadOnlyList<MeterGap> Of(MeterData data)
    {
        ArgumentNullException.ThrowIfNull(data);
        var gaps = new List<MeterGap>();
        for (int i = 0; i < data.Spans.Count; i++)
        {
            if (!IsOpen(data, i)) continue;
            int from = i;
            while (i + 1 < data.Spans.Count && IsOpen(data, i + 1)) i++;
            gaps.Add(new MeterGap(from, i - from + 1, data.Spans[from].Start, data.Spans[i].End));
        }
        return gaps;
    }

    /// <summary>The gap in words, on the zone's clock.</summary>
    public string Text(DateTimeZone zone) => string.Create(CultureInfo.InvariantCulture,
        $"{Start.InZone(zone):uuuu-MM-dd HH:mm} to {End.InZone(zone):uuuu-MM-dd HH:mm} ({Count} {(Count == 1 ? "interval" : "intervals")})");

    private static bool IsOpen(MeterData data, int i) =>
        (data.HasImport && data.Spans[i].ImportKwh is null) || (data.HasExport && data.Spans[i].ExportKwh is null);
}
