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

    /// <summary>The plan on its axis.</summary>
    public TariffCalendar Calendar { get; }

    /// <summary>Bought, by bucket, kWh.</summary>
    public ReadOnlySpan<double> ImportKwh => _importKwh;

    /// <summary>Sold, by bucket, kWh.</summary>
    public ReadOnlySpan<double> ExportKwh => _exportKwh;

    /// <summary>House and standby, by bucket, kWh.</summary>
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
        sums.SumEnergy(meter);
        sums.FindDemand(meter.ImportKw);
        return sums;
    }

    private void SumEnergy(MeterColumns meter)
    {
        TariffCalendar calendar = Calendar;
        ReadOnlySpan<int> bucketOf = calendar.BucketOf;
        ReadOnlySpan<double> import = meter.ImportKw, export = meter.ExportKw, load = meter.LoadKw, solar = meter.SolarKw;
        double hours = calendar.Axis.StepHours;
        int start = 0;
        while (start < bucketOf.Length)
        {
            TariffVersion version = calendar.Tariff.Versions[calendar.Buckets[bucketOf[start]].Version];
            int minutes = version.MeterMinutes ?? 0;
            bool nets = version.NetsInsideMeterInterval;
            int end = start + 1;
            double bought = import[start], sold = export[start], used = load[start], made = solar[start];
            if (minutes > calendar.Axis.StepMinutes)
            {
                while (end < bucketOf.Length && !calendar.Begins(end, minutes)) Add(end++);
                if (nets) (bought, sold) = (Math.Max(0, bought - sold), Math.Max(0, sold - bought));
            }
            else if (calendar.HasPlainIntervals)
            {
                // Nothing but the bucket matters: sum the stretch that shares one.
                while (end < bucketOf.Length && bucketOf[end] == bucketOf[start]) Add(end++);
            }
            Book(start, bought * hours, sold * hours, used * hours, made * hours);
            start = end;

            void Add(int index)
            {
                bought += meter.ImportKw[index];
                sold += meter.ExportKw[index];
                used += meter.LoadKw[index];
                made += meter.SolarKw[index];
            }
        }
    }

    private void Book(int index, double boughtKwh, double soldKwh, double usedKwh, double madeKwh)
    {
        int bucket = Calendar.BucketOf[index];
        (int bill, int version, _, _) = Calendar.Buckets[bucket];
        _importKwh[bucket] += boughtKwh;
        _exportKwh[bucket] += soldKwh;
        _loadKwh[bucket] += usedKwh;
        SolarKwh[bill] += madeKwh;
        byte flags = Calendar.Flags[index];
        if ((flags & TariffCalendar.EventFlag) != 0) EventKwh[bill, version] += boughtKwh;
        if ((flags & TariffCalendar.ChargeFlag) != 0) ChargedExportKwh[bill] += soldKwh;
        if ((flags & TariffCalendar.RewardFlag) != 0) RewardedExportKwh[bill] += soldKwh;
        for (int part = 0; part < ExportValue.GetLength(0); part++)
            ExportValue[part, bill] += soldKwh * Calendar.ExportPrices.PricePerKwh[part][index];
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
