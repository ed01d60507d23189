using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Studies.Plans;

/// <summary>
/// A bill simple enough to work by hand: a house that draws 1 kW at every instant, with a roof that gives 2 kW from 10:00 to 14:00, so that
/// 1 kW is sold then; one calendar month.
/// </summary>
public static class SampleBill
{
    /// <summary>First and last hour of the sun.</summary>
    private const int SunFromMinute = 10 * 60, SunToMinute = 14 * 60;

    /// <summary>Sample bills of a version: the first whole month of each season on or after its effective date.</summary>
    /// <param name="tariff">The plan.</param>
    /// <param name="version">Index of the version.</param>
    /// <returns>Season and bill; a season without a whole month, or with none before the next version, is left out.</returns>
    public static IReadOnlyList<(string Season, Bill Bill)> Of(Tariff tariff, int version)
    {
        ArgumentNullException.ThrowIfNull(tariff);
        TariffVersion terms = tariff.Versions[version];
        LocalDate? until = version + 1 < tariff.Versions.Count ? tariff.Versions[version + 1].Effective : null;
        var rules = new DayRules(terms, terms.Effective.Year, terms.Effective.Year + 1);
        var bills = new List<(string, Bill)>();
        LocalDate month = terms.Effective.Day == 1 ? terms.Effective : new LocalDate(terms.Effective.Year, terms.Effective.Month, 1).PlusMonths(1);
        for (int m = 0; m < 12; m++, month = month.PlusMonths(1))
        {
            LocalDate end = month.PlusMonths(1);
            string season = rules.SeasonOf(month);
            bool whole = Enumerable.Range(0, Period.DaysBetween(month, end)).All(d => rules.SeasonOf(month.PlusDays(d)) == season);
            if (!whole || end > until || bills.Any(b => b.Item1 == season)) continue;
            bills.Add((season, BillOf(tariff, month, end)));
        }
        return bills;
    }

    private static Bill BillOf(Tariff tariff, LocalDate from, LocalDate end)
    {
        TimeAxis axis = TimeAxis.OfDates(tariff.Zone, from, end, 15);
        var load = new double[axis.Count];
        var sun = new double[axis.Count];
        for (int i = 0; i < load.Length; i++)
        {
            load[i] = 1;
            if (axis.LocalMinuteOf(i) is >= SunFromMinute and < SunToMinute) sun[i] = 2;
        }
        SetPoints none = SetPoints.Always(new SetPointRow(0, 0, 0, double.PositiveInfinity, double.PositiveInfinity), axis.Count);
        var run = new Run(new Profile(axis, load), null, new Profile(axis, sun), Equipment.Plant.Nothing, new SiteLimits(), none);
        return Biller.Bill(MeterSums.Of(new TariffCalendar(tariff, axis), run.Sums().Meter)).Bills[0];
    }
}
