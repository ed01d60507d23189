using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>Demand lines, and the earlier bills that ratchets and caps look back on.</summary>
internal sealed class DemandHistory
{
    private readonly Dictionary<string, (List<double> MeasuredKw, List<double> BilledKw)> _charges = [];

    public void Add(BillDraft draft, BillForm form, double[] demandKw)
    {
        foreach (DemandRow[] charge in form.Demand)
        {
            double highestMeasured = -1, highestBilled = -1;
            foreach (DemandRow row in charge)
            {
                double measured = row.Cell < 0 ? 0 : demandKw[row.Cell];
                double billed = BilledKw(row.Terms, measured);
                highestMeasured = Math.Max(highestMeasured, measured);
                highestBilled = Math.Max(highestBilled, billed);
                decimal kw = BillDraft.Exact(billed);
                draft.Add("demand", row.Name, kw, "kW", row.PricePerKw, kw * row.PricePerKw * row.Days / draft.Span.Days);
            }
            (List<double> measuredKw, List<double> billedKw) = _charges[charge[^1].Terms.Name];
            measuredKw.Add(highestMeasured);
            billedKw.Add(highestBilled);
        }
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
