using EnergySim.Tariffs;

namespace EnergySim.Bound;

/// <summary>What an export regime does to a bill, as a linear programme: the counterpart of the engine's regimes, one each.</summary>
internal abstract class ExportProgramme(ExportTerms terms, Programme programme, MeterProgramme meter, TariffCalendar calendar)
{
    /// <summary>The terms in force.</summary>
    public ExportTerms Terms { get; private set; } = terms;

    /// <summary>True when terms are of the same regime: the bank is then kept, as the bills keep it.</summary>
    public bool Fits(ExportTerms other) => other.GetType() == Terms.GetType();

    /// <summary>Goes on under new terms of the same regime.</summary>
    public void Renew(ExportTerms other) => Terms = other;

    public virtual bool NeverOffsetsOnImport => false;

    protected Programme Programme => programme;

    protected MeterProgramme Meter => meter;

    protected TariffCalendar Calendar => calendar;

    /// <summary>kWh billed at retail of each bucket of a bill.</summary>
    public virtual Expression[] Billed(int[] buckets) => [.. buckets.Select(b => new Expression().Plus(meter.ImportKwh[b]))];

    public virtual void AddCredits(BillLines lines, int bill, TariffVersion version) { }

    public virtual void Settle(BillLines lines) { }

    public static ExportProgramme Of(ExportTerms terms, Programme programme, MeterProgramme meter, TariffCalendar calendar) => terms switch
    {
        ExportTerms.RetailNetting retail => new RetailNettingProgramme(retail, programme, meter, calendar),
        ExportTerms.NetBilling billing => new NetBillingProgramme(billing, programme, meter, calendar),
        ExportTerms.MonthlyNetting monthly => new MonthlyNettingProgramme(monthly, programme, meter, calendar),
        ExportTerms.TwoWay twoWay => new TwoWayProgramme(twoWay, programme, meter, calendar),
        ExportTerms.SellAll all => new SellAllProgramme(all, programme, meter, calendar),
        _ => new NoExportProgramme(terms, programme, meter, calendar),
    };
}

internal sealed class NoExportProgramme(ExportTerms terms, Programme programme, MeterProgramme meter, TariffCalendar calendar)
    : ExportProgramme(terms, programme, meter, calendar);

/// <summary>Import − export at retail. A negative year lapses: the year's amounts come to at least nothing.</summary>
internal sealed class RetailNettingProgramme(ExportTerms.RetailNetting terms, Programme programme, MeterProgramme meter, TariffCalendar calendar)
    : ExportProgramme(terms, programme, meter, calendar)
{
    private ExportTerms.RetailNetting Own => (ExportTerms.RetailNetting)Terms;

    private Expression _yearAmount = new(), _bank = new();
    private double _yearSurplusKwh;

    public override bool NeverOffsetsOnImport => Own.NeverOffsetOnImport;

    public override Expression[] Billed(int[] buckets) => [.. buckets.Select(b => new Expression().Plus(Meter.ImportKwh[b]).Minus(Meter.ExportKwh[b]))];

    public override void AddCredits(BillLines lines, int bill, TariffVersion version)
    {
        _yearSurplusKwh += Meter.SurplusKwh[bill];
        var amount = new Expression().Plus(lines["tier"]);
        foreach (string part in Calendar.Tariff.Versions.SelectMany(v => v.EnergyPrices).SelectMany(p => p.Parts).Select(p => p.Part).Distinct())
            if (!(Own.NeverOffsetOnImport && part == version.NeverOffsetPart)) amount.Plus(lines[part]);
        if (Own.Settlement == Settlement.Year)
        {
            _yearAmount.Plus(amount);
            return;
        }
        // The credit earned is what makes the amount not negative; what is used comes out of what was earned before.
        int earned = Programme.PositivePart(new Expression().Plus(amount, -1)), used = Programme.Column(), left = Programme.Column();
        Programme.Row(new Expression().Plus(amount).Plus(earned).Minus(used), 0, double.PositiveInfinity);
        Programme.Row(new Expression().Plus(_bank).Plus(earned).Minus(used).Minus(left), 0, 0);
        lines["credit"].Plus(earned).Minus(used);
        _bank = new Expression().Plus(left);
    }

    public override void Settle(BillLines lines)
    {
        if (Own.Settlement == Settlement.Year) lines["settlement"].Plus(Programme.PositivePart(new Expression().Plus(_yearAmount, -1)));
        // Surplus kWh are what the year sells more than it buys: no more than solar is above load, were nothing lost.
        if (Own.SurplusPricePerKwh > 0) lines["settlement"].Plus(Programme.Column(0, Math.Max(0, _yearSurplusKwh)), -(double)Own.SurplusPricePerKwh);
        (_yearAmount, _yearSurplusKwh, _bank) = (new(), 0, new());
    }
}

