using EnergySim.Solar;
using EnergySim.Tests.Solar.Clouds;
using NodaTime;

namespace EnergySim.Tests.Solar;

public class ClockCheckTests
{
    private static readonly WeatherSeries s_year = Skies.Of(new LocalDate(2025, 1, 1), [.. Enumerable.Range(0, 365).Select(d => 0.2 + (0.05 * (d % 11)))]);

    [Fact]
    public void Of_RightClock_IsGood()
    {
        Assert.Equal(0, ClockCheck.Of(s_year).HoursLate, 3);
        Assert.Null(ClockCheck.WarningOf(s_year));
    }

    [Theory]
    [InlineData(1, "The clock seems off by 1 h: the data's noon comes 1.0 h after the sun's.")]
    [InlineData(-5, "The clock seems off by 5 h: the data's noon comes 5.0 h before the sun's.")]
    [InlineData(11, "The clock seems off by 11 h: the data's noon comes 11.0 h after the sun's.")]
    public void WarningOf_ShiftedClock_TellsTheHours(int hours, string warning) =>
        Assert.Equal(warning, ClockCheck.WarningOf(s_year with { Start = s_year.Start + Duration.FromHours(hours) }));

    [Theory]
    [InlineData(40, 105, "The data's sun does not fit the place 40, 105, but would fit 40, -105: the longitude's sign seems wrong (east is positive).")]
    [InlineData(-40, -105, "The data's sun does not fit the place -40, -105, but would fit 40, -105: the latitude's sign seems wrong (north is positive).")]
    public void WarningOf_WrongSign_TellsWhich(double latitude, double longitude, string warning) =>
        Assert.Equal(warning, ClockCheck.WarningOf(s_year with { Place = new Place(latitude, longitude, 0) }));

    [Fact]
    public void WarningOf_SwappedCoordinates_SaysSo()
    {
        WeatherSeries there = Skies.Of(new LocalDate(2025, 1, 1), Duration.FromHours(1), new Place(42.4, -71, 6), [.. Enumerable.Range(0, 365).Select(d => 0.5)]);
        Assert.EndsWith("but would fit 42.4, -71: latitude and longitude seem swapped.",
            ClockCheck.WarningOf(there with { Place = new Place(-71, 42.4, 6) }), StringComparison.Ordinal);
    }

    [Fact]
    public void WarningOf_NoSunAtAll_IsSilent() =>
        Assert.Null(ClockCheck.WarningOf(s_year with { GlobalWPerM2 = new double[s_year.Count] }));
}
