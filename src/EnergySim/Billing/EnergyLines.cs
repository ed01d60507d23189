using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>A line for each version, season, period and part of the price.</summary>
internal static class EnergyLines
{
    public static void Add(BillDraft draft, TariffCalendar calendar, List<BilledBucket> buckets, ExportRegime regime)
    {
        foreach (BilledBucket bucket in buckets)
        {
            (int _, int v, string season, string period) = bucket.Bucket;
            TariffVersion version = calendar.Tariff.Versions[v];
            EnergyPrice price = calendar.RulesOf(v).PriceOf(season, period)!;
            string when = version.Seasons.Count == 0 ? period : $"{season} {period}";
            foreach (PricePart part in price.Parts)
            {
                bool neverOffset = regime.NeverOffsetsOnImport && part.Part == version.NeverOffsetPart;
                draft.Add(part.Part, Biller.Named($"{when}, {part.Part}", calendar, v), neverOffset ? bucket.ImportKwh : bucket.BilledKwh, "kWh", part.PricePerKwh);
            }
        }
    }
}
