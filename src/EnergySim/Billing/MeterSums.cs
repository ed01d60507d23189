using EnergySim.Engine;
using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>
/// The sums that a bill is a function of, kWh and kW: one run and a sweep of a million are billed from these by the same code.
/// </summary>
public sealed class MeterSums
{
    private readonly double[] _importKwh, _exportKwh, _loadKwh;

    private MeterSums(TariffCalendar calendar)
    {
        Calendar = calendar;
        _importKwh = new double[calendar.Buckets.Count];
        _exportKwh = new double[calendar.Buckets.Count];
        _loadKwh = new double[calendar.Buckets.Count];
        int bills = calendar.Bills.Count;
        EventKwh = new double[bills, calendar.Tariff.Versions.Count];
        ChargedExportKwh = new double[bills];
        RewardedExportKwh = new double[bills];
        SolarKwh = new double[bills];
        ExportValue = new double[calendar.ExportPrices.Parts.Count, bills];
        DemandKw = new double[calendar.Demand.Cells.Count];
    }

    private MeterSums(MeterSums same, TariffCalendar calendar, double exportFactor)
    {
        Calendar = calendar;
        (_importKwh, _exportKwh, _loadKwh) = (same._importKwh, same._exportKwh, same._loadKwh);
        (EventKwh, ChargedExportKwh, RewardedExportKwh, SolarKwh, DemandKw) = (same.EventKwh, same.ChargedExportKwh, same.RewardedExportKwh, same.SolarKwh, same.DemandKw);
        ExportValue = (double[,])same.ExportValue.Clone();
        for (int part = 0; part < ExportValue.GetLength(0); part++)
            for (int bill = 0; bill < ExportValue.GetLength(1); bill++) ExportValue[part, bill] *= exportFactor;
    }

