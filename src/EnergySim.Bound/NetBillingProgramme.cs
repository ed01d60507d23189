using EnergySim.Tariffs;

namespace EnergySim.Bound;

/// <summary>Exports earn credit by part; each part pays what it may, and the rest is banked.</summary>
internal sealed class NetBillingProgramme(ExportTerms.NetBilling terms, Programme programme, MeterProgramme meter, TariffCalendar calendar)
    : ExportProgramme(terms, programme, meter, calendar)
{
    private readonly Dictionary<string, CreditPool> _pools = [];

    private ExportTerms.NetBilling Own => (ExportTerms.NetBilling)Terms;

    public override void AddCredits(BillLines lines, int bill, TariffVersion version)
    {
        Dictionary<string, Expression> open = lines.Kinds.ToDictionary(k => k, k => new Expression().Plus(lines[k]));
        Dictionary<string, Expression> paid = open.Keys.ToDictionary(k => k, _ => new Expression());
        var uses = new List<(CreditPool Pool, IReadOnlyList<string> Kinds, Expression Used)>();
        for (int p = 0; p < Calendar.ExportPrices.Parts.Count; p++)
        {
            string part = Calendar.ExportPrices.Parts[p];
            if (!_pools.TryGetValue(part, out CreditPool? pool)) _pools.Add(part, pool = new CreditPool(Programme, CreditMayWait));
            pool.Expire(bill, Own.CreditLastsBills);
            pool.Earn(bill, Meter.ExportValue[p, bill]);
            IReadOnlyList<string> kinds = [.. (KindsOf(part) ?? [.. open.Keys]).Where(open.ContainsKey)];
            var used = new Expression();
            foreach (string kind in kinds)
            {
                int use = Programme.Column(0, Math.Max(0, Programme.HighOf(open[kind])));
                used.Plus(use);
                paid[kind].Plus(use);
            }
            lines["credit"].Minus(used);
            uses.Add((pool, kinds, used));
        }
        foreach ((string kind, Expression sum) in paid)
        {
            if (sum.Terms.Count == 0) continue;
            Programme.AtLeastZero(open[kind].Charges().Minus(sum));
            // A kind whose lines come to less than nothing is paid nothing.
            if (Programme.LowOf(open[kind]) >= 0) continue;
            Programme.Either("credit pays no kind below zero", new Expression().Plus(open[kind]).Minus(sum), new Expression().Minus(sum));
        }
        foreach ((CreditPool pool, IReadOnlyList<string> kinds, Expression used) in uses)
        {
            var payable = new Expression();
            foreach (string kind in kinds) payable.Plus(open[kind]).Minus(paid[kind]);
            pool.Use(used, payable.Plus(used));
        }
    }

    public override void Settle(BillLines lines)
    {
        foreach (CreditPool pool in _pools.Values)
        {
            lines["settlement"].Plus(pool.Settle());
            if (Own.CashOutFraction is decimal share) lines["settlement"].Plus(pool.Left(), -(double)share);
            else if (Own.YearEnd == LeftOver.RollsOver) continue;
            pool.Clear();
        }
    }

    // A part that nobody names pays nothing; without any naming, each pays every kind.
    private IReadOnlyList<string>? KindsOf(string part) => Own.Pays.Count == 0
        ? null
        : Own.Pays.FirstOrDefault(u => u.Part == part)?.Kinds ?? Own.Pays.FirstOrDefault(u => u.Part == "*")?.Kinds ?? [];
}
