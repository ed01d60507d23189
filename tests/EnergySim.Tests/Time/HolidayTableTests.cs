using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;
using NodaTime.Text;
using PublicHoliday;

namespace EnergySim.Tests.Time;

/// <summary>Holiday rules against tables of dates, holiday by holiday.</summary>
public class HolidayTableTests
{
    [Fact]
    public void In_EveryRowOfTheTable_GivesStatutoryAndObservedDate()
    {
        // 5 U.S.C. 6103 and E.O. 11582, 2024–2028: reference/holidays.csv (REFERENCE.md §10).
        int rows = 0, moved = 0;
        foreach (string line in File.ReadLines(SharedData.Reference("holidays.csv")).Skip(1))
        {
            // The name alone may hold a comma: the six columns after it do not.
            string[] cells = line.Split(',');
            string name = string.Join(',', cells[1..^5]).Trim('"');
            int year = int.Parse(cells[0], System.Globalization.CultureInfo.InvariantCulture);
            LocalDate statutory = LocalDatePattern.Iso.Parse(cells[^5]).Value, observed = LocalDatePattern.Iso.Parse(cells[^3]).Value;
            HolidayRule rule = FederalHolidays.ByName[name];
            Assert.Equal(observed, rule.In(year));
            Assert.Equal(cells[^2], observed.DayOfWeek.ToString());
            Assert.Equal(statutory, rule is HolidayRule.Fixed day ? (day with { Move = HolidayMove.None }).In(year) : rule.In(year));
            Assert.Equal(cells[^1] == "yes", statutory != observed);
            rows++;
            if (statutory != observed) moved++;
        }
        // Eleven holidays in five years; REFERENCE.md §10 names six that move.
        Assert.Equal((55, 6), (rows, moved));
    }

    [Fact]
    public void In_TenYears_AgreesWithAHolidayLibrary()
    {
        // Oracle: NuGet PublicHoliday 3.17.0, its observed dates of the United States, 2024–2033.
        var oracle = new USAPublicHoliday();
        for (int year = 2024; year <= 2033; year++)
        {
            LocalDate[] theirs = [.. oracle.PublicHolidaysInformation(year).Select(h => LocalDate.FromDateTime(h.ObservedDate)).Order()];
            LocalDate[] ours = [.. FederalHolidays.ByName.Values.Select(r => r.In(year)!.Value).Order()];
            Assert.Equal(theirs, ours);
        }
    }
}
