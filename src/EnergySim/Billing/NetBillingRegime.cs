using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>No netting: exports earn credit by part, and each part pays the kinds of line it may, never below zero; the rest is banked.</summary>
internal sealed class NetBillingRegime(ExportTerms.NetBilling terms) : ExportRegime(terms)
{
    private readonly SortedDictionary<string, CreditBank> _banks = new(StringComparer.Ordinal);

    private ExportTerms.NetBilling Own => (ExportTerms.NetBilling)Terms;

    public override void AddCredits(BillDraft draft, MeterSums sums, int bill, TariffVersion version)
    {
        IReadOnlyList<string> parts = sums.Calendar.ExportPrices.Parts;
        for (int p = 0; p < parts.Count; p++)
        {
            decimal earned = Math.Round(BillDraft.Exact(sums.ExportValue[p, bill]), 2, MidpointRounding.AwayFromZero);
            if (!_banks.TryGetValue(parts[p], out CreditBank? bank)) _banks[parts[p]] = bank = new CreditBank();
            bank.Expire(bill, Own.CreditLastsBills);
            bank.Add(bill, earned);
        }
        var open = new Dictionary<string, decimal>();
        foreach (BillLine line in draft.Lines) open[line.Kind] = open.GetValueOrDefault(line.Kind) + draft.ValueOf(line);
        foreach ((string part, IReadOnlyList<string> kinds) in InOrder([.. open.Keys]))
        {
            decimal used = 0;
            foreach (string kind in kinds)
            {
                decimal paid = _banks[part].Use(open.GetValueOrDefault(kind));
                if (paid == 0) continue;
                open[kind] -= paid;
                used += paid;
            }
            draft.Add("credit", $"{part} credit used", used == 0 ? 0 : 1, draft.Currency, -used);
        }
    }

    public override void Settle(BillDraft draft, TariffVersion version)
    {
        foreach ((string part, CreditBank bank) in _banks)
        {
            // Exports at prices below zero can leave more owed than earned; what is owed does not lapse.
            if (bank.Left < 0) draft.Add("settlement", $"{part} credit below zero, owed", 1, draft.Currency, -bank.Left);
            else if (Own.CashOutFraction is decimal price) draft.Add("settlement", $"{part} credit paid out", -bank.Left, draft.Currency, price);
            else if (Own.YearEnd == LeftOver.RollsOver) continue;
            bank.Clear();
        }
    }

    private IEnumerable<(string Part, IReadOnlyList<string> Kinds)> InOrder(IReadOnlyList<string> allKinds)
    {
        if (Own.Pays.Count == 0)
        {
            foreach (string part in _banks.Keys) yield return (part, allKinds);
            yield break;
        }
        foreach (CreditUse use in Own.Pays)
        {
            if (use.Part != "*")
            {
                if (_banks.ContainsKey(use.Part)) yield return (use.Part, use.Kinds);
                continue;
            }
            foreach (string part in _banks.Keys.Where(k => !Own.Pays.Any(u => u.Part == k))) yield return (part, use.Kinds);
        }
    }
}
