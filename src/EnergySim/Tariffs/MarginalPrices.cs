namespace EnergySim.Tariffs;

/// <summary>
/// What one more kWh bought, and one more kWh sold, changes on the bill in each interval, as far as the rate sheet says it ahead: energy
/// prices, event adders and export terms. Tiers, demand, minimum and taxes depend on the whole bill and are left out.
/// </summary>
public sealed class MarginalPrices
{
    private readonly double[] _buyPerKwh;
    private readonly double[] _sellPerKwh;

    /// <param name="calendar">The plan on an axis.</param>
    public MarginalPrices(TariffCalendar calendar)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        _buyPerKwh = new double[calendar.Axis.Count];
        _sellPerKwh = new double[calendar.Axis.Count];
        (double Energy, double Offset)[] buckets = [.. calendar.Buckets.Select(b => PricesOf(calendar, b))];
        for (int i = 0; i < _buyPerKwh.Length; i++)
        {
            int bucket = calendar.BucketOf[i];
            TariffVersion version = calendar.Tariff.Versions[calendar.Buckets[bucket].Version];
            bool called = (calendar.Flags[i] & TariffCalendar.EventFlag) != 0;
            _buyPerKwh[i] = buckets[bucket].Energy + (called ? (double)version.Events!.AdderPerKwh : 0);
            _sellPerKwh[i] = SellAt(calendar, version.Export, i, buckets[bucket].Offset);
        }
    }

    /// <summary>Money a kWh bought, an interval each.</summary>
    public ReadOnlySpan<double> BuyPerKwh => _buyPerKwh;

    /// <summary>Money a kWh sold, an interval each; below 0 where selling costs.</summary>
    public ReadOnlySpan<double> SellPerKwh => _sellPerKwh;

    private static (double Energy, double Offset) PricesOf(TariffCalendar calendar, Bucket bucket)
    {
        TariffVersion version = calendar.Tariff.Versions[bucket.Version];
        EnergyPrice price = calendar.RulesOf(bucket.Version).PriceOf(bucket.Season, bucket.Period)!;
        bool pays = version.Export is ExportTerms.RetailNetting { NeverOffsetOnImport: true };
        decimal offset = price.Parts.Where(p => !(pays && p.Part == version.NeverOffsetPart)).Sum(p => p.PricePerKwh);
        return ((double)price.TotalPerKwh, (double)offset);
    }

    private static double SellAt(TariffCalendar calendar, ExportTerms terms, int i, double offset)
    {
        switch (terms)
        {
            case ExportTerms.RetailNetting or ExportTerms.MonthlyNetting: return offset;
            case ExportTerms.NetBilling: return calendar.ExportPrices.PricePerKwh.Sum(part => part[i]);
            case ExportTerms.TwoWay way:
                byte flags = calendar.Flags[i];
                return (double)((way.AnyTimePerKwh ?? 0)
                    + ((flags & TariffCalendar.RewardFlag) != 0 ? way.RewardPerKwh : 0)
                    - ((flags & TariffCalendar.ChargeFlag) != 0 ? way.ChargePerKwh : 0));
            default: return 0;
        }
    }
}
