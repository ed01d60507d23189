using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>No netting: exports earn credit by part, and each part pays the kinds of line it may, never below zero; the rest is banked.</summary>
internal sealed class NetBillingRegime(ExportTerms.NetBilling terms) : ExportRegime(terms)
{
    // By name of part; where it stands among the sums.
    private Credit[] _credits = [];
    private readonly OpenAmounts _open = new();
    private IReadOnlyList<CreditUse>? _ordered;
    private (Credit Credit, IReadOnlyList<string>? Kinds)[] _order = [];

    private ExportTerms.NetBilling Own => (ExportTerms.NetBilling)Terms;

    public override void AddCredits(BillDraft draft, MeterSums sums, int bill, TariffVersion version)
    {
        if (_credits.Length == 0) _credits = [.. sums.Calendar.ExportPrices.Parts.Select((p, i) => new Credit(p, i)).OrderBy(c => c.Part, StringComparer.Ordinal)];
        foreach (Credit credit in _credits)
        {
            credit.Bank.Expire(bill, Own.CreditLastsBills);
            credit.Bank.Add(bill, BillRounding.ToTheCent(BillDraft.Exact(sums.ExportValue[credit.Sum, bill])));
        }
        if (!ReferenceEquals(_ordered, Own.Pays)) _order = [.. InOrder(_ordered = Own.Pays)];
        _open.Take(draft);
        foreach ((Credit credit, IReadOnlyList<string>? kinds) in _order)
        {
            decimal used = 0;
            for (int k = 0; k < (kinds?.Count ?? _open.Count); k++) used += _open.Pay(kinds is null ? k : _open.IndexOf(kinds[k]), credit.Bank);
            draft.Add("credit", credit.UsedName, used == 0 ? 0 : 1, draft.Currency, -used);
        }
    }

    public override void Settle(BillDraft draft, TariffVersion version)
    {
        foreach (Credit credit in _credits)
        {
            CreditBank bank = credit.Bank;
            // Exports at prices below zero can leave more owed than earned; what is owed does not lapse.
            if (bank.Left < 0) draft.Add("settlement", $"{credit.Part} credit below zero, owed", 1, draft.Currency, -bank.Left);
            else if (Own.CashOutFraction is decimal price) draft.Add("settlement", $"{credit.Part} credit paid out", -bank.Left, draft.Currency, price);
            else if (Own.YearEnd == LeftOver.RollsOver) continue;
            bank.Clear();
        }
    }

    // No kinds = all.
    private IEnumerable<(Credit Credit, IReadOnlyList<string>? Kinds)> InOrder(IReadOnlyList<CreditUse> uses)
    {
        if (uses.Count == 0) return _credits.Select(c => (c, (IReadOnlyList<string>?)null));
        return uses.SelectMany(use => _credits
            .Where(c => use.Part == "*" ? !uses.Any(u => u.Part == c.Part) : c.Part == use.Part)
            .Select(c => (c, (IReadOnlyList<string>?)use.Kinds)));
    }

    /// <summary>What one part of the export price earned and was not used yet.</summary>
    private sealed class Credit(string part, int sum)
    {
        public string Part => part;

        public int Sum => sum;

        public string UsedName { get; } = $"{part} credit used";

        public CreditBank Bank { get; } = new();
    }

    /// <summary>What is still to be paid of each kind of line, in order of first appearance.</summary>
    private sealed class OpenAmounts
    {
        private readonly List<(string Kind, decimal Amount)> _amounts = [];

        public void Take(BillDraft draft)
        {
            _amounts.Clear();
            foreach (ref readonly DraftLine line in draft.Lines)
            {
                int at = IndexOf(line.Kind);
                if (at < 0) _amounts.Add((line.Kind, draft.ValueOf(in line)));
                else _amounts[at] = (line.Kind, _amounts[at].Amount + draft.ValueOf(in line));
            }
        }

        public int Count => _amounts.Count;

        /// <summary>−1 where the bill has none of the kind.</summary>
        public int IndexOf(string kind)
        {
            for (int i = 0; i < _amounts.Count; i++)
                if (_amounts[i].Kind == kind) return i;
            return -1;
        }

        /// <summary>Pays from a bank; gives how much.</summary>
        public decimal Pay(int index, CreditBank bank)
        {
            if (index < 0) return 0;
            (string kind, decimal amount) = _amounts[index];
            decimal paid = bank.Use(amount);
            if (paid != 0) _amounts[index] = (kind, amount - paid);
            return paid;
        }
    }
}
