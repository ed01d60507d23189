using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>Demand lines, and the earlier bills that ratchets and caps look back on.</summary>
internal sealed class DemandHistory
{
    private readonly Dictionary<string, (List<double> MeasuredKw, List<double> BilledKw)> _charges = [];

    public void Add(BillDraft draft, TariffCalendar calendar, int bill, double[] demandKw)
    {
        if (calendar.Demand.Columns.Count == 0) return;
        for (int charge = 0; charge < calendar.Demand.Columns.Count; charge++)
        {
            double highestMeasured = -1, highestBilled = -1;
            string? name = null;
            foreach ((BillPart part, int days) in calendar.Parts)
            {
                if (part.Bill != bill) continue;
                IReadOnlyList<DemandCharge> charges = calendar.Tariff.Versions[part.Version].Demand;
                if (charge >= charges.Count || (charges[charge].Season is string season && season != part.Season)) continue;
                DemandCharge terms = charges[charge];
                name = terms.Name;
                double measured = MeasuredKw(calendar, demandKw, new DemandCell(bill, part.Version, part.Season, charge));
                double billed = BilledKw(terms, measured);
                highestMeasured = Math.Max(highestMeasured, measured);
                highestBilled = Math.Max(highestBilled, billed);
                AddLine(draft, calendar, terms, part, billed, days);
            }
            if (name is null) continue;
            _charges[name].MeasuredKw.Add(highestMeasured);
            _charges[name].BilledKw.Add(highestBilled);
        }
    }

    private static void AddLine(BillDraft draft, TariffCalendar calendar, DemandCharge terms, BillPart part, double billedKw, int days)
    {
        decimal price = terms.PricePerKw ?? terms.PriceBySeason!.GetValueOrDefault(part.Season);
        decimal kw = BillDraft.Exact(billedKw);
        string season = calendar.Tariff.Versions[part.Version].Seasons.Count == 0 ? "" : $", {part.Season}";
        string share = days == draft.Span.Days ? "" : $", {days} of {draft.Span.Days} days";
        draft.Add("demand", Biller.Named(terms.Name + season + share, calendar, part.Version), kw, "kW", price, kw * price * days / draft.Span.Days);
    }

    private static double MeasuredKw(TariffCalendar calendar, double[] demandKw, DemandCell wanted)
    {
        for (int i = 0; i < demandKw.Length; i++)
            if (calendar.Demand.Cells[i] == wanted) return demandKw[i];
        return 0;
    }

    private double BilledKw(DemandCharge terms, double measuredKw)
    {
        if (!_charges.TryGetValue(terms.Name, out (List<double> MeasuredKw, List<double> BilledKw) history))
        {
            history = ([.. terms.EarlierMeasuredKw], [.. terms.EarlierBilledKw]);
            _charges.Add(terms.Name, history);
        }
        double billed = measuredKw;
        for (int i = Math.Max(0, history.MeasuredKw.Count - terms.RatchetBills); i < history.MeasuredKw.Count; i++)
            billed = Math.Max(billed, terms.RatchetFraction * history.MeasuredKw[i]);
        if (terms.CapKw is double cap && history.BilledKw.Count > 0) billed = Math.Min(billed, history.BilledKw[^1] + cap);
        return billed;
    }
}