/// <summary>Exports earn credit by part; each part pays what it may, and the rest is banked.</summary>
internal sealed class NetBillingProgramme(ExportTerms.NetBilling terms, Programme programme, MeterProgramme meter, TariffCalendar calendar)
    : ExportProgramme(terms, programme, meter, calendar)
{
    private ExportTerms.NetBilling Own => (ExportTerms.NetBilling)Terms;

    private readonly Dictionary<string, Expression> _bank = [];

    public override void AddCredits(BillLines lines, int bill, TariffVersion version)
    {
        var paid = new Dictionary<string, Expression>();
        string[] kinds = [.. lines.Kinds];
        for (int p = 0; p < Calendar.ExportPrices.Parts.Count; p++)
        {
            string part = Calendar.ExportPrices.Parts[p];
            if (Calendar.ExportPrices.PricePerKwh[p].Any(price => price < 0))
                throw new NotSupportedException("Export credit that can be negative is not linear once it is banked, so the bound does not cover it.");
            int left = Programme.Column();
            Expression balance = new Expression().Plus(_bank.GetValueOrDefault(part, new())).Plus(Meter.ExportValue[p, bill]).Minus(left);
            foreach (string kind in KindsOf(part) ?? kinds)
            {
                if (!kinds.Contains(kind)) continue;
                int use = Programme.Column();
                balance.Minus(use);
                lines["credit"].Minus(use);
                if (!paid.TryGetValue(kind, out Expression? sum)) paid.Add(kind, sum = new Expression());
                sum.Plus(use);
            }
            Programme.Row(balance, 0, 0);
            _bank[part] = new Expression().Plus(left);
        }
        // A kind that holds credits too is paid up to its charges, which only loosens the bound.
        foreach ((string kind, Expression sum) in paid) Programme.Row(sum.Plus(lines[kind].Charges(), -1), double.NegativeInfinity, 0);
    }

    public override void Settle(BillLines lines)
    {
        foreach (string part in _bank.Keys.ToList())
        {
            if (Own.CashOutFraction is decimal share) lines["settlement"].Plus(_bank[part], -(double)share);
            else if (Own.YearEnd == LeftOver.RollsOver) continue;
            _bank[part] = new Expression();
        }
    }

    // A part that nobody names pays nothing; without any naming, each pays every kind.
    private IReadOnlyList<string>? KindsOf(string part) => Own.Pays.Count == 0
        ? null
        : Own.Pays.FirstOrDefault(u => u.Part == part)?.Kinds ?? Own.Pays.FirstOrDefault(u => u.Part == "*")?.Kinds ?? [];
}

