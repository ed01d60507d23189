using EnergySim.Time;

namespace EnergySim.Tariffs;

/// <summary>For each interval the price of exported energy, in parts, under net billing.</summary>
internal sealed class ExportPriceTable
{
    private ExportPriceTable(IReadOnlyList<string> parts, double[][] pricePerKwh) => (Parts, PricePerKwh) = (parts, pricePerKwh);

    /// <summary>Names of the parts.</summary>
    public IReadOnlyList<string> Parts { get; }

    /// <summary>For each part a price an interval, money per kWh.</summary>
    public double[][] PricePerKwh { get; }

    public static ExportPriceTable Lay(TariffCalendar calendar)
    {
        List<string> parts = [.. calendar.Tariff.Versions.Select(v => v.Export).OfType<ExportTerms.NetBilling>()
            .SelectMany(n => n.Hours?.Parts ?? n.Prices.SelectMany(p => p.Parts).Select(p => p.Part)).Distinct().Order(StringComparer.Ordinal)];
        var prices = new double[parts.Count][];
        for (int p = 0; p < prices.Length; p++) prices[p] = new double[calendar.Axis.Count];
        if (parts.Count == 0) return new ExportPriceTable(parts, prices);

        var rows = new Dictionary<(int Version, int Month, int Hour, DayType Day, string Season, string Period), double[]>();
        TimeAxis axis = calendar.Axis;
        int lastDay = int.MinValue, month = 0;
        DayFacts day = default;
        for (int i = 0; i < axis.Count; i++)
        {
            if (axis.LocalDayOf(i) != lastDay)
            {
                lastDay = axis.LocalDayOf(i);
                day = calendar.DayOf(lastDay);
                month = axis.LocalDateOf(i).Month;
            }
            if (calendar.Tariff.Versions[day.Version].Export is not ExportTerms.NetBilling terms) continue;
            if (terms.Hours is ExportHours hours)
            {
                IReadOnlyList<decimal> ofHour = hours.PricesPerKwh[hours.IndexOf(axis.StartOf(i))];
                for (int p = 0; p < ofHour.Count; p++) prices[parts.IndexOf(hours.Parts[p])][i] = (double)ofHour[p];
                continue;
            }
            int minute = axis.LocalMinuteOf(i);
            var key = (day.Version, month, minute / 60, day.Day, day.Season, day.Periods[minute]!);
            if (!rows.TryGetValue(key, out double[]? row))
            {
                row = RowOf(terms, key, parts);
                rows.Add(key, row);
            }
            for (int p = 0; p < prices.Length; p++) prices[p][i] = row[p];
        }
        return new ExportPriceTable(parts, prices);
    }

    private static double[] RowOf(
        ExportTerms.NetBilling terms, (int Version, int Month, int Hour, DayType Day, string Season, string Period) at, List<string> parts)
    {
        bool namesHolidays = terms.Prices.Any(p => p.Day == DayType.Holiday);
        DayType day = at.Day == DayType.Holiday && !namesHolidays ? DayType.Weekend : at.Day;
        ExportPrice? best = null;
        int bestRank = -1;
        foreach (ExportPrice price in terms.Prices)
        {
            if (Misses(price.Month, at.Month) || Misses(price.Hour, at.Hour) || (price.Day is DayType named && named != day)
                || (price.Season is not null && price.Season != at.Season) || (price.Period is not null && price.Period != at.Period)) continue;
            int rank = (price.Month is null ? 0 : 16) + (price.Hour is null ? 0 : 8) + (price.Day is null ? 0 : 4) + (price.Season is null ? 0 : 2) + (price.Period is null ? 0 : 1);
            if (rank > bestRank) (best, bestRank) = (price, rank);
        }
        var row = new double[parts.Count];
        foreach (PricePart part in best?.Parts ?? []) row[parts.IndexOf(part.Part)] += (double)part.PricePerKwh;
        return row;
    }

    private static bool Misses(int? wanted, int actual) => wanted is int value && value != actual;
}
