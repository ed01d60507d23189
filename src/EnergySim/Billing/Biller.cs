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
        var bills = new Bill[sums.Calendar.Bills.Count];
        All(sums, bills);
        return new BillSet { Currency = sums.Calendar.Tariff.Currency, Bills = bills, Notes = NotesOf(sums.Calendar) };
    }

    /// <summary>What the bills of a span come to: the same bills, of which nothing but the total is kept.</summary>
    /// <param name="sums">What the meters saw, by bucket.</param>
    /// <returns>Money in the plan's currency, credits and settlement included: to the last digit <see cref="BillSet.Total"/> of <see cref="Bill"/>. Below 0 = paid to the customer.</returns>
    /// <exception cref="ArgumentNullException">No sums.</exception>
    public static decimal Total(MeterSums sums)
    {
        ArgumentNullException.ThrowIfNull(sums);
        return All(sums, null);
    }

    private static decimal All(MeterSums sums, Bill[]? bills)
    {
        BillForm[] forms = BillForm.Of(sums.Calendar);
        var draft = new BillDraft(sums.Calendar.Tariff.Currency);
        var demand = new DemandHistory();
        ExportRegime? regime = null;
        decimal total = 0;
        for (int b = 0; b < forms.Length; b++)
        {
            ExportTerms terms = forms[b].AtEnd.Export;
            if (regime is null || !regime.Fits(terms)) regime = ExportRegime.Of(terms);
            regime.Renew(terms);
            bool regimeEnds = b + 1 < forms.Length && !regime.Fits(forms[b + 1].AtEnd.Export);
            draft.Begin(forms[b].Span, forms[b].AtEnd.Rounding);
            One(draft, sums, forms[b], regime, demand, forms[b].Span.EndsSettlementYear || regimeEnds);
            total += draft.Finish();
            if (bills is not null) bills[b] = draft.ToBill();
        }
        return total;
    }

    private static void One(BillDraft draft, MeterSums sums, BillForm form, ExportRegime regime, DemandHistory demand, bool settles)
    {
        TariffVersion version = form.AtEnd;
        var buckets = new BilledBucket[form.Energy.Length];
        for (int i = 0; i < buckets.Length; i++) buckets[i] = new BilledBucket(form.Energy[i], sums);
        regime.SetBilled(form.Bill, buckets);
        EnergyLines.Add(draft, buckets, regime);
        TierLines.Add(draft, form, buckets);
        foreach ((int v, string name, decimal adder) in form.Events) draft.Add("event", name, BillDraft.Exact(sums.EventKwh[form.Bill, v]), "kWh", adder);
        AddFixed(draft, form);
        demand.Add(draft, form, sums.DemandKw);
        regime.AddCredits(draft, sums, form.Bill, version);
        if (version.Minimum is MinimumBill minimum)
        {
            decimal least = minimum.PerBill + (minimum.PerDay * draft.Span.Days);
            decimal counted = draft.SumOf(minimum.Counts);
            if (counted < least) draft.Add("minimum", "top-up to the minimum bill", 1, draft.Currency, least - counted);
        }
        foreach (Percentage percentage in version.Percentages)
            draft.Add(percentage.Name, percentage.Name, draft.SumOf(percentage.Of), draft.Currency, percentage.Rate);
        if (settles) regime.Settle(draft, version);
    }

    private static void AddFixed(BillDraft draft, BillForm form)
    {
        foreach (FixedRow day in form.Fixed) draft.Add("fixed", day.Name, day.Days, "day", day.PricePerDay);
        TariffVersion atEnd = form.AtEnd;
        if (atEnd.FixedPerMonth == 0) return;
        if (atEnd.FixedPerMonthByDays)
            draft.Add("fixed", "service, a month of 30 days", draft.Span.Days / 30m, "bill", atEnd.FixedPerMonth, atEnd.FixedPerMonth * draft.Span.Days / 30m);
        else
            draft.Add("fixed", "service, a month", 1, "bill", atEnd.FixedPerMonth);
    }

    // The settlement's notes concern only regimes that settle.
    private static List<string> NotesOf(TariffCalendar calendar)
    {
        bool settles = calendar.Tariff.Versions.Any(v => v.Export is ExportTerms.RetailNetting or ExportTerms.MonthlyNetting or ExportTerms.NetBilling);
        return [.. calendar.Notes.Where(n => settles || !n.StartsWith("partial settlement", StringComparison.Ordinal))];
    }
}
