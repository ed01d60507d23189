using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>Net kWh per bill; a surplus earns a price, or is kept in kWh to the year's end.</summary>
internal sealed class MonthlyNettingRegime(ExportTerms.MonthlyNetting terms) : ExportRegime(terms)
{
    private const string All = "all";
    private readonly SortedDictionary<string, CreditBank> _banks = new(StringComparer.Ordinal);
    private decimal _surplusKwh;

    private ExportTerms.MonthlyNetting Own => (ExportTerms.MonthlyNetting)Terms;

    public override void SetBilled(int bill, BilledBucket[] buckets)
    {
        _surplusKwh = 0;
        foreach (CreditBank bank in _banks.Values) bank.Expire(bill, Own.CreditLastsBills);
        if (Own.AcrossPeriods) NetAcross(bill, buckets);
        else NetWithin(bill, buckets);
    }

    public override void AddCredits(BillDraft draft, MeterSums sums, int bill, TariffVersion version)
    {
        if (Own.SurplusPricePerKwh is decimal price) draft.Add("export", "net surplus of the bill", -_surplusKwh, "kWh", price);
    }

    public override void Settle(BillDraft draft, TariffVersion version)
    {
        foreach ((string period, CreditBank bank) in _banks)
            if (Own.CashOutPerKwh != 0) draft.Add("settlement", $"{period}, paid out", -bank.Left, "kWh", Own.CashOutPerKwh);
        _banks.Clear();
    }

    private void NetAcross(int bill, BilledBucket[] buckets)
    {
        decimal net = buckets.Sum(b => b.ImportKwh - b.ExportKwh), import = buckets.Sum(b => b.ImportKwh);
        decimal billed = Take(bill, All, net);
        foreach (BilledBucket bucket in buckets) bucket.BilledKwh = import == 0 ? 0 : billed * bucket.ImportKwh / import;
    }

    // What one bucket has over is kept for later bills, not for another season of the same bill.
    private void NetWithin(int bill, BilledBucket[] buckets)
    {
        foreach (BilledBucket bucket in buckets.Where(b => b.ImportKwh >= b.ExportKwh))
            bucket.BilledKwh = Take(bill, bucket.Bucket.Period, bucket.ImportKwh - bucket.ExportKwh);
        foreach (BilledBucket bucket in buckets.Where(b => b.ImportKwh < b.ExportKwh))
            bucket.BilledKwh = Take(bill, bucket.Bucket.Period, bucket.ImportKwh - bucket.ExportKwh);
    }

    // Billed kWh of a net: a negative one is banked or sold, a positive one draws on the bank first.
    private decimal Take(int bill, string period, decimal netKwh)
    {
        if (netKwh >= 0) return netKwh - (_banks.TryGetValue(period, out CreditBank? bank) ? bank.Use(netKwh) : 0);
        if (Own.SurplusPricePerKwh is not null)
        {
            _surplusKwh -= netKwh;
            return 0;
        }
        if (!_banks.TryGetValue(period, out CreditBank? kept)) _banks[period] = kept = new CreditBank();
        kept.Add(bill, -netKwh);
        return 0;
    }
}
