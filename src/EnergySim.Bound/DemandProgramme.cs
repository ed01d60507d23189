using EnergySim.Tariffs;

namespace EnergySim.Bound;

/// <summary>Demand charges as a linear programme: the highest mean, the ratchet on earlier bills, and the cap on the last one's, which is a choice.</summary>
internal sealed class DemandProgramme(Programme programme, MeterProgramme meter, TariffCalendar calendar)
{
    private readonly Dictionary<string, (List<int> MeasuredKw, List<int> BilledKw)> _history = [];

    public void Add(BillLines lines, int bill)
    {
        for (int charge = 0; charge < calendar.Demand.Columns.Count; charge++)
        {
            List<int> measured = [], billed = [];
            DemandCharge? named = null;
            foreach ((BillPart part, int days) in calendar.Parts)
            {
                if (part.Bill != bill) continue;
                IReadOnlyList<DemandCharge> charges = calendar.Tariff.Versions[part.Version].Demand;
                if (charge >= charges.Count || (charges[charge].Season is string season && season != part.Season)) continue;
                DemandCharge terms = named = charges[charge];
                measured.Add(CellOf(new DemandCell(bill, part.Version, part.Season, charge)));
                billed.Add(BilledOf(terms, measured[^1]));
                double price = (double)(terms.PricePerKw ?? terms.PriceBySeason!.GetValueOrDefault(part.Season));
                lines["demand"].Plus(billed[^1], price * days / calendar.Bills[bill].Days);
            }
            if (named is null) continue;
            (List<int> measuredKw, List<int> billedKw) = HistoryOf(named);
            measuredKw.Add(HighestOf(measured));
            billedKw.Add(HighestOf(billed));
        }
    }

    // A bill that has no interval in the charge's window measures nothing.
    private int CellOf(DemandCell wanted)
    {
        for (int c = 0; c < calendar.Demand.Cells.Count; c++)
            if (calendar.Demand.Cells[c] == wanted) return meter.DemandKw[c];
        return programme.Column(0, 0);
    }

    private int BilledOf(DemandCharge terms, int measured)
    {
        (List<int> measuredKw, List<int> billedKw) = HistoryOf(terms);
        int billed = measured;
        if (terms.RatchetBills > 0 && measuredKw.Count > 0)
        {
            var earlier = measuredKw.Skip(measuredKw.Count - terms.RatchetBills).Select(kw => new Expression().Plus(kw, terms.RatchetFraction));
            billed = HighestOf([new Expression().Plus(measured), .. earlier]);
        }
        if (terms.CapKw is not double cap || billedKw.Count == 0) return billed;
        int capped = programme.Column(0, programme.Columns[billed].High);
        programme.Either(
            $"the cap of {terms.Name} looks at the last bill", new Expression().Plus(capped).Minus(billed), new Expression().Plus(capped).Minus(billedKw[^1]).Plus(-cap));
        return capped;
    }

    private int HighestOf(List<int> columns) => columns.Count == 1 ? columns[0] : HighestOf([.. columns.Select(c => new Expression().Plus(c))]);

    private int HighestOf(Expression[] expressions)
    {
        int highest = programme.Column(0, expressions.Max(programme.HighOf));
        foreach (Expression expression in expressions) programme.AtLeastZero(new Expression().Plus(highest).Minus(expression));
        return highest;
    }

    private (List<int> MeasuredKw, List<int> BilledKw) HistoryOf(DemandCharge terms)
    {
        if (!_history.TryGetValue(terms.Name, out (List<int>, List<int>) entry))
            _history.Add(terms.Name, entry = ([.. terms.EarlierMeasuredKw.Select(Fixed)], [.. terms.EarlierBilledKw.Select(Fixed)]));
        return entry;
    }

    private int Fixed(double kw) => programme.Column(kw, kw);
}
