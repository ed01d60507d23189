using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Tests.Time;

public class HolidayRuleTests
{
    [Fact]
    public void Dates_FederalRules_AreTheObservedDays()
    {
        // 5 U.S.C. 6103 and E.O. 11582: reference/holidays.csv holds the observed dates of 2024–2028.
        string[] lines = File.ReadAllLines(SharedData.Reference("holidays.csv"));
        Assert.EndsWith("observed_date_mon_fri_employee,observed_weekday,moved", lines[0], StringComparison.Ordinal);
        LocalDate[] expected = [.. lines.Skip(1).Where(l => l.Length > 0).Select(l => LocalDatePattern.Iso.Parse(l.Split(',')[^3]).Value).Where(d => d.Year is >= 2024 and <= 2028).Order()];
        LocalDate[] actual = [.. HolidayRule.Dates(FederalHolidays.ByName.Values, 2024, 2028)];
        Assert.Equal(expected, actual);
        Assert.True(expected.Length >= 54);
    }

    [Fact]
    public void Dates_NewYearOnSaturday_MovesIntoTheYearBefore()
    {
        // 1 January 2028 is a Saturday: REFERENCE.md §10.
        Assert.Contains(new LocalDate(2027, 12, 31), HolidayRule.Dates([FederalHolidays.ByName["New Year's Day"]], 2027, 2027));
        Assert.Empty(HolidayRule.Dates([FederalHolidays.ByName["New Year's Day"]], 2028, 2028));
    }

    [Fact]
    public void Fixed_MoveMonday_LeavesSaturdayWhereItFalls()
    {
        var rule = new HolidayRule.Fixed(new MonthDay(7, 4), HolidayMove.Monday);
        Assert.Equal(new LocalDate(2026, 7, 4), rule.In(2026));
        Assert.Equal(new LocalDate(2027, 7, 5), rule.In(2027));
    }

    [Fact]
    public void Nth_FifthOfAMonthThatHasFour_IsNone() => Assert.Null(new HolidayRule.Nth(2, 5, IsoDayOfWeek.Sunday).In(2026));
}
