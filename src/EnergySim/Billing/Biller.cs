using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>
/// Prices sums: energy, tiers, events, fixed, demand, export, minimum, percentages, settlement, in that order (TARIFF.md). The bill is a
/// function of the sums alone; no battery is seen here.
/// </summary>
public static class Biller
{
    /// <summary>The bills of a span.</summary>
    /// <param name="sums">What the meters saw, by bucket.</param>
    public static BillSet Bill(MeterSums sums)
    {
        ArgumentNullException.ThrowIfNull(sums);
        TariffCalendar calendar = sums.Calendar;
        List<BilledBucket>[] buckets = BucketsByBill(sums);
        var bills = new List<Bill>(calendar.Bills.Count);
        var demand = new DemandHistory();
        ExportRegime? regime = null;
        for (int b = 0; b < calendar.Bills.Count; b++)
        {
            BillSpan span = calendar.Bills[b];
            TariffVersion version = calendar.Tariff.Versions[calendar.VersionAtEndOf(span)];
            if (regime is null || !regime.Fits(version.Export)) regime = ExportRegime.Of(version.Export);
            regime.Renew(version.Export);
            bool regimeEnds = b + 1 < calendar.Bills.Count
                && !regime.Fits(calendar.Tariff.Versions[calendar.VersionAtEndOf(calendar.Bills[b + 1])].Export);
            bills.Add(One(sums, b, version, buckets[b], regime, demand, span.EndsSettlementYear || regimeEnds));
        }
        return new BillSet { Currency = calendar.Tariff.Currency, Bills = bills, Notes = NotesOf(calendar) };
    }

    private static Bill One(
        MeterSums sums, int bill, TariffVersion version, List<BilledBucket> buckets, ExportRegime regime, DemandHistory demand, bool settles)
    {
        TariffCalendar calendar = sums.Calendar;
        var draft = new BillDraft(calendar.Bills[bill], calendar.Tariff.Currency, version.Rounding);
        regime.SetBilled(bill, buckets);
        EnergyLines.Add(draft, calendar, buckets, regime);
        TierLines.Add(draft, calendar, bill, version, buckets);
        for (int v = 0; v < calendar.Tariff.Versions.Count; v++)
            if (calendar.Tariff.Versions[v].Events is EventCharge events)
                draft.Add("event", Named("event adder", calendar, v), BillDraft.Exact(sums.EventKwh[bill, v]), "kWh", events.AdderPerKwh);
        AddFixed(draft, calendar, bill, version);
        demand.Add(draft, calendar, bill, sums.DemandKw);
        regime.AddCredits(draft, sums, bill, version);
        if (version.Minimum is MinimumBill minimum)
        {
            decimal least = minimum.PerBill + (minimum.PerDay * draft.Span.Days);
            decimal counted = draft.SumOf(minimum.Counts);
            if (counted < least) draft.Add("minimum", "top-up to the minimum bill", 1, draft.Currency, least - counted);
        }
        foreach (Percentage percentage in version.Percentages)
            draft.Add(percentage.Name, percentage.Name, draft.SumOf(percentage.Of), draft.Currency, percentage.Rate);
        if (settles) regime.Settle(draft, version);
        return draft.Finish();
    }

    private static void AddFixed(BillDraft draft, TariffCalendar calendar, int bill, TariffVersion atEnd)
    {
        for (int v = 0; v < calendar.Tariff.Versions.Count; v++)
        {
            int days = 0;
            foreach ((BillPart part, int count) in calendar.Parts)
                if (part.Bill == bill && part.Version == v) days += count;
            draft.Add("fixed", Named("service, a day", calendar, v), calendar.Tariff.Versions[v].FixedPerDay == 0 ? 0 : days, "day", calendar.Tariff.Versions[v].FixedPerDay);
        }
        if (atEnd.FixedPerMonth == 0) return;
        if (atEnd.FixedPerMonthByDays)
            draft.Add("fixed", "service, a month of 30 days", draft.Span.Days / 30m, "bill", atEnd.FixedPerMonth, atEnd.FixedPerMonth * draft.Span.Days / 30m);
        else
            draft.Add("fixed", "service, a month", 1, "bill", atEnd.FixedPerMonth);
    }

    private static List<BilledBucket>[] BucketsByBill(MeterSums sums)
    {
        TariffCalendar calendar = sums.Calendar;
        var byBill = new List<BilledBucket>[calendar.Bills.Count];
        for (int b = 0; b < byBill.Length; b++) byBill[b] = [];
        for (int i = 0; i < calendar.Buckets.Count; i++)
        {
            decimal import = BillDraft.Exact(sums.ImportKwh[i]);
            byBill[calendar.Buckets[i].Bill].Add(new BilledBucket
            {
                Bucket = calendar.Buckets[i],
                ImportKwh = import,
                ExportKwh = BillDraft.Exact(sums.ExportKwh[i]),
                LoadKwh = BillDraft.Exact(sums.LoadKwh[i]),
                BilledKwh = import,
            });
        }
        foreach (List<BilledBucket> buckets in byBill) buckets.Sort(ByVersionSeasonPeriod);
        return byBill;
    }

    private static int ByVersionSeasonPeriod(BilledBucket left, BilledBucket right)
    {
        int order = left.Bucket.Version.CompareTo(right.Bucket.Version);
        if (order == 0) order = string.CompareOrdinal(left.Bucket.Season, right.Bucket.Season);
        return order != 0 ? order : string.CompareOrdinal(left.Bucket.Period, right.Bucket.Period);
    }

    // The settlement's notes concern only regimes that settle.
    private static List<string> NotesOf(TariffCalendar calendar)
    {
        bool settles = calendar.Tariff.Versions.Any(v => v.Export is ExportTerms.RetailNetting or ExportTerms.MonthlyNetting or ExportTerms.NetBilling);
        return [.. calendar.Notes.Where(n => settles || !n.StartsWith("partial settlement", StringComparison.Ordinal))];
    }

    /// <summary>A line's name with the version it is priced by, where the plan has several.</summary>
    internal static string Named(string name, TariffCalendar calendar, int version) => calendar.Tariff.Versions.Count == 1
        ? name
        : $"{name} (prices of {calendar.Tariff.Versions[version].Effective.ToString("uuuu-MM-dd", System.Globalization.CultureInfo.InvariantCulture)})";
}
