using EnergySim.Tariffs;
using EnergySim.Tests.Billing;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Tariffs;

/// <summary>
/// Of several export prices that fit an hour the most exact holds: month before hour, hour before day, day before season, season before period.
/// </summary>
public class ExportPriceChoiceTests
{
    private static readonly TariffVersion s_plan = Worked.PeakAndOff(new ClockWindow(16 * 60, 20 * 60), 0.3m, 0.1m) with
    {
        Seasons = [new Season("june", new(6, 1), new(6, 30)), new Season("rest", new(7, 1), new(5, 31))],
    };

    private static ExportPrice Price(decimal price, int? month = null, int? hour = null, DayType? day = null, string? season = null, string? period = null) =>
        new() { Month = month, Hour = hour, Day = day, Season = season, Period = period, Parts = [new PricePart("a", price)] };

    private static double[] Lay(TariffVersion plan, params ExportPrice[] prices) =>
        new TariffCalendar(Worked.Plan(Worked.Denver, plan with { Export = new ExportTerms.NetBilling { Prices = prices } }),
            Worked.Days(new LocalDate(2025, 6, 30), 5)).ExportPrices.PricePerKwh[0];

    // Monday 30 June, 17 o'clock: all of them fit. Each is taken away in turn, the most exact first.
    [Fact]
    public void Prices_OfAllThatFit_TheMostExactHolds()
    {
        ExportPrice[] rising =
        [
            Price(1), Price(2, period: "peak"), Price(3, season: "june"), Price(4, season: "june", period: "peak"), Price(5, day: DayType.Weekday),
            Price(6, day: DayType.Weekday, season: "june", period: "peak"), Price(7, hour: 17),
                Price(8, hour: 17, day: DayType.Weekday, season: "june", period: "peak"),
            Price(9, month: 6), Price(10, month: 6, hour: 17, day: DayType.Weekday, season: "june", period: "peak"),
        ];
        for (int n = rising.Length; n > 0; n--)
        {
            Assert.Equal(n, Lay(s_plan, rising[..n])[17]);
            Assert.Equal(n, Lay(s_plan, [.. rising[..n].Reverse()])[17]);
        }
        // As exact as another: the first in the table.
        Assert.Equal(1, Lay(s_plan, Price(1, hour: 17), Price(2, hour: 17))[17]);
    }

    // The same table at other hours: each selector keeps its price to its own.
    [Fact]
    public void Prices_ThatDoNotFit_AreLeftOut()
    {
        double[] prices = Lay(s_plan, Price(1), Price(2, month: 7), Price(3, hour: 5), Price(4, day: DayType.Weekend), Price(5, season: "rest"),
            Price(6, period: "peak"));
        // 30 June (season june): 4 o'clock none but the plain, 5 its hour, 17 the peak. 1 July: the month.
        Assert.Equal([1, 3, 6, 2, 2, 2], [prices[4], prices[5], prices[17], prices[24 + 4], prices[24 + 5], prices[24 + 17]]);
        Assert.Equal(0, Lay(s_plan, Price(2, month: 1))[0]);
    }

    // TARIFF: an export table without holiday rows takes weekend ones. Friday 4 July is the day number 4 of the span.
    [Fact]
    public void Prices_OfAHoliday_AreTheWeekendsWhereNoRowNamesIt()
    {
        TariffVersion plan = s_plan with { Holidays = [new HolidayRule.Fixed(new(7, 4), HolidayMove.None)] };
        double[] weekend = Lay(plan, Price(1, day: DayType.Weekday), Price(2, day: DayType.Weekend));
        Assert.Equal([1, 2], [weekend[(3 * 24) + 12], weekend[(4 * 24) + 12]]);
        double[] holiday = Lay(plan, Price(1, day: DayType.Weekday), Price(2, day: DayType.Weekend), Price(3, day: DayType.Holiday));
        Assert.Equal([1, 3], [holiday[(3 * 24) + 12], holiday[(4 * 24) + 12]]);
    }
}