    /// <summary>The same sums at other prices.</summary>
    /// <param name="calendar">The plan as <see cref="TariffCalendar.WithPrices"/> gives it.</param>
    /// <param name="exportFactor">What the prices of exported energy are multiplied by.</param>
    public MeterSums AtPrices(TariffCalendar calendar, double exportFactor)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        if (!ReferenceEquals(calendar.Buckets, Calendar.Buckets)) throw new ArgumentException("The calendar was laid for other sums.", nameof(calendar));
        return new MeterSums(this, calendar, exportFactor);
    }

    /// <summary>The plan on its axis.</summary>
    public TariffCalendar Calendar { get; }

    /// <summary>Bought, by bucket, kWh.</summary>
    public ReadOnlySpan<double> ImportKwh => _importKwh;

    /// <summary>Sold, by bucket, kWh.</summary>
    public ReadOnlySpan<double> ExportKwh => _exportKwh;

    /// <summary>House and standby, by bucket, kWh; summed only for a plan under which all load is bought.</summary>
    public ReadOnlySpan<double> LoadKwh => _loadKwh;

    internal double[,] EventKwh { get; }

    internal double[] ChargedExportKwh { get; }

    internal double[] RewardedExportKwh { get; }

    internal double[] SolarKwh { get; }

    /// <summary>Exported energy weighted by its price, by part and bill, money.</summary>
    internal double[,] ExportValue { get; }

    /// <summary>The highest mean import of each demand cell, kW.</summary>
    internal double[] DemandKw { get; }

    /// <summary>Sums what the meters saw.</summary>
    /// <param name="calendar">The plan on the run's axis.</param>
    /// <param name="meter">A run's columns.</param>
    /// <exception cref="ArgumentException">The columns have another length than the axis.</exception>
    public static MeterSums Of(TariffCalendar calendar, MeterColumns meter)
    {
        ArgumentNullException.ThrowIfNull(calendar);
        ArgumentNullException.ThrowIfNull(meter);
        if (meter.ImportKw.Length != calendar.Axis.Count) throw new ArgumentException("The meter columns have another length than the axis.", nameof(meter));
        var sums = new MeterSums(calendar);
        ReadOnlySpan<double> import = meter.ImportKw, export = meter.ExportKw;
        if (calendar.MetersLongerIntervals)
        {
            var (importKw, exportKw) = PerMeterInterval(calendar, import, export);
            import = importKw;
            export = exportKw;
        }
        sums.SumBuckets(import, sums._importKwh, export, sums._exportKwh);
        sums.SumExportValue(export);
        if (calendar.HasWindows) sums.SumWindows(import, export);
        if (calendar.SellsAll) sums.SumGross(meter);
        // Demand is of the import register, also where the meter nets.
        sums.FindDemand(meter.ImportKw);
        return sums;
    }

    // Two columns at once: each addition waits for the one before it, but not for the other column's.
    private void SumBuckets(ReadOnlySpan<double> firstKw, double[] firstKwh, ReadOnlySpan<double> secondKw, double[] secondKwh)
    {
        double hours = Calendar.Axis.StepHours;
        foreach (BucketRun run in Calendar.Runs)
        {
            ReadOnlySpan<double> first = firstKw.Slice(run.Start, run.Length), second = secondKw.Slice(run.Start, run.Length);
            double firstSum = 0, secondSum = 0;
            for (int i = 0; i < first.Length; i++)
            {
                firstSum += first[i];
                secondSum += second[i];
            }
            firstKwh[run.Bucket] += firstSum * hours;
            secondKwh[run.Bucket] += secondSum * hours;
        }
    }

    private void SumExportValue(ReadOnlySpan<double> exportKw)
    {
        double hours = Calendar.Axis.StepHours;
        for (int part = 0; part < ExportValue.GetLength(0); part++)
            foreach (BucketRun run in Calendar.Runs)
            {
                ReadOnlySpan<double> prices = Calendar.ExportPrices.PricePerKwh[part].AsSpan(run.Start, run.Length);
                ReadOnlySpan<double> kw = exportKw.Slice(run.Start, run.Length);
                double value = 0;
                for (int i = 0; i < kw.Length; i++) value += kw[i] * prices[i];
                ExportValue[part, Calendar.Buckets[run.Bucket].Bill] += value * hours;
            }
    }

    private void SumWindows(ReadOnlySpan<double> importKw, ReadOnlySpan<double> exportKw)
    {
        double hours = Calendar.Axis.StepHours;
        ReadOnlySpan<byte> flags = Calendar.Flags;
        for (int i = 0; i < flags.Length; i++)
        {
            if (flags[i] == 0) continue;
            (int bill, int version, _, _) = Calendar.Buckets[Calendar.BucketOf[i]];
            if ((flags[i] & TariffCalendar.EventFlag) != 0) EventKwh[bill, version] += importKw[i] * hours;
            if ((flags[i] & TariffCalendar.ChargeFlag) != 0) ChargedExportKwh[bill] += exportKw[i] * hours;
            if ((flags[i] & TariffCalendar.RewardFlag) != 0) RewardedExportKwh[bill] += exportKw[i] * hours;
        }
    }

    private void SumGross(MeterColumns meter)
    {
        var solarKwh = new double[Calendar.Buckets.Count];
        SumBuckets(meter.LoadKw, _loadKwh, meter.SolarKw, solarKwh);
        for (int bucket = 0; bucket < solarKwh.Length; bucket++) SolarKwh[Calendar.Buckets[bucket].Bill] += solarKwh[bucket];
    }

    // Each meter interval's sums stand at its first interval, by whose bucket it is priced.
    private static (double[] ImportKw, double[] ExportKw) PerMeterInterval(
        TariffCalendar calendar, ReadOnlySpan<double> importKw, ReadOnlySpan<double> exportKw)
    {
        var import = new double[importKw.Length];
        var export = new double[exportKw.Length];
        int start = 0;
        while (start < import.Length)
        {
            TariffVersion version = calendar.Tariff.Versions[calendar.Buckets[calendar.BucketOf[start]].Version];
            double bought = importKw[start], sold = exportKw[start];
            int end = start + 1;
            if (version.MeterMinutes is int minutes && minutes > calendar.Axis.StepMinutes)
            {
                for (; end < import.Length && !calendar.Begins(end, minutes); end++)
                {
                    bought += importKw[end];
                    sold += exportKw[end];
                }
                if (version.NetsInsideMeterInterval) (bought, sold) = (Math.Max(0, bought - sold), Math.Max(0, sold - bought));
            }
            import[start] = bought;
            export[start] = sold;
            start = end;
        }
        return (import, export);
    }

    private void FindDemand(ReadOnlySpan<double> importKw)
    {
        foreach (DemandColumn column in Calendar.Demand.Columns)
        {
            int start = 0;
            while (start < importKw.Length)
            {
                double sum = importKw[start];
                int end = start + 1;
                while (end < importKw.Length && !column.Begins[end]) sum += importKw[end++];
                int cell = column.CellOf[start];
                if (cell >= 0) DemandKw[cell] = Math.Max(DemandKw[cell], sum / (end - start));
                start = end;
            }
        }
    }
}