/// <summary>Net kWh per bill; a surplus earns a price, or is kept in kWh: at most what was exported.</summary>
internal sealed class MonthlyNettingProgramme(ExportTerms.MonthlyNetting terms, Programme programme, MeterProgramme meter, TariffCalendar calendar)
    : ExportProgramme(terms, programme, meter, calendar)
{
    private ExportTerms.MonthlyNetting Own => (ExportTerms.MonthlyNetting)Terms;

    private const string All = "all";

    private readonly Dictionary<string, Expression> _bankKwh = [];
    private Expression _soldKwh = new();

    public override Expression[] Billed(int[] buckets)
    {
        _soldKwh = new Expression();
        if (Own.AcrossPeriods && buckets.Select(PriceOf).Distinct().Count() > 1)
            throw new NotSupportedException("Netting across periods of different prices is shared out pro rata, which is not linear, so the bound does not cover it.");
        if (Own.SurplusPricePerKwh > buckets.Min(PriceOf))
            throw new NotSupportedException("A surplus price above the retail price is not linear, so the bound does not cover it.");
        var billed = new Expression[buckets.Length];
        foreach (var pool in Enumerable.Range(0, buckets.Length).GroupBy(i => Own.AcrossPeriods ? All : Calendar.Buckets[buckets[i]].Period))
        {
            var used = new Expression();
            var over = new Expression();
            if (Own.AcrossPeriods)
            {
                foreach (int i in pool) billed[i] = new Expression();
                billed[pool.First()] = Net([.. pool.Select(i => buckets[i])], used, over);
            }
            else foreach (int i in pool) billed[i] = Net([buckets[i]], used, over);
            if (Own.SurplusPricePerKwh is null) Bank(pool.Key, used, over);
            else _soldKwh.Plus(over);
        }
        return billed;
    }

    public override void AddCredits(BillLines lines, int bill, TariffVersion version)
    {
        if (Own.SurplusPricePerKwh is decimal price) lines["export"].Plus(_soldKwh, -(double)price);
    }

    public override void Settle(BillLines lines)
    {
        foreach (Expression kwh in _bankKwh.Values) lines["settlement"].Plus(kwh, -(double)Own.CashOutPerKwh);
        _bankKwh.Clear();
    }

    // billed = import − export + what is over − what is drawn from the bank, none below zero.
    private Expression Net(int[] buckets, Expression used, Expression over)
    {
        int billed = Programme.Column(), use = Programme.Column(0, Own.SurplusPricePerKwh is null ? double.PositiveInfinity : 0), surplus = Programme.Column();
        var exported = new Expression();
        Expression balance = new Expression().Plus(billed).Plus(use).Minus(surplus);
        foreach (int b in buckets)
        {
            balance.Minus(Meter.ImportKwh[b]).Plus(Meter.ExportKwh[b]);
            exported.Plus(Meter.ExportKwh[b]);
        }
        Programme.Row(balance, 0, 0);
        Programme.Row(exported.Minus(surplus), 0, double.PositiveInfinity);
        used.Plus(use);
        over.Plus(surplus);
        return new Expression().Plus(billed);
    }

    // What a bill has over is kept for later ones.
    private void Bank(string pool, Expression used, Expression over)
    {
        Expression before = _bankKwh.GetValueOrDefault(pool, new());
        Programme.Row(new Expression().Plus(before).Plus(used, -1), 0, double.PositiveInfinity);
        _bankKwh[pool] = new Expression().Plus(Programme.Named(new Expression().Plus(before).Plus(used, -1).Plus(over), 0));
    }

    private decimal PriceOf(int bucket)
    {
        (_, int version, string season, string period) = Calendar.Buckets[bucket];
        return Calendar.RulesOf(version).PriceOf(season, period)!.TotalPerKwh;
    }
}

/// <summary>Exports charged in one window above a free allowance, rewarded in another.</summary>
internal sealed class TwoWayProgramme(ExportTerms.TwoWay terms, Programme programme, MeterProgramme meter, TariffCalendar calendar)
    : ExportProgramme(terms, programme, meter, calendar)
{
    private ExportTerms.TwoWay Own => (ExportTerms.TwoWay)Terms;

    public override void AddCredits(BillLines lines, int bill, TariffVersion version)
    {
        if (Own.AnyTimePerKwh is decimal rate)
            for (int i = 0; i < Calendar.Buckets.Count; i++)
                if (Calendar.Buckets[i].Bill == bill) lines["export"].Plus(Meter.ExportKwh[i], -(double)rate);
        double free = Own.FreeKwhPerBill + (Own.FreeKwhPerDay * Calendar.Bills[bill].Days);
        lines["export charge"].Plus(Programme.PositivePart(new Expression().Plus(Meter.ChargedKwh[bill]).Plus(-free)), (double)Own.ChargePerKwh);
        lines["export"].Plus(Meter.RewardedKwh[bill], -(double)Own.RewardPerKwh);
    }
}

/// <summary>All load is bought, all solar sold.</summary>
internal sealed class SellAllProgramme(ExportTerms.SellAll terms, Programme programme, MeterProgramme meter, TariffCalendar calendar)
    : ExportProgramme(terms, programme, meter, calendar)
{
    private ExportTerms.SellAll Own => (ExportTerms.SellAll)Terms;

    public override Expression[] Billed(int[] buckets) => [.. buckets.Select(b => new Expression().Plus(Meter.LoadKwh[b]))];

    public override void AddCredits(BillLines lines, int bill, TariffVersion version) => lines["export"].Plus(Meter.SolarKwh[bill], -(double)Own.PricePerKwh);
}
