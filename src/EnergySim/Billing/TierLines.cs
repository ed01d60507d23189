using System.Globalization;
using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>
/// Tiers: the bill's kWh (its net, at least 0, under netting) cut at shares of the allowance; with periods each step is shared out over
/// them pro rata to their kWh.
/// </summary>
internal static class TierLines
{
    public static void Add(BillDraft draft, BillForm form, BilledBucket[] buckets)
    {
        if (!form.HasTiers) return;
        decimal total = 0, positive = 0;
        foreach (BilledBucket bucket in buckets)
        {
            total += bucket.BilledKwh;
            positive += Math.Max(0, bucket.BilledKwh);
        }
        total = Math.Max(0, total);
        if (total == 0) return;
        int most = form.Calendar.Tariff.Versions.Max(v => v.Tiers?.Steps.Count ?? 0);
        for (int step = 0; step < most; step++)
            AddStep(draft, form.Calendar, step, form.AllowanceKwh, total, positive, buckets);
        AddCredit(draft, form.Calendar, form.AllowanceKwh, total, positive, buckets);
    }

    private static void AddStep(
        BillDraft draft, TariffCalendar calendar, int step, decimal allowance, decimal total, decimal positive, BilledBucket[] buckets)
    {
        var shares = new List<(int Version, string? Period, decimal Kwh, decimal Price)>();
        foreach (BilledBucket bucket in buckets)
        {
            if (bucket.BilledKwh <= 0 || calendar.Tariff.Versions[bucket.Bucket.Version].Tiers is not { } tiers || step >= tiers.Steps.Count) continue;
            decimal from = (decimal)tiers.Steps[step].FromFraction * allowance;
            decimal to = step + 1 < tiers.Steps.Count ? (decimal)tiers.Steps[step + 1].FromFraction * allowance : decimal.MaxValue;
            decimal inStep = Math.Max(0, Math.Min(total, to) - from);
            TierStep terms = tiers.Steps[step];
            string? period = terms.ByPeriod is null ? null : bucket.Bucket.Period;
            decimal price = terms.PricePerKwh ?? terms.ByPeriod!.GetValueOrDefault(bucket.Bucket.Period);
            decimal kwh = inStep * bucket.BilledKwh / positive;
            int at = shares.FindIndex(s => s.Version == bucket.Bucket.Version && s.Period == period);
            if (at < 0) shares.Add((bucket.Bucket.Version, period, kwh, price));
            else shares[at] = shares[at] with { Kwh = shares[at].Kwh + kwh };
        }
        foreach ((int version, string? period, decimal kwh, decimal price) in shares)
        {
            string name = string.Create(CultureInfo.InvariantCulture, $"step {step + 1}{(period is null ? "" : ", " + period)}");
            draft.Add("tier", BillForm.Named(name, calendar, version), kwh, "kWh", price);
        }
    }

    // One line a price: versions that agree share it.
    private static void AddCredit(
        BillDraft draft, TariffCalendar calendar, decimal allowance, decimal total, decimal positive, BilledBucket[] buckets)
    {
        var shares = new List<(decimal Price, decimal Kwh)>();
        foreach (BilledBucket bucket in buckets)
        {
            if (bucket.BilledKwh <= 0 || calendar.Tariff.Versions[bucket.Bucket.Version].Tiers?.CreditPerKwh is not decimal price) continue;
            decimal kwh = Math.Min(total, allowance) * bucket.BilledKwh / positive;
            int at = shares.FindIndex(s => s.Price == price);
            if (at < 0) shares.Add((price, kwh));
            else shares[at] = (price, shares[at].Kwh + kwh);
        }
        foreach ((decimal price, decimal kwh) in shares) draft.Add("tier", "credit under the allowance", -Math.Round(kwh, 6), "kWh", price);
    }
}
