using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Time;

/// <summary>The federal holidays of 5 U.S.C. 6103 as rules; E.O. 11582 moves a Saturday to Friday, a Sunday to Monday.</summary>
internal static class FederalHolidays
{
    /// <summary>By the name that reference/holidays.csv gives.</summary>
    public static IReadOnlyDictionary<string, HolidayRule> ByName { get; } = new Dictionary<string, HolidayRule>
    {
        ["New Year's Day"] = new HolidayRule.Fixed(new(1, 1), HolidayMove.Nearest),
        ["Birthday of Martin Luther King, Jr."] = new HolidayRule.Nth(1, 3, IsoDayOfWeek.Monday),
        ["Washington's Birthday"] = new HolidayRule.Nth(2, 3, IsoDayOfWeek.Monday),
        ["Memorial Day"] = new HolidayRule.Nth(5, -1, IsoDayOfWeek.Monday),
        ["Juneteenth National Independence Day"] = new HolidayRule.Fixed(new(6, 19), HolidayMove.Nearest),
        ["Independence Day"] = new HolidayRule.Fixed(new(7, 4), HolidayMove.Nearest),
        ["Labor Day"] = new HolidayRule.Nth(9, 1, IsoDayOfWeek.Monday),
        ["Columbus Day"] = new HolidayRule.Nth(10, 2, IsoDayOfWeek.Monday),
        ["Veterans Day"] = new HolidayRule.Fixed(new(11, 11), HolidayMove.Nearest),
        ["Thanksgiving Day"] = new HolidayRule.Nth(11, 4, IsoDayOfWeek.Thursday),
        ["Christmas Day"] = new HolidayRule.Fixed(new(12, 25), HolidayMove.Nearest),
    };
}
