using EnergySim.Tariffs;

namespace EnergySim.Bound;

/// <summary>
/// Bills as a linear programme: the lines of TARIFF.md in their order, each an expression in the meters' sums. What makes a bill dearer the
/// more there is of it (rising tiers, highest demand, a minimum, credit that only pays) is linear with columns of its own; what is not is
/// refused by name.
/// </summary>
internal sealed class BillProgramme(Programme programme, MeterProgramme meter, TariffCalendar calendar)
{
    private readonly Dictionary<string, (List<int> HighestKw, DemandCharge Terms)> _demand = [];

    /// <summary>The sum of all bills.</summary>
    public Expression Total { get; } = new();

    public void Add()
    {
        ExportProgramme? regime = null;
        for (int b = 0; b < calendar.Bills.Count; b++)
        {
            TariffVersion version = VersionOf(b);
            if (regime is null || !regime.Fits(version.Export)) regime = ExportProgramme.Of(version.Export, programme, meter, calendar);
            regime.Renew(version.Export);
            bool regimeEnds = b + 1 < calendar.Bills.Count && !regime.Fits(VersionOf(b + 1).Export);
            AddBill(b, version, regime, calendar.Bills[b].EndsSettlementYear || regimeEnds);
        }
    }

    private TariffVersion VersionOf(int bill) => calendar.Tariff.Versions[calendar.VersionAtEndOf(calendar.Bills[bill])];

    private void AddBill(int bill, TariffVersion version, ExportProgramme regime, bool settles)
    {
        var lines = new BillLines();
        int[] buckets = [.. Enumerable.Range(0, calendar.Buckets.Count).Where(i => calendar.Buckets[i].Bill == bill)];
        Expression[] billed = regime.Billed(buckets);
        for (int i = 0; i < buckets.Length; i++)
        {
            Bucket bucket = calendar.Buckets[buckets[i]];
            foreach (PricePart part in calendar.RulesOf(bucket.Version).PriceOf(bucket.Season, bucket.Period)!.Parts)
            {
                bool neverOffset = regime.NeverOffsetsOnImport && part.Part == calendar.Tariff.Versions[bucket.Version].NeverOffsetPart;
                lines[part.Part].Plus(neverOffset ? new Expression().Plus(meter.ImportKwh[buckets[i]]) : billed[i], (double)part.PricePerKwh);
            }
        }
        new TierProgramme(programme, calendar).Add(lines, bill, version, billed, buckets);
        for (int v = 0; v < calendar.Tariff.Versions.Count; v++)
            if (calendar.Tariff.Versions[v].Events is EventCharge events) lines["event"].Plus(meter.EventKwh[bill, v], (double)events.AdderPerKwh);
        AddFixed(lines, bill, version);
        AddDemand(lines, bill);
        regime.AddCredits(lines, bill, version);
        if (version.Minimum is MinimumBill minimum)
        {
            double least = (double)(minimum.PerBill + (minimum.PerDay * calendar.Bills[bill].Days));
            lines["minimum"].Plus(programme.PositivePart(new Expression().Plus(least).Plus(lines.SumOf(minimum.Counts), -1)));
        }
        foreach (Percentage percentage in version.Percentages)
            lines[percentage.Name].Plus(lines.SumOf(percentage.Of), (double)percentage.Rate);
        if (settles) regime.Settle(lines);
        Total.Plus(lines.SumOf([]));
    }

    private void AddFixed(BillLines lines, int bill, TariffVersion atEnd)
    {
        foreach ((BillPart part, int days) in calendar.Parts)
            if (part.Bill == bill) lines["fixed"].Plus((double)calendar.Tariff.Versions[part.Version].FixedPerDay * days);
        lines["fixed"].Plus((double)atEnd.FixedPerMonth * (atEnd.FixedPerMonthByDays ? calendar.Bills[bill].Days / 30.0 : 1));
    }

    private void AddDemand(BillLines lines, int bill)
    {
        for (int charge = 0; charge < calendar.Demand.Columns.Count; charge++)
        {
            int? highest = null;
            DemandCharge? named = null;
            foreach ((BillPart part, int days) in calendar.Parts)
            {
                if (part.Bill != bill) continue;
                IReadOnlyList<DemandCharge> charges = calendar.Tariff.Versions[part.Version].Demand;
                if (charge >= charges.Count || (charges[charge].Season is string season && season != part.Season)) continue;
                DemandCharge terms = named = charges[charge];
                if (terms.CapKw is not null) throw new NotSupportedException($"{terms.Name}: a cap on the rise of demand is not a linear charge, so the bound does not cover it.");
                int measured = CellOf(new DemandCell(bill, part.Version, part.Season, charge));
                double price = (double)(terms.PricePerKw ?? terms.PriceBySeason!.GetValueOrDefault(part.Season));
                lines["demand"].Plus(BilledOf(terms, measured), price * days / calendar.Bills[bill].Days);
                highest ??= programme.Column();
                programme.Row(new Expression().Plus(measured).Minus(highest.Value), double.NegativeInfinity, 0);
            }
            if (named is not null) HistoryOf(named).Add(highest!.Value);
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
        List<int> history = HistoryOf(terms);
        if (terms.RatchetBills == 0 || history.Count == 0) return measured;
        int billed = programme.Column();
        programme.Row(new Expression().Plus(measured).Minus(billed), double.NegativeInfinity, 0);
        foreach (int earlier in history.Skip(history.Count - terms.RatchetBills))
            programme.Row(new Expression().Plus(earlier, terms.RatchetFraction).Minus(billed), double.NegativeInfinity, 0);
        return billed;
    }

    private List<int> HistoryOf(DemandCharge terms)
    {
        if (!_demand.TryGetValue(terms.Name, out (List<int> HighestKw, DemandCharge Terms) entry))
            _demand.Add(terms.Name, entry = ([.. terms.EarlierMeasuredKw.Select(kw => programme.Column(kw, kw))], terms));
        return entry.HighestKw;
    }
}

/// <summary>The lines of a bill by kind, as expressions.</summary>
internal sealed class BillLines
{
    private readonly Dictionary<string, Expression> _kinds = [];

    public Expression this[string kind]
    {
        get
        {
            if (!_kinds.TryGetValue(kind, out Expression? line)) _kinds.Add(kind, line = new Expression());
            return line;
        }
    }

    public IEnumerable<string> Kinds => _kinds.Keys;

    /// <summary>What the lines of some kinds come to; no kinds = all so far.</summary>
    public Expression SumOf(IReadOnlyList<string> kinds)
    {
        var sum = new Expression();
        foreach ((string kind, Expression line) in _kinds)
            if (kinds.Count == 0 || kinds.Contains(kind)) sum.Plus(line);
        return sum;
    }
}
