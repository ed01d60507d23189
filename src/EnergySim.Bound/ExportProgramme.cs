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

    /// <summary>True where a dollar of credit may be worth more in a later bill: a minimum tops up what it pays now, or a percentage is taken of it.</summary>
    protected bool CreditMayWait => calendar.Tariff.Versions.Any(v => v.Minimum is not null || v.Percentages.Count > 0 || v.Export is ExportTerms.NetBilling { CashOutFraction: > 1 });

    /// <summary>kWh billed at retail of each bucket of a bill.</summary>
    public virtual Expression[] Billed(int bill, int[] buckets) => [.. buckets.Select(b => new Expression().Plus(meter.ImportKwh[b]))];

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

    public override Expression[] Billed(int bill, int[] buckets) => [.. buckets.Select(b => new Expression().Plus(Meter.LoadKwh[b]))];

    public override void AddCredits(BillLines lines, int bill, TariffVersion version) => lines["export"].Plus(Meter.SolarKwh[bill], -(double)Own.PricePerKwh);
}
