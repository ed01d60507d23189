using EnergySim.Engine;
using EnergySim.Studies.Bills;
using EnergySim.Studies.Days;
using NodaTime;

namespace EnergySim.Studies.Tests.Days;

public sealed class DayStudyTests
{
    private static readonly Lazy<Comparison> s_comparison = new(() => ComparisonStudy.Of(Demo.Home));

    public static TheoryData<int, int, int> Days
    {
        get
        {
            var days = new TheoryData<int, int, int>();
            foreach (int column in (int[])[0, 1, 2])
                foreach ((int month, int day) in ((int, int)[])[(1, 1), (3, 9), (7, 15), (11, 2), (12, 31)]) days.Add(column, month, day);
            return days;
        }
    }

    // What the meter saw of the same day, taken from the run that the comparison bills.
    [Theory]
    [MemberData(nameof(Days))]
    public void Of_ADay_AgreesWithTheMeterThatIsBilled(int column, int month, int day)
    {
        var date = new LocalDate(2025, month, day);
        DayFlows told = DayStudy.Of(Demo.Home, column, date);
        // Days on which this zone's clock changes: 9 March and 2 November 2025 (15 U.S.C. 260a).
        Assert.Equal((month, day) switch { (3, 9) => 23 * 4, (11, 2) => 25 * 4, _ => 96 }, told.Moments.Count);
        MeterColumns meter = s_comparison.Value.Columns[column].Sums.Meter;
        double bought = 0, sold = 0, solar = 0;
        for (int i = 0; i < Demo.Home.Load.Axis.Count; i++)
        {
            if (Demo.Home.Load.Axis.LocalDateOf(i) != date) continue;
            bought += meter.ImportKw[i] / 4;
            sold += meter.ExportKw[i] / 4;
            solar += Demo.Home.Solar!.Profile.Kw[i] / 4;
        }
        Assert.Equal(sold, told.SoldKwh, 1e-9);
        // No offer of the demo charges from the grid.
        Assert.Equal(bought, told.GridToHomeKwh, 1e-6);
        Assert.True(told.SunKwh <= solar + 1e-9 && told.SunKwh >= 0.9 * solar, $"{told.SunKwh} of {solar}");
        foreach (DayMoment moment in told.Moments) Assert.Equal(moment.UseKw, moment.SunToHomeKw + moment.BatteryToHomeKw + moment.GridToHomeKw, 1e-9);
        if (column == 0) Assert.Equal(0, told.HighestKwh + told.BatteryToHomeKwh + told.IntoBatteryKwh);
    }

    [Fact]
    public void Average_OfAMonth_TimesItsDaysIsTheMonth()
    {
        DayFlows july = DayStudy.Average(Demo.Home, 2, 7);
        MonthHours months = MonthHours.Of(Demo.Home, 2);
        Assert.Equal((31, 96, (LocalDate?)null), (july.DayCount, july.Moments.Count, july.Date));
        Assert.Equal(months.Use.KwhByMonth![6], july.UseKwh * 31, 1e-6);
        Assert.Equal(months.Sun.KwhByMonth![6], july.SunKwh * 31, 1e-6);
        Assert.Equal(months.Sold.KwhByMonth![6], july.SoldKwh * 31, 1e-6);
        // Between four and nine the plan has one price on weekdays and another on the other days.
        Assert.All(july.Moments, m => Assert.Equal(m.LocalMinute is >= 21 * 60 or < 6 * 60, m.Period == "off-peak"));
    }

    [Fact]
    public void MonthHours_OfAYear_SumToTheRun()
    {
        for (int column = 0; column <= 2; column++)
        {
            MonthHours months = MonthHours.Of(Demo.Home, column);
            ComparisonColumn compared = s_comparison.Value.Columns[column];
            Assert.Equal(compared.Sums.Kwh(LedgerColumn.ImportKw), months.Bought.KwhByMonth!.Sum(), 1e-6);
            Assert.Equal(compared.Sums.Kwh(LedgerColumn.ExportKw), months.Sold.KwhByMonth!.Sum(), 1e-6);
            Assert.Equal(compared.Sums.Kwh(LedgerColumn.LoadKw) + compared.Sums.Kwh(LedgerColumn.StandbyKw), months.Use.KwhByMonth!.Sum(), 1e-6);
            Assert.All(months.Stored.Means, m => Assert.All(m!, kwh => Assert.InRange(kwh, 0, months.HighestKwh)));
            Assert.Null(months.Stored.KwhByMonth);
        }
    }

    [Fact]
    public void OfferLines_OfEachOffer_SumToItsSaving()
    {
        for (int column = 1; column <= 2; column++)
            Assert.Equal(s_comparison.Value.Columns[column].AnnualSaving, OfferLines.Of(s_comparison.Value, column).Difference.Saved);
        Assert.Throws<ArgumentOutOfRangeException>(() => OfferLines.Of(s_comparison.Value, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => OfferLines.Of(s_comparison.Value, 3));
    }

    [Fact]
    public void Of_WhatIsNotThere_SaysSo()
    {
        Assert.Contains("2024-12-31 is not a day of the data, which go from 2025-01-01 to 2025-12-31", Message(() => DayStudy.Of(Demo.Home, 0, new LocalDate(2024, 12, 31))), StringComparison.Ordinal);
        Assert.Contains("There is no column 3; they are 0 (as it is) to 2.", Message(() => DayStudy.Of(Demo.Home, 3, new LocalDate(2025, 1, 1))), StringComparison.Ordinal);
        Assert.Contains("month 13", Message(() => DayStudy.Average(Demo.Home, 0, 13)), StringComparison.Ordinal);

        static string Message(Action act) => Assert.Throws<ArgumentException>(act).Message;
    }
}
