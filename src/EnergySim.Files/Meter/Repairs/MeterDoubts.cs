using System.Globalization;

namespace EnergySim.Files;

/// <summary>What looks wrong in meter data: spikes, a meter that stands still, both channels running. Nothing is changed.</summary>
public static class MeterDoubts
{
    // Common practice, ours: a home's peak is not twenty times its busy level, and no home keeps one number for a day.
    private const double SpikeFactor = 20, BusyFraction = 0.98, StuckHours = 24, ServiceKw = 96;

    /// <summary>The warnings, a sentence each; at most twenty a kind.</summary>
    /// <param name="data">Meter data.</param>
    public static IReadOnlyList<string> Of(MeterData data)
    {
        ArgumentNullException.ThrowIfNull(data);
        var warnings = new List<string>();
        if (data.StepMinutes is not int step) return warnings;
        if (data.HasImport) Channel(data, step, s => s.ImportKwh, "import", isSun: false, warnings);
        if (data.HasExport) Channel(data, step, s => s.ExportKwh, "export", isSun: true, warnings);
        return warnings;
    }

    private static void Channel(MeterData data, int step, Func<MeterSpan, double?> kwhOf, string name, bool isSun, List<string> warnings)
    {
        Spikes(data, step, kwhOf, name, warnings);
        Stuck(data, step, kwhOf, name, isSun, warnings);
    }

    private static void Spikes(MeterData data, int step, Func<MeterSpan, double?> kwhOf, string name, List<string> warnings)
    {
        double[] sorted = [.. data.Spans.Select(kwhOf).OfType<double>().Where(v => v > 0).Order()];
        if (sorted.Length < 24) return;
        double busy = sorted[(int)((sorted.Length - 1) * BusyFraction) - (sorted.Length > 50 ? 0 : 1)];
        int told = 0;
        foreach (MeterSpan span in data.Spans)
        {
            if (kwhOf(span) is not double kwh) continue;
            double kw = kwh * 60 / step;
            // 400 A at 240 V: more than a house's service carries.
            if (!(kw > ServiceKw) && !(kwh > busy * SpikeFactor && kw > 10)) continue;
            if (++told > ProblemsException.Most) break;
            warnings.Add(string.Create(CultureInfo.InvariantCulture,
                $"Spike: {name} of {kwh:0.###} kWh ({kw:N1} kW) at {span.Start.InZone(data.Zone):uuuu-MM-dd HH:mm}; 98 of 100 intervals stay under {busy:0.###} kWh."));
        }
    }

    private static void Stuck(MeterData data, int step, Func<MeterSpan, double?> kwhOf, string name, bool isSun, List<string> warnings)
    {
        int told = 0;
        for (int i = 0; i < data.Spans.Count; i++)
        {
            double? value = kwhOf(data.Spans[i]);
            int from = i;
            while (value is not null && i + 1 < data.Spans.Count && kwhOf(data.Spans[i + 1]) == value) i++;
            double hours = (i - from + 1) * step / 60.0;
            // Nothing is sold through a night, or through a dark week.
            if (value is null || hours < StuckHours || (isSun && value == 0)) continue;
            if (++told > ProblemsException.Most) return;
            warnings.Add(string.Create(CultureInfo.InvariantCulture,
                $"Stuck: {name} is {value:0.###} kWh in every interval for {hours:0.#} hours from {data.Spans[from].Start.InZone(data.Zone):uuuu-MM-dd HH:mm}; an outage, an empty house or a dead meter."));
        }
    }
}
