using EnergySim.Tariffs;

namespace EnergySim.Bound;

/// <summary>Net kWh per bill; a surplus earns a price, or is kept in kWh: at most what was exported.</summary>
internal sealed class MonthlyNettingProgramme(ExportTerms.MonthlyNetting terms, Programme programme, MeterProgramme meter, TariffCalendar calendar)
    : ExportProgramme(terms, programme, meter, calendar)
{
    private const string All = "all";

    private readonly Dictionary<string, CreditPool> _pools = [];
    private Expression _soldKwh = new();

    private ExportTerms.MonthlyNetting Own => (ExportTerms.MonthlyNetting)Terms;

    public override Expression[] Billed(int bill, int[] buckets)
    {
        _soldKwh = new Expression();
        foreach (CreditPool pool in _pools.Values) pool.Expire(bill, Own.CreditLastsBills);
        if (Own.AcrossPeriods)
        {
            Net all = NetOf(buckets);
            Keep(bill, All, [all]);
            return Shares(buckets, new Expression().Plus(all.Billed));
        }
        Net[] nets = [.. buckets.Select(b => NetOf([b]))];
        foreach (var pool in Enumerable.Range(0, buckets.Length).GroupBy(i => Calendar.Buckets[buckets[i]].Period))
            Keep(bill, pool.Key, [.. pool.Select(i => nets[i])]);
        return [.. nets.Select(n => new Expression().Plus(n.Billed))];
    }

    public override void AddCredits(BillLines lines, int bill, TariffVersion version)
    {
        if (Own.SurplusPricePerKwh is decimal price) lines["export"].Plus(_soldKwh, -(double)price);
    }

    public override void Settle(BillLines lines)
    {
        foreach (CreditPool pool in _pools.Values) lines["settlement"].Plus(pool.Left(), -(double)Own.CashOutPerKwh);
        _pools.Clear();
    }

    // billed = import − export + what is over − what is drawn from the bank, none below zero; what is over is no more than was exported.
    private Net NetOf(int[] buckets)
    {
        Expression import = new(), export = new();
        foreach (int b in buckets)
        {
            import.Plus(Meter.ImportKwh[b]);
            export.Plus(Meter.ExportKwh[b]);
        }
        (double mostImport, double mostExport) = (Programme.HighOf(import), Programme.HighOf(export));
        var net = new Net(Programme.Column(0, mostImport), Programme.Column(0, Own.SurplusPricePerKwh is null ? mostImport : 0), Programme.Column(0, mostExport));
        Programme.Row(new Expression().Plus(net.Billed).Plus(net.Drawn).Minus(net.Over).Minus(import).Plus(export), 0, 0);
        Programme.AtLeastZero(export.Minus(net.Over));
        Programme.AtLeastZero(import.Minus(net.Billed).Minus(net.Drawn));
        Programme.Either("a net is bought or is over", new Expression().Minus(net.Over), new Expression().Minus(net.Billed).Minus(net.Drawn));
        return net;
    }

    // What a bill has over is sold, or kept for later ones.
    private void Keep(int bill, string period, Net[] nets)
    {
        Expression drawn = new(), over = new(), payable = new();
        foreach (Net net in nets)
        {
            drawn.Plus(net.Drawn);
            over.Plus(net.Over);
            payable.Plus(net.Billed).Plus(net.Drawn);
        }
        if (Own.SurplusPricePerKwh is not null)
        {
            _soldKwh.Plus(over);
            return;
        }
        if (!_pools.TryGetValue(period, out CreditPool? pool)) _pools.Add(period, pool = new CreditPool(Programme, waitingPays: true));
        pool.Use(drawn, payable);
        pool.Earn(bill, over);
    }

    // What is billed over all periods is shared out by import; a linear programme says only that none gets more than its import.
    private Expression[] Shares(int[] buckets, Expression billed)
    {
        if (buckets.Length == 1) return [billed];
        int[] shares = [.. buckets.Select(b => Programme.Column(0, Programme.Columns[Meter.ImportKwh[b]].High))];
        var sum = new Expression();
        for (int i = 0; i < shares.Length; i++)
        {
            sum.Plus(shares[i]);
            Programme.AtLeastZero(new Expression().Plus(Meter.ImportKwh[buckets[i]]).Minus(shares[i]));
        }
        Programme.Row(sum.Minus(billed), 0, 0);
        int[] imports = [.. buckets.Select(b => Meter.ImportKwh[b])];
        Programme.Claim("a net over all periods is shared out by import", values => ProRata.Holds(values, shares, imports));
        return [.. shares.Select(s => new Expression().Plus(s))];
    }

    /// <summary>Columns of a net, kWh.</summary>
    private readonly record struct Net(int Billed, int Drawn, int Over);
}
