namespace EnergySim.Billing;

/// <summary>A line for each version, season, period and part of the price.</summary>
internal static class EnergyLines
{
    public static void Add(BillDraft draft, BilledBucket[] buckets, ExportRegime regime)
    {
        bool netsNever = regime.NeverOffsetsOnImport;
        foreach (BilledBucket bucket in buckets)
            foreach (PartPrice part in bucket.Row.Prices)
                draft.Add(part.Part, part.Name, netsNever && part.IsNeverOffset ? bucket.ImportKwh : bucket.BilledKwh, "kWh", part.PricePerKwh);
    }
}
