using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Tests.Time;

public class HolidayRuleTests
{
    private static readonly (string Name, HolidayRule Rule)[] s_federal =
    [
        ("New Year", new HolidayRule.Fixed(new MonthDay(1, 1), HolidayMove.Nearest)),
        ("King", new HolidayRule.Nth(1, 3, IsoDayOfWeek.Monday)),
        ("Washington", new HolidayRule.Nth(2, 3, IsoDayOfWeek.Monday)),
        ("Memorial", new HolidayRule.Nth(5, -1, IsoDayOfWeek.Monday)),
        ("Juneteenth", new HolidayRule.Fixed(new MonthDay(6, 19), HolidayMove.Nearest)),
        ("Independence", new HolidayRule.Fixed(new MonthDay(7, 4), HolidayMove.Nearest)),
        ("Labor", new HolidayRule.Nth(9, 1, IsoDayOfWeek.Monday)),
        ("Columbus", new HolidayRule.Nth(10, 2, IsoDayOfWeek.Monday)),
        ("Veterans", new HolidayRule.Fixed(new MonthDay(11, 11), HolidayMove.Nearest)),
        ("Thanksgiving", new HolidayRule.Nth(11, 4, IsoDayOfWeek.Thursday)),
        ("Christmas", new HolidayRule.Fixed(new MonthDay(12, 25), HolidayMove.Nearest)),
    ];

    [Fact]
    public void Dates_FederalRules_AreTheObservedDays()
    {
        // 5 U.S.C. 6103 and E.O. 11582: reference/holidays.csv holds the observed dates of 2024–2028.
        string[] lines = File.ReadAllLines(SharedData.Reference("holidays.csv"));
        Assert.EndsWith("observed_date_mon_fri_employee,observed_weekday,moved", lines[0], StringComparison.Ordinal);
        LocalDate[] expected = [.. lines.Skip(1).Where(l => l.Length > 0).Select(l => LocalDatePattern.Iso.Parse(l.Split(',')[^3]).Value).Where(d => d.Year is >= 2024 and <= 2028).Order()];
        LocalDate[] actual = [.. HolidayRule.Dates(s_federal.Select(f => f.Rule), 2024, 2028)];
        Assert.Equal(expected, actual);
        Assert.True(expected.Length >= 54);
    }

    [Fact]
    public void Dates_NewYearOnSaturday_MovesIntoTheYearBefore()
    {
        // 1 January 2028 is a Saturday: REFERENCE.md §10.
        Assert.Contains(new LocalDate(2027, 12, 31), HolidayRule.Dates([s_federal[0].Rule], 2027, 2027));
        Assert.Empty(HolidayRule.Dates([s_federal[0].Rule], 2028, 2028));
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
