using EnergySim.Tariffs;

namespace EnergySim.Bound;

/// <summary>
/// Bills as a linear programme: the lines of TARIFF.md in their order, each an expression in the meters' sums. What makes a bill dearer the
/// more there is of it (rising tiers, highest demand, a minimum) is linear with columns of its own; what is not is a choice of the programme.
/// </summary>
internal sealed class BillProgramme(Programme programme, MeterProgramme meter, TariffCalendar calendar)
{
    private readonly DemandProgramme _demand = new(programme, meter, calendar);

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
        Expression[] billed = regime.Billed(bill, buckets);
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
        _demand.Add(lines, bill);
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
