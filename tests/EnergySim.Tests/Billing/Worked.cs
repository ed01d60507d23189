using System.Globalization;
using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Billing;

/// <summary>Plans, meters and bills of worked cases, in few words.</summary>
internal static class Worked
{
    public static readonly DateTimeZone Denver = DateTimeZoneProviders.Tzdb["America/Denver"];

    /// <summary>June 2025: thirty days, one bill, no change of the clock.</summary>
    public static TimeAxis June(int stepMinutes = 60) => Days(new LocalDate(2025, 6, 1), 30, stepMinutes);

    public static TimeAxis Days(LocalDate from, int days, int stepMinutes = 60, DateTimeZone? zone = null) =>
        TimeAxis.OfDates(zone ?? Denver, from, from.PlusDays(days), stepMinutes);

    /// <summary>One period at all hours, priced in parts.</summary>
    public static TariffVersion Flat(params PricePart[] parts) => new()
    {
        Effective = new LocalDate(2000, 1, 1),
        Periods = [new PeriodRule("any")],
        EnergyPrices = [new EnergyPrice { Parts = parts }],
    };

    /// <summary>A peak window, on every day or on some, and the rest.</summary>
    public static TariffVersion PeakAndOff(ClockWindow peak, decimal peakPrice, decimal offPrice, params DayType[] peakDays) => new()
    {
        Effective = new LocalDate(2000, 1, 1),
        Periods =
        [
            new PeriodRule("peak") { Window = peak, Days = peakDays },
            new PeriodRule("off") { Window = new ClockWindow(peak.ToMinute, peak.FromMinute), Days = peakDays },
            .. peakDays.Length == 0 ? Array.Empty<PeriodRule>() : [new PeriodRule("off") { Days = [.. Enum.GetValues<DayType>().Except([.. peakDays, DayType.Event])] }],
        ],
        EnergyPrices =
        [
            new EnergyPrice { Period = "peak", Parts = [new PricePart("energy", peakPrice)] },
            new EnergyPrice { Period = "off", Parts = [new PricePart("energy", offPrice)] },
        ],
    };

    public static Tariff Plan(DateTimeZone zone, params TariffVersion[] versions) => new() { Name = "worked case", Zone = zone, Versions = versions };

    /// <summary>What the meter saw, mean kW by interval.</summary>
    public static MeterColumns Meter(TimeAxis axis, Func<int, double> importKw, Func<int, double>? exportKw = null)
    {
        var meter = new MeterColumns(axis.Count);
        for (int i = 0; i < axis.Count; i++)
        {
            meter.Import[i] = meter.Load[i] = importKw(i);
            meter.Export[i] = meter.Solar[i] = exportKw?.Invoke(i) ?? 0;
        }
        return meter;
    }

    /// <summary>So many kWh bought, and sold, evenly over the span.</summary>
    public static MeterColumns Even(TimeAxis axis, double importKwh, double exportKwh = 0)
    {
        double hours = axis.Count * axis.StepHours;
        return Meter(axis, _ => importKwh / hours, _ => exportKwh / hours);
    }

    public static BillSet Bills(TimeAxis axis, MeterColumns meter, Account? account, params TariffVersion[] versions) =>
        Biller.Bill(MeterSums.Of(new TariffCalendar(Plan(axis.Zone, versions), axis, account), meter));

    /// <summary>The only bill of a span.</summary>
    public static Bill BillOf(TimeAxis axis, MeterColumns meter, params TariffVersion[] versions) =>
        Assert.Single(Bills(axis, meter, null, versions).Bills);

    /// <summary>The lines as kind and amount.</summary>
    public static IEnumerable<string> Lines(Bill bill) =>
        bill.Lines.Select(l => string.Create(CultureInfo.InvariantCulture, $"{l.Kind} {l.Amount:0.00}"));

    /// <summary>The only line of a kind.</summary>
    public static BillLine Line(Bill bill, string kind) => Assert.Single(bill.Lines, l => l.Kind == kind);
}
