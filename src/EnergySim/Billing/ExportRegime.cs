using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>
/// What one export regime does to a bill: which kWh are billed at retail, which credits it adds, how its year is settled. It keeps what
/// is carried from bill to bill.
/// </summary>
internal abstract class ExportRegime(ExportTerms terms)
{
    public ExportTerms Terms => terms;

    /// <summary>True when the never-offset part is paid on metered import, not on the net.</summary>
    public virtual bool NeverOffsetsOnImport => false;

    /// <summary>Says what is billed of each bucket; left alone it is the import.</summary>
    public virtual void SetBilled(List<BilledBucket> buckets) { }

    /// <summary>Adds the lines that stand between demand and the minimum.</summary>
    public virtual void AddCredits(BillDraft draft, MeterSums sums, int bill, TariffVersion version) { }

    /// <summary>Adds the lines that close a settlement year, and forgets what lapses.</summary>
    public virtual void Settle(BillDraft draft, TariffVersion version) { }

    public static ExportRegime Of(ExportTerms terms) => terms switch
    {
        ExportTerms.RetailNetting retail => new RetailNettingRegime(retail),
        ExportTerms.NetBilling billing => new NetBillingRegime(billing),
        ExportTerms.MonthlyNetting monthly => new MonthlyNettingRegime(monthly),
        ExportTerms.TwoWay twoWay => new TwoWayRegime(twoWay),
        ExportTerms.SellAll all => new SellAllRegime(all),
        _ => new NoExportRegime(terms),
    };
}

/// <summary>Exported energy earns nothing.</summary>
internal sealed class NoExportRegime(ExportTerms terms) : ExportRegime(terms);

/// <summary>Import − export at the retail price, by period; settled by the year, or carried.</summary>
internal sealed class RetailNettingRegime(ExportTerms.RetailNetting terms) : ExportRegime(terms)
{
    private decimal _yearAmount, _yearKwh, _bank;

    public override bool NeverOffsetsOnImport => terms.NeverOffsetOnImport;

    public override void SetBilled(List<BilledBucket> buckets)
    {
        foreach (BilledBucket bucket in buckets)
        {
            bucket.BilledKwh = bucket.ImportKwh - bucket.ExportKwh;
            _yearKwh += bucket.BilledKwh;
        }
    }

    public override void AddCredits(BillDraft draft, MeterSums sums, int bill, TariffVersion version)
    {
        decimal amount = draft.SumOf("tier");
        foreach (string part in sums.Calendar.Tariff.Versions.SelectMany(v => v.EnergyPrices).SelectMany(p => p.Parts).Select(p => p.Part).Distinct())
            if (!(terms.NeverOffsetOnImport && part == version.NeverOffsetPart)) amount += draft.SumOf(part);
        _yearAmount += amount;
        if (terms.Settlement == Settlement.Year) return;
        if (amount < 0)
        {
            draft.Add("credit", "energy credit kept for later bills", 1, draft.Currency, -amount);
            _bank -= amount;
        }
        else
        {
            decimal used = Math.Min(_bank, amount);
            draft.Add("credit", "energy credit of earlier bills", used == 0 ? 0 : 1, draft.Currency, -used);
            _bank -= used;
        }
    }

    public override void Settle(BillDraft draft, TariffVersion version)
    {
        if (terms.Settlement == Settlement.Year && _yearAmount < 0) draft.Add("settlement", "left-over dollars lapse", 1, draft.Currency, -_yearAmount);
        if (_yearKwh < 0) draft.Add("settlement", "net surplus of the year", _yearKwh, "kWh", terms.SurplusPricePerKwh);
        _yearAmount = _yearKwh = _bank = 0;
    }
}

/// <summary>No netting: exports earn credit by part, and each part pays the kinds of line it may, never below zero; the rest is banked.</summary>
internal sealed class NetBillingRegime(ExportTerms.NetBilling terms) : ExportRegime(terms)
{
    private readonly SortedDictionary<string, decimal> _bank = new(StringComparer.Ordinal);

    public override void AddCredits(BillDraft draft, MeterSums sums, int bill, TariffVersion version)
    {
        IReadOnlyList<string> parts = sums.Calendar.ExportPrices.Parts;
        for (int p = 0; p < parts.Count; p++)
        {
            decimal earned = Math.Round(BillDraft.Exact(sums.ExportValue[p, bill]), 2, MidpointRounding.AwayFromZero);
            _bank[parts[p]] = _bank.GetValueOrDefault(parts[p]) + earned;
        }
        var open = new Dictionary<string, decimal>();
        foreach (BillLine line in draft.Lines) open[line.Kind] = open.GetValueOrDefault(line.Kind) + line.Amount;
        foreach ((string part, IReadOnlyList<string> kinds) in InOrder([.. open.Keys]))
        {
            decimal left = _bank[part];
            foreach (string kind in kinds)
            {
                decimal paid = Math.Clamp(open.GetValueOrDefault(kind), 0, Math.Max(0, left));
                if (paid == 0) continue;
                open[kind] -= paid;
                left -= paid;
            }
            decimal used = _bank[part] - left;
            draft.Add("credit", $"{part} credit used", used == 0 ? 0 : 1, draft.Currency, -used);
            _bank[part] = left;
        }
    }

    public override void Settle(BillDraft draft, TariffVersion version)
    {
        foreach (string part in _bank.Keys.ToList())
        {
            if (terms.CashOutFraction is decimal price && _bank[part] > 0) draft.Add("settlement", $"{part} credit paid out", -_bank[part], draft.Currency, price);
            else if (terms.YearEnd == LeftOver.RollsOver) continue;
            _bank[part] = 0;
        }
    }

