using EnergySim.Tariffs;
using EnergySim.Tests.Billing;
using NodaTime;

namespace EnergySim.Tests.Tariffs;

/// <summary>TARIFF, billing periods: read dates or calendar months; the settlement falls on the anniversary; a partial year is said.</summary>
public class BillSpanTests
{
    private const string Partial = "partial settlement year, settled at its last bill", Months = "bills are calendar months: no read dates are given";

    private static TariffCalendar Calendar(LocalDate from, int days, LocalDate? anniversary, params LocalDate[] reads) =>
        new(Worked.Plan(Worked.Denver, Worked.Flat(new PricePart("energy", 0.1m))), Worked.Days(from, days),
            new Account { Anniversary = anniversary, ReadDates = reads });

    private static IEnumerable<string> Bills(TariffCalendar calendar) =>
        calendar.Bills.Select(b => $"{b.From:MM-dd} {b.To:MM-dd} {b.Days} {b.SettlementYear}{(b.EndsSettlementYear ? " ends" : "")}");

    private static LocalDate Day(int month, int day) => new(2025, month, day);

    [Fact]
    public void Months_InsideAMonth_AreCutAtTheData() => Assert.Equal(
        ["06-10 06-30 21 0", "07-01 07-31 31 0", "08-01 08-05 5 0 ends"], Bills(Calendar(Day(6, 10), 57, null)));

    // Reads before and after the data bound nothing; those around them are cut to the data.
    [Fact]
    public void Reads_AroundTheData_AreCutToIt()
    {
        Assert.Equal(
            ["06-01 06-14 14 0", "06-15 06-30 16 0 ends"],
            Bills(Calendar(Day(6, 1), 30, null, Day(3, 15), Day(4, 15), Day(5, 15), Day(6, 15), Day(7, 15), Day(8, 15), Day(9, 15))));
        Assert.Equal(["06-01 06-30 30 0 ends"], Bills(Calendar(Day(6, 1), 30, null, Day(5, 1), Day(6, 1), Day(7, 1), Day(8, 1))));
        Assert.Equal(["06-01 06-30 30 0 ends"], Bills(Calendar(Day(6, 1), 30, null, Day(5, 1), Day(8, 1))));
    }

    [Fact]
    public void Reads_ThatLeaveADayOut_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => Calendar(Day(6, 1), 30, null, Day(6, 2), Day(7, 1)));
        Assert.Throws<ArgumentException>(() => Calendar(Day(6, 1), 30, null, Day(6, 1), Day(6, 30)));
        Assert.Throws<ArgumentException>(() => Calendar(Day(6, 1), 30, null, Day(6, 1), Day(6, 15), Day(6, 15), Day(7, 1)));
        Assert.Throws<ArgumentException>(() => Calendar(Day(6, 1), 30, null, Day(6, 1), Day(6, 20), Day(6, 15), Day(7, 1)));
    }

    // Anniversary on 1 July: June ends a year, August the data. On 2 July: the bill of July belongs to the year in which its first day is.
    [Fact]
    public void SettlementYear_BeginsWithTheBillAfterTheAnniversary()
    {
        Assert.Equal(["06-01 06-30 30 0 ends", "07-01 07-31 31 1", "08-01 08-31 31 1 ends"], Bills(Calendar(Day(6, 1), 92, new LocalDate(2019, 7, 1))));
        Assert.Equal(["06-01 06-30 30 0", "07-01 07-31 31 0 ends", "08-01 08-31 31 1 ends"], Bills(Calendar(Day(6, 1), 92, new LocalDate(2019, 7, 2))));
    }

    // A whole year from the anniversary is whole; a day less, or a year that begins or ends elsewhere, is not.
    [Fact]
    public void Notes_PartialYear_IsSaid()
    {
        Assert.Equal([Months], Calendar(Day(6, 1), 365, null).Notes);
        Assert.Equal([Months], Calendar(Day(6, 1), 365, Day(6, 1)).Notes);
        Assert.Equal([Partial, Months], Calendar(Day(6, 1), 364, Day(6, 1)).Notes);
        Assert.Equal([Partial, Months], Calendar(Day(6, 2), 364, Day(6, 1)).Notes);
        Assert.Equal([Partial, Months], Calendar(Day(6, 1), 365, Day(7, 1)).Notes);
        Assert.Equal([Partial], Calendar(Day(6, 1), 30, null, Day(6, 1), Day(7, 1)).Notes);
    }
}
