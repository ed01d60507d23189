using System.Runtime.InteropServices;
using EnergySim.Engine;
using EnergySim.Tariffs;

namespace EnergySim.Billing;

/// <summary>
/// The sums that a bill is a function of, kWh and kW: one run and a sweep of a million are billed from these by the same code.
/// </summary>
public sealed class MeterSums
{
    internal MeterSums(TariffCalendar calendar)
    {
        Calendar = calendar;
        ImportKwhArray = new double[calendar.Buckets.Count];
        ExportKwhArray = new double[calendar.Buckets.Count];
        LoadKwhArray = new double[calendar.Buckets.Count];
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
        (ImportKwhArray, ExportKwhArray, LoadKwhArray) = (same.ImportKwhArray, same.ExportKwhArray, same.LoadKwhArray);
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
    public ReadOnlySpan<double> ImportKwh => ImportKwhArray;

    /// <summary>Sold, by bucket, kWh.</summary>
    public ReadOnlySpan<double> ExportKwh => ExportKwhArray;

    /// <summary>House and standby, by bucket, kWh; summed only for a plan under which all load is bought.</summary>
    public ReadOnlySpan<double> LoadKwh => LoadKwhArray;

    internal double[] ImportKwhArray { get; }

    internal double[] ExportKwhArray { get; }

    internal double[] LoadKwhArray { get; }

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
        var summer = new MeterSummer<Scalar>(calendar);
        summer.Add(0, Cases(meter.Import), Cases(meter.Export), Cases(meter.Load), Cases(meter.Solar));
        var sums = new MeterSums(calendar);
        summer.CopyTo(0, sums);
        return sums;
    }

    private static ReadOnlySpan<Scalar> Cases(double[] kw) => MemoryMarshal.Cast<double, Scalar>(kw);
}