    private IEnumerable<(string Part, IReadOnlyList<string> Kinds)> InOrder(IReadOnlyList<string> allKinds)
    {
        if (terms.Pays.Count == 0)
        {
            foreach (string part in _bank.Keys.ToList()) yield return (part, allKinds);
            yield break;
        }
        foreach (CreditUse use in terms.Pays)
        {
            if (use.Part != "*")
            {
                if (_bank.ContainsKey(use.Part)) yield return (use.Part, use.Kinds);
                continue;
            }
            foreach (string part in _bank.Keys.Where(k => !terms.Pays.Any(u => u.Part == k)).ToList()) yield return (part, use.Kinds);
        }
    }
}

/// <summary>Net kWh per bill; a surplus earns a price, or is kept in kWh to the year's end.</summary>
internal sealed class MonthlyNettingRegime(ExportTerms.MonthlyNetting terms) : ExportRegime(terms)
{
    private const string All = "all";
    private readonly SortedDictionary<string, decimal> _bankKwh = new(StringComparer.Ordinal);
    private decimal _surplusKwh;

    public override void SetBilled(List<BilledBucket> buckets)
    {
        _surplusKwh = 0;
        if (terms.AcrossPeriods) NetAcross(buckets);
        else NetWithin(buckets);
    }

    public override void AddCredits(BillDraft draft, MeterSums sums, int bill, TariffVersion version)
    {
        if (terms.SurplusPricePerKwh is decimal price) draft.Add("export", "net surplus of the bill", -_surplusKwh, "kWh", price);
    }

    public override void Settle(BillDraft draft, TariffVersion version)
    {
        foreach ((string period, decimal kwh) in _bankKwh)
            if (terms.CashOutPerKwh != 0) draft.Add("settlement", $"{period}, paid out", -kwh, "kWh", terms.CashOutPerKwh);
        _bankKwh.Clear();
    }

    private void NetAcross(List<BilledBucket> buckets)
    {
        decimal net = buckets.Sum(b => b.ImportKwh - b.ExportKwh), import = buckets.Sum(b => b.ImportKwh);
        decimal billed = Take(All, net);
        foreach (BilledBucket bucket in buckets) bucket.BilledKwh = import == 0 ? 0 : billed * bucket.ImportKwh / import;
    }

    // What one bucket has over is kept for later bills, not for another season of the same bill.
    private void NetWithin(List<BilledBucket> buckets)
    {
        foreach (BilledBucket bucket in buckets.Where(b => b.ImportKwh >= b.ExportKwh))
            bucket.BilledKwh = Take(bucket.Bucket.Period, bucket.ImportKwh - bucket.ExportKwh);
        foreach (BilledBucket bucket in buckets.Where(b => b.ImportKwh < b.ExportKwh))
            bucket.BilledKwh = Take(bucket.Bucket.Period, bucket.ImportKwh - bucket.ExportKwh);
    }

    // Billed kWh of a net: a negative one is banked or sold, a positive one draws on the bank first.
    private decimal Take(string period, decimal netKwh)
    {
        if (netKwh < 0)
        {
            if (terms.SurplusPricePerKwh is null) _bankKwh[period] = _bankKwh.GetValueOrDefault(period) - netKwh;
            else _surplusKwh -= netKwh;
            return 0;
        }
        decimal used = Math.Min(netKwh, _bankKwh.GetValueOrDefault(period));
        if (used > 0) _bankKwh[period] -= used;
        return netKwh - used;
    }
}

/// <summary>Exports are charged in one window above a free allowance, and rewarded in another.</summary>
internal sealed class TwoWayRegime(ExportTerms.TwoWay terms) : ExportRegime(terms)
{
    public override void AddCredits(BillDraft draft, MeterSums sums, int bill, TariffVersion version)
    {
        if (terms.AnyTimePerKwh is decimal rate)
        {
            double exportKwh = 0;
            for (int i = 0; i < sums.Calendar.Buckets.Count; i++)
                if (sums.Calendar.Buckets[i].Bill == bill) exportKwh += sums.ExportKwh[i];
            draft.Add("export", "feed-in", -BillDraft.Exact(exportKwh), "kWh", rate);
        }
        decimal free = BillDraft.Exact(terms.FreeKwhPerBill + (terms.FreeKwhPerDay * draft.Span.Days));
        draft.Add("export charge", "above the free allowance", Math.Max(0, BillDraft.Exact(sums.ChargedExportKwh[bill]) - free), "kWh", terms.ChargePerKwh);
        draft.Add("export", "reward window", -BillDraft.Exact(sums.RewardedExportKwh[bill]), "kWh", terms.RewardPerKwh);
    }
}

/// <summary>All load is bought at retail, all solar sold at a contract price.</summary>
internal sealed class SellAllRegime(ExportTerms.SellAll terms) : ExportRegime(terms)
{
    public override void SetBilled(List<BilledBucket> buckets)
    {
        foreach (BilledBucket bucket in buckets) bucket.BilledKwh = bucket.LoadKwh;
    }

    public override void AddCredits(BillDraft draft, MeterSums sums, int bill, TariffVersion version) =>
        draft.Add("export", "all solar", -BillDraft.Exact(sums.SolarKwh[bill]), "kWh", terms.PricePerKwh);
}
