using EnergySim.Tariffs;

namespace EnergySim.Bound;

/// <summary>Import − export at retail: a negative year lapses, or a bill's credit pays later ones; kWh left over are paid for.</summary>
internal sealed class RetailNettingProgramme(ExportTerms.RetailNetting terms, Programme programme, MeterProgramme meter, TariffCalendar calendar)
    : ExportProgramme(terms, programme, meter, calendar)
{
    private CreditPool? _kept;
    private Expression _yearAmount = new(), _yearSoldKwh = new();
    private double _mostSoldKwh;

    private CreditPool Pool => _kept ??= new CreditPool(Programme, CreditMayWait);

    private ExportTerms.RetailNetting Own => (ExportTerms.RetailNetting)Terms;

    public override bool NeverOffsetsOnImport => Own.NeverOffsetOnImport;

    public override Expression[] Billed(int bill, int[] buckets)
    {
        Expression[] billed = [.. buckets.Select(b => new Expression().Plus(Meter.ImportKwh[b]).Minus(Meter.ExportKwh[b]))];
        foreach (Expression kwh in billed) _yearSoldKwh.Minus(kwh);
        _mostSoldKwh += Meter.SurplusKwh[bill];
        return billed;
    }

    public override void AddCredits(BillLines lines, int bill, TariffVersion version)
    {
        var amount = new Expression().Plus(lines["tier"]);
        foreach (string part in Calendar.Tariff.Versions.SelectMany(v => v.EnergyPrices).SelectMany(p => p.Parts).Select(p => p.Part).Distinct())
            if (!(Own.NeverOffsetOnImport && part == version.NeverOffsetPart)) amount.Plus(lines[part]);
        if (Own.Settlement == Settlement.Year)
        {
            _yearAmount.Plus(amount);
            return;
        }
        // Either the amount is negative and earned for later bills, or credit of earlier ones pays of it.
        Expression credits = amount.Credits(), charges = amount.Charges();
        int earned = Programme.Column(0, Math.Max(0, Programme.HighOf(credits))), used = Programme.Column(0, Math.Max(0, Programme.HighOf(charges)));
        Programme.AtLeastZero(credits.Minus(earned));
        Programme.AtLeastZero(new Expression().Plus(amount).Plus(earned).Minus(used));
        Programme.Either("only a negative bill earns credit", new Expression().Minus(amount).Minus(earned), new Expression().Minus(earned));
        Pool.Expire(bill, Own.CreditLastsBills);
        Pool.Use(new Expression().Plus(used), new Expression().Plus(amount).Plus(earned));
        Pool.Earn(bill, new Expression().Plus(earned));
        lines["credit"].Plus(earned).Minus(used);
    }

    public override void Settle(BillLines lines)
    {
        if (Own.Settlement == Settlement.Year) lines["settlement"].Plus(Programme.PositivePart(new Expression().Minus(_yearAmount)));
        // The year sells no more than solar is above load, were nothing lost.
        if (Own.SurplusPricePerKwh > 0 && _mostSoldKwh > 0)
        {
            int paidKwh = Programme.Column(0, _mostSoldKwh);
            Programme.Either("only a surplus of the year is paid for", new Expression().Plus(_yearSoldKwh).Minus(paidKwh), new Expression().Minus(paidKwh));
            lines["settlement"].Plus(paidKwh, -(double)Own.SurplusPricePerKwh);
        }
        (_yearAmount, _yearSoldKwh, _mostSoldKwh) = (new(), new(), 0);
        Pool.Clear();
    }
}
