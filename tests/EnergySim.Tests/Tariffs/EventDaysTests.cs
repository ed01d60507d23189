using EnergySim.Tariffs;
using EnergySim.Tests.Billing;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Tariffs;

/// <summary>Events given by number: on the days of the house's highest load.</summary>
public class EventDaysTests
{
    private static readonly TariffVersion s_plan = Worked.Flat(new PricePart("energy", 0.1m)) with
    {
        Seasons = [new Season("summer", new(6, 1), new(8, 31)), new Season("rest", new(9, 1), new(5, 31))],
        Events = new EventCharge([], 0.5m, new ClockWindow(16 * 60, 18 * 60)) { HighestLoadDays = 2, Season = "summer" },
    };

    [Fact]
    public void Chosen_OfEachYear_AreTheHighestOfTheSeasonInTheWindow()
    {
        TimeAxis axis = Worked.Days(new(2025, 1, 1), 730);
        double Load(int i)
        {
            bool inside = axis.LocalMinuteOf(i) is 960 or 1020;
            return axis.LocalDateOf(i) switch
            {
                { Month: 1, Day: 5 } => 9,                      // another season
                { Month: 7, Day: 4 } => inside ? 1 : 9,         // outside the window
                { Year: 2025, Month: 6, Day: 30 } => inside ? 3 : 1,
                { Year: 2025, Month: 8, Day: 31 } => inside ? 2 : 1,
                { Year: 2026, Month: 6, Day: 1 } => inside ? 2 : 1,
                _ => 1,
            };
        }
        double[] load = [.. Enumerable.Range(0, axis.Count).Select(Load)];
        var calendar = new TariffCalendar(Worked.Plan(axis.Zone, s_plan), axis, null, load);
        // The second of 2026 is the earliest of many equal days.
        Assert.Equal([new(2025, 6, 30), new(2025, 8, 31), new(2026, 6, 1), new(2026, 6, 2)], calendar.Tariff.Versions[0].Events!.Dates);
        Assert.Contains("events stand on the days of highest load of this house, which the utility need not call", calendar.Notes);
    }

    [Fact]
    public void Chosen_WithLaterPrices_AreOfEachVersionsOwnDays()
    {
        TimeAxis axis = Worked.Days(new(2025, 6, 1), 61);
        TariffVersion july = s_plan with { Effective = new LocalDate(2025, 7, 1), Events = s_plan.Events! with { HighestLoadDays = 1 } };
        double[] load = [.. Enumerable.Range(0, axis.Count).Select(i => (double)(axis.LocalDayOf(i) - axis.LocalDayOf(0)))];
        var calendar = new TariffCalendar(Worked.Plan(axis.Zone, s_plan, july), axis, null, load);
        Assert.Equal([new(2025, 6, 29), new(2025, 6, 30)], calendar.Tariff.Versions[0].Events!.Dates);
        Assert.Equal([new LocalDate(2025, 7, 31)], calendar.Tariff.Versions[1].Events!.Dates);
    }

    [Fact]
    public void Chosen_WithoutALoad_AreNoneAndSaidSo()
    {
        var calendar = new TariffCalendar(Worked.Plan(Worked.Denver, s_plan), Worked.June());
        Assert.Empty(calendar.Tariff.Versions[0].Events!.Dates);
        Assert.Contains("events on the days of highest load are not billed: no load is known", calendar.Notes);
    }
}
