using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>Import − export at the retail price, by period; settled by the year, or carried.</summary>
internal sealed class RetailNettingRegime(ExportTerms.RetailNetting terms) : ExportRegime(terms)
{
    private readonly CreditBank _bank = new();
    private decimal _yearAmount, _yearKwh;
    private string[]? _parts;

    public override bool NeverOffsetsOnImport => Own.NeverOffsetOnImport;

    private ExportTerms.RetailNetting Own => (ExportTerms.RetailNetting)Terms;

    public override void SetBilled(int bill, BilledBucket[] buckets)
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
        _parts ??= [.. sums.Calendar.Tariff.Versions.SelectMany(v => v.EnergyPrices).SelectMany(p => p.Parts).Select(p => p.Part).Distinct()];
        foreach (string part in _parts)
            if (!(Own.NeverOffsetOnImport && part == version.NeverOffsetPart)) amount += draft.SumOf(part);
        _yearAmount += amount;
        if (Own.Settlement == Settlement.Year) return;
        _bank.Expire(bill, Own.CreditLastsBills);
        if (amount < 0)
        {
            draft.Add("credit", "energy credit kept for later bills", 1, draft.Currency, -amount);
            _bank.Add(bill, -amount);
        }
        else
        {
            decimal used = _bank.Use(amount);
            draft.Add("credit", "energy credit of earlier bills", used == 0 ? 0 : 1, draft.Currency, -used);
        }
    }

    public override void Settle(BillDraft draft, TariffVersion version)
    {
        if (Own.Settlement == Settlement.Year && _yearAmount < 0) draft.Add("settlement", "left-over dollars lapse", 1, draft.Currency, -_yearAmount);
        if (_yearKwh < 0) draft.Add("settlement", "net surplus of the year", _yearKwh, "kWh", Own.SurplusPricePerKwh);
        _yearAmount = _yearKwh = 0;
        _bank.Clear();
    }
}
