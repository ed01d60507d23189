using EnergySim.Solar;
using NodaTime;

namespace EnergySim.Tests.Solar.Clouds;

public class DailyClearnessTests
{
    private static readonly LocalDate s_newYear = new(2025, 1, 1);

    // Duffie and Beckman, Solar Engineering of Thermal Processes (2013), Example 2.11.1, from memory: St. Louis, latitude 38.6°, 3 September,
    // 23.0 MJ/m² on the flat; extraterrestrial 33.3 MJ/m², daily clearness 0.69. The book takes declination of noon and 1 + 0.033 cos for the distance.
    [Fact]
    public void Clearness_TextbookDay_IsTheBooks()
    {
        ClearnessDay day = Assert.Single(DailyClearness.Of(Skies.Of(new LocalDate(2013, 9, 3), Duration.FromHours(1), new Place(38.6, -90.2, 150), [0.69])).Days);
        Assert.Equal(33.3, day.ExtraterrestrialWhPerM2 * 0.0036, 0.15);
        Assert.Equal(0.69, 23.0 / (day.ExtraterrestrialWhPerM2 * 0.0036), 0.005);
        Assert.Equal(0.69, day.Clearness!.Value, 9);
    }

    // The same, Example 1.10.1: latitude 43°, 15 April, declination 9.4°, 33.8 MJ/m². From memory, and recomputed in
    // shared/reference/REFERENCE.md §2.1. The sun itself had that declination between the noons of 13 and 14 April 2013, and 10.0° on the 15th.
    [Fact]
    public void Extraterrestrial_TextbookDay_IsTheBooks()
    {
        DailyClearness sky = DailyClearness.Of(Skies.Of(new LocalDate(2013, 4, 13), Duration.FromHours(1), new Place(43, -105, 0), [0.5, 0.5]));
        Assert.Equal(33.8, sky.Days.Average(d => d.ExtraterrestrialWhPerM2) * 0.0036, 0.1);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(15)]
    [InlineData(60)]
    public void Days_AnyStep_AreTheSameDays(int minutes)
    {
        double[] wanted = [0.1, 0.7, 0.4];
        DailyClearness sky = DailyClearness.Of(Skies.Of(s_newYear, Duration.FromMinutes(minutes), Skies.Town, wanted));
        Assert.Equal([s_newYear, s_newYear.PlusDays(1), s_newYear.PlusDays(2)], sky.Days.Select(d => d.Date));
        Assert.Equal(wanted, sky.Days.Select(d => Math.Round(d.Clearness!.Value, 9)));
        Assert.Equal([0, 1440 / minutes, 2880 / minutes], sky.Days.Select(d => d.FirstInterval));
    }

    [Theory]
    [InlineData(3, 3, 21)]
    [InlineData(24, 3, 0)]
    [InlineData(-1, 4, 1)]
    public void Days_WeatherThatBeginsWithinADay_KeepsWholeDaysOnly(int laterHours, int days, int firstInterval)
    {
        WeatherSeries weather = Skies.Of(s_newYear, 0.1, 0.7, 0.4, 0.5);
        weather = weather with { Start = weather.Start + Duration.FromHours(laterHours) };
        DailyClearness sky = DailyClearness.Of(laterHours == 24 ? weather with { GlobalWPerM2 = weather.GlobalWPerM2[..72] } : weather);
        Assert.Equal(days - (laterHours == -1 ? 1 : 0), sky.Days.Count);
        Assert.Equal(firstInterval, sky.Days[0].FirstInterval);
        Assert.Equal(new LocalDate(2025, 1, laterHours < 0 ? 1 : 2), sky.Days[0].Date);
    }

    // Half-hours whose stamps are their middles begin at a quarter to midnight; the interval around midnight belongs to the day that begins.
    [Fact]
    public void Days_IntervalAroundMidnight_BelongsToTheDayThatBegins()
    {
        WeatherSeries weather = Skies.Of(s_newYear, Duration.FromMinutes(30), Skies.Town, [0.2, 0.6]);
        DailyClearness sky = DailyClearness.Of(weather with { Start = weather.Start - Duration.FromMinutes(15) });
        Assert.Equal([(s_newYear, 0), (s_newYear.PlusDays(1), 48)], sky.Days.Select(d => (d.Date, d.FirstInterval)));
    }

    [Fact]
    public void Clearness_PolarNight_IsUnknown()
    {
        DailyClearness sky = DailyClearness.Of(Skies.Of(s_newYear, Duration.FromHours(1), new Place(70, 25, 0), [0.3]));
        Assert.Null(sky.Days[0].Clearness);
        Assert.Equal(0, DarkSpells.Of(sky).DarkDays);
        Assert.Empty(DarkSpells.Of(sky).LeastSun);
    }

    [Fact]
    public void FollowsPrevious_YearsThatMeetOrDoNot_AndMonthsOfATypicalYear()
    {
        WeatherSeries first = Skies.Of(s_newYear, 0.1, 0.1), meets = Skies.Of(s_newYear.PlusDays(2), 0.1), later = Skies.Of(s_newYear.PlusDays(9), 0.1);
        Assert.Equal([false, true, true, false], DailyClearness.Of(first, meets, later).Days.Select(d => d.FollowsPrevious));
        WeatherSeries typical = Skies.Of(new LocalDate(2001, 1, 30), 0.1, 0.1, 0.1, 0.1) with { IsTypicalYear = true };
        DailyClearness sky = DailyClearness.Of(typical);
        Assert.Equal([false, true, false, true], sky.Days.Select(d => d.FollowsPrevious));
        Assert.True(sky.IsTypicalOnly);
    }

    [Fact]
    public void Of_WeatherOutOfOrderOrTooShort_Throws()
    {
        WeatherSeries weather = Skies.Of(s_newYear, 0.1, 0.2);
        Assert.Throws<ArgumentException>(() => DailyClearness.Of(weather, weather));
        Assert.Throws<ArgumentException>(() => DailyClearness.Of(weather with { GlobalWPerM2 = weather.GlobalWPerM2[..20] }));
        Assert.Throws<ArgumentException>(() => DailyClearness.Of([]));
    }
}
