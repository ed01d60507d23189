using System.Globalization;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Profiles.Shapes;

/// <summary>
/// Lays bills out over their intervals: each bill's energy, to the last bit that adding up leaves, with the shape of a house of a kind. What mild months
/// take is habit; what cold or hot ones take more follows the temperature.
/// </summary>
public static class BillYear
{
    // How many of the lowest bills, per day, are taken as habit alone. Common practice: a quarter of the year is mild.
    private const double MildShare = 0.25;

    /// <summary>The load.</summary>
    /// <param name="zone">The house's zone.</param>
    /// <param name="bills">Bills in order, each beginning the day after the one before.</param>
    /// <param name="house">The kind of house.</param>
    /// <param name="stepMinutes">Length of an interval.</param>
    /// <exception cref="ArgumentException">There are no bills, they leave out or share days, or a bill's peak is below its mean.</exception>
    public static Profile Of(DateTimeZone zone, IReadOnlyList<MeteredBill> bills, HouseShape house, int stepMinutes)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(bills);
        ArgumentNullException.ThrowIfNull(house);
        Check(bills);
        TimeAxis axis = TimeAxis.OfDates(zone, bills[0].From, bills[^1].To.PlusDays(1), stepMinutes);
        double[] perDay = [.. bills.Select(b => b.Kwh / b.Days).Order()];
        double habitPerDay = perDay[..Math.Max(1, (int)Math.Round(perDay.Length * MildShare))].Average();
        var kw = new double[axis.Count];
        int at = 0;
        foreach (MeteredBill bill in bills)
        {
            int from = at, last = TimeAxis.DayOfDate(bill.To);
            while (at < axis.Count && axis.LocalDayOf(at) <= last) at++;
            LayOut(axis, bill, house, habitPerDay, kw.AsSpan(from, at - from), from);
        }
        return new Profile(axis, kw.AsSpan());
    }

    private static void Check(IReadOnlyList<MeteredBill> bills)
    {
        if (bills.Count == 0) throw new ArgumentException("There are no bills.", nameof(bills));
        for (int i = 0; i < bills.Count; i++)
        {
            if (bills[i].Days < 1 || !(bills[i].Kwh >= 0)) throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The bill from {bills[i].From:uuuu-MM-dd} has no days, or less than 0 kWh."), nameof(bills));
            if (i > 0 && bills[i].From != bills[i - 1].To.PlusDays(1))
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The bill from {bills[i].From:uuuu-MM-dd} does not begin the day after the one before ends ({bills[i - 1].To:uuuu-MM-dd})."), nameof(bills));
        }
    }

    private static void LayOut(TimeAxis axis, MeteredBill bill, HouseShape house, double habitPerDay, Span<double> kw, int from)
    {
        var noise = new ShapeNoise(house.Seed);
        var weather = new double[kw.Length];
        double habit = 0, driven = 0;
        for (int i = 0; i < kw.Length; i++)
        {
            int day = axis.LocalDayOf(from + i), minute = axis.LocalMinuteOf(from + i);
            double celsius = house.Climate.CelsiusAt(day, minute, noise);
            weather[i] = (house.HeatsWithElectricity ? EndUse.Heating(celsius) : 0) + (house.Cools ? EndUse.Cooling(celsius) : 0);
            kw[i] = EndUse.Habits(house, day, minute, noise);
            habit += kw[i];
            driven += weather[i];
        }
        double habitKwh = driven > 0 ? Math.Min(bill.Kwh, habitPerDay * bill.Days) : bill.Kwh, drivenKwh = bill.Kwh - habitKwh;
        double perHabit = habitKwh / axis.StepHours / habit, perDriven = driven > 0 ? drivenKwh / axis.StepHours / driven : 0;
        for (int i = 0; i < kw.Length; i++) kw[i] = (kw[i] * perHabit) + (weather[i] * perDriven);
        if (bill is { PeakKw: double peak, Kwh: > 0 }) Sharpen(kw, peak, bill);
    }

    // Raises every value to a power that gives the peak and scales back to the energy: the order of the hours stays.
    private static void Sharpen(Span<double> kw, double peakKw, MeteredBill bill)
    {
        double mean = 0;
        foreach (double v in kw) mean += v / kw.Length;
        if (peakKw < mean) throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The bill from {bill.From:uuuu-MM-dd} has a peak of {peakKw} kW, below its mean power of {mean:0.###} kW."));
        if (mean == 0)
        {
            if (peakKw > 0) throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The bill from {bill.From:uuuu-MM-dd} has a peak of {peakKw} kW and no energy."));
            return;
        }
        double low = 0, high = 1;
        while (PeakWith(kw, high, mean) < peakKw && high < 64) high *= 2;
        for (int k = 0; k < 100; k++)
        {
            double middle = (low + high) / 2;
            if (PeakWith(kw, middle, mean) < peakKw) low = middle;
            else high = middle;
        }
        double sum = 0;
        for (int i = 0; i < kw.Length; i++) sum += kw[i] = Math.Pow(kw[i] / mean, high);
        for (int i = 0; i < kw.Length; i++) kw[i] *= mean * kw.Length / sum;
    }

    private static double PeakWith(ReadOnlySpan<double> kw, double power, double mean)
    {
        double most = 0, sum = 0;
        foreach (double v in kw)
        {
            double raised = Math.Pow(v / mean, power);
            most = Math.Max(most, raised);
            sum += raised;
        }
        return most * mean * kw.Length / sum;
    }
}
