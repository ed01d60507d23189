using System.Globalization;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Fills missing intervals with the median of the same time of day on like days (working days or weekends), nearest days first.</summary>
public static class GapFilling
{
    // Twenty-eight days either way hold the season; three values make a median that one odd day does not set. Common practice.
    private const int NearDays = 28, LeastValues = 3;

    /// <summary>The data with every gap filled that can be; each gap is listed in the notes.</summary>
    /// <param name="data">Meter data in equal intervals.</param>
    public static MeterData Filled(MeterData data)
    {
        ArgumentNullException.ThrowIfNull(data);
        IReadOnlyList<MeterGap> gaps = MeterGap.Of(data);
        if (data.StepMinutes is null || gaps.Count == 0) return data;
        var spans = data.Spans.ToArray();
        var likes = new LikeDays(data);
        var notes = data.Notes.Where(n => !n.StartsWith("Missing: ", StringComparison.Ordinal)).ToList();
        foreach (MeterGap gap in gaps)
        {
            double import = 0, export = 0;
            int filled = 0;
            for (int i = gap.First; i < gap.First + gap.Count; i++)
            {
                MeterSpan span = data.Spans[i];
                double? bought = data.HasImport ? span.ImportKwh ?? likes.Median(i, s => s.ImportKwh) : null;
                double? sold = data.HasExport ? span.ExportKwh ?? likes.Median(i, s => s.ExportKwh) : null;
                if ((data.HasImport && bought is null) || (data.HasExport && sold is null)) continue;
                spans[i] = span with { ImportKwh = bought, ExportKwh = sold, Mark = SpanMark.Filled };
                filled++;
                import += bought ?? 0;
                export += sold ?? 0;
            }
            notes.Add(filled < gap.Count
                ? $"Missing: {gap.Text(data.Zone)}: not every interval could be filled, for want of like days."
                : string.Create(CultureInfo.InvariantCulture, $"Filled: {gap.Text(data.Zone)}, from like days: import {import:0.000} kWh, export {export:0.000} kWh."));
        }
        return data with { Spans = spans, Notes = notes };
    }

    private sealed class LikeDays
    {
        private readonly MeterData _data;
        private readonly Dictionary<(int MinuteOfDay, bool IsWeekend), List<(int Day, int Index)>> _slots = [];
        private readonly (int Day, int Minute, bool IsWeekend)[] _places;

        public LikeDays(MeterData data)
        {
            _data = data;
            _places = new (int, int, bool)[data.Spans.Count];
            for (int i = 0; i < _places.Length; i++)
            {
                LocalDateTime local = data.Spans[i].Start.InZone(data.Zone).LocalDateTime;
                bool isWeekend = local.DayOfWeek is IsoDayOfWeek.Saturday or IsoDayOfWeek.Sunday;
                _places[i] = (Period.DaysBetween(new LocalDate(1970, 1, 1), local.Date), (local.Hour * 60) + local.Minute, isWeekend);
                var slot = (_places[i].Minute, isWeekend);
                if (!_slots.TryGetValue(slot, out List<(int, int)>? list)) _slots[slot] = list = [];
                list.Add((_places[i].Day, i));
            }
        }

        public double? Median(int index, Func<MeterSpan, double?> kwhOf)
        {
            (int day, int minute, bool isWeekend) = _places[index];
            foreach (int reach in (ReadOnlySpan<int>)[NearDays, int.MaxValue])
            {
                double[] values =
                [
                    .. _slots[(minute, isWeekend)]
                        .Where(p => Math.Abs(p.Day - day) <= reach && _data.Spans[p.Index].Mark != SpanMark.Missing)
                        .Select(p => kwhOf(_data.Spans[p.Index])).OfType<double>().Order(),
                ];
                if (values.Length >= LeastValues || (reach == int.MaxValue && values.Length > 0))
                    return values.Length % 2 == 1 ? values[values.Length / 2] : (values[(values.Length / 2) - 1] + values[values.Length / 2]) / 2;
            }
            return null;
        }
    }
}
