using System.Globalization;
using EnergySim.Billing;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Bills;

/// <summary>Re-creates bills that somebody states, from the home's data and plan, and holds them against each other.</summary>
public static class BillRecreation
{
    /// <summary>
    /// Re-creates stated bills for one installation. Where the home's own read dates do not give bills of the same days, the stated bills' days
    /// become the read dates.
    /// </summary>
    /// <param name="home">The home.</param>
    /// <param name="stated">The stated bills by rising date.</param>
    /// <param name="column">Name of the installation: <see cref="Installation.AsItIs"/> or an offer's.</param>
    /// <returns>A match a stated bill.</returns>
    /// <exception cref="ArgumentException">A bill's days have no data, or there is no such installation.</exception>
    public static IReadOnlyList<BillMatch> Of(Home home, IReadOnlyList<StatedBill> stated, string column)
    {
        ArgumentNullException.ThrowIfNull(home);
        ArgumentNullException.ThrowIfNull(stated);
        TariffCalendar calendar = CalendarFor(home, stated);
        Installation installation = Installation.Of(home, calendar).FirstOrDefault(i => i.Name == column)
            ?? throw new ArgumentException($"\"{column}\" is no offer of {home.Name}.", nameof(column));
        BillSet bills = Biller.Bill(MeterSums.Of(calendar, installation.Run.Sums().Meter));
        return [.. stated.Select(s => BillMatch.Of(bills.Bills.First(b => b.From == s.From && b.To == s.To), s))];
    }

    private static TariffCalendar CalendarFor(Home home, IReadOnlyList<StatedBill> stated)
    {
        TimeAxis axis = home.Load.Axis;
        LocalDate first = axis.LocalDateOf(0), last = axis.LocalDateOf(axis.Count - 1);
        foreach (StatedBill bill in stated)
            if (bill.From < first || bill.To > last)
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture,
                    $"the stated bill from {bill.From:uuuu-MM-dd} to {bill.To:uuuu-MM-dd} lies outside the home's data, which run from {first:uuuu-MM-dd} to {last:uuuu-MM-dd}."));
        var calendar = new TariffCalendar(home.Tariff, axis, home.Account, home.Load.Kw);
        if (stated.All(s => calendar.Bills.Any(b => b.From == s.From && b.To == s.To))) return calendar;
        LocalDate[] reads = [.. stated.SelectMany(s => new[] { s.From, s.To.PlusDays(1) }).Append(first).Append(last.PlusDays(1)).Distinct().Order()];
        return new TariffCalendar(home.Tariff, axis, home.Account with { ReadDates = reads }, home.Load.Kw);
    }
}
