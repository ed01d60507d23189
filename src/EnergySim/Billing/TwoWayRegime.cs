using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>Exports are charged in one window above a free allowance, and rewarded in another.</summary>
internal sealed class TwoWayRegime(ExportTerms.TwoWay terms) : ExportRegime(terms)
{
    public override void AddCredits(BillDraft draft, MeterSums sums, int bill, TariffVersion version)
    {
        var own = (ExportTerms.TwoWay)Terms;
        if (own.AnyTimePerKwh is decimal rate)
        {
            double exportKwh = 0;
            for (int i = 0; i < sums.Calendar.Buckets.Count; i++)
                if (sums.Calendar.Buckets[i].Bill == bill) exportKwh += sums.ExportKwh[i];
            draft.Add("export", "feed-in", -BillDraft.Exact(exportKwh), "kWh", rate);
        }
        decimal free = BillDraft.Exact(own.FreeKwhPerBill + (own.FreeKwhPerDay * draft.Span.Days));
        draft.Add("export charge", "above the free allowance", Math.Max(0, BillDraft.Exact(sums.ChargedExportKwh[bill]) - free), "kWh", own.ChargePerKwh);
        draft.Add("export", "reward window", -BillDraft.Exact(sums.RewardedExportKwh[bill]), "kWh", own.RewardPerKwh);
    }
}
