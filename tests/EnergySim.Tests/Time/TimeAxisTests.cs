using CsCheck;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Tests.Time;

public class TimeAxisTests
{
    [Theory]
    [InlineData("America/Denver")]
    [InlineData("America/Phoenix")]
    [InlineData("Australia/Adelaide")]
    [InlineData("Australia/Lord_Howe")]
    [InlineData("Europe/Berlin")]
    public void LocalClock_OfEveryInterval_IsThatOfTheZone(string id)
    {
        DateTimeZone zone = DateTimeZoneProviders.Tzdb[id];
        TimeAxis axis = TimeAxis.OfYear(zone, 2025, 30);
        for (int i = 0; i < axis.Count; i++)
        {
            LocalDateTime local = axis.StartOf(i).InZone(zone).LocalDateTime;
            Assert.Equal(local.Date, axis.LocalDateOf(i));
            Assert.Equal((local.Hour * 60) + local.Minute, axis.LocalMinuteOf(i));
        }
    }

    [Fact]
    public void ClockChanges_OfTheUnitedStates_FallOnTheStatutesDays()
    {
        // 15 U.S.C. 260a: reference/dst_us.csv gives the dates of 2024–2028.
        string[] lines = File.ReadAllLines(SharedData.Reference("dst_us.csv"));
        string[] header = lines[0].Split(',');
        (string Column, string Zone)[] zones =
            [("eastern", "America/New_York"), ("central", "America/Chicago"), ("mountain", "America/Denver"), ("pacific", "America/Los_Angeles")];
        Assert.Equal(6, lines.Length);
        foreach (string[] row in lines.Skip(1).Select(l => l.Split(',')))
            foreach ((string column, string id) in zones)
            {
                DateTimeZone zone = DateTimeZoneProviders.Tzdb[id];
                foreach ((string change, int hours) in new[] { ("start", 23), ("end", 25) })
                {
                    Instant at = InstantPattern.General.Parse(row[Array.IndexOf(header, $"{column}_{change}_utc")]).Value;
                    LocalDate day = at.InZone(zone).Date;
                    TimeAxis axis = TimeAxis.OfDates(zone, day, day.PlusDays(1), 60);
                    Assert.Equal(hours, axis.Count);
                    int index = (int)(at - axis.Start).TotalHours;
                    Assert.Equal(hours == 23 ? 120 : 0, axis.LocalMinuteOf(index) - axis.LocalMinuteOf(index - 1));
                }
            }
    }

    [Theory]
    [InlineData(2024, 60, 8784)]
    [InlineData(2025, 60, 8760)]
    [InlineData(2025, 15, 35040)]
    [InlineData(2028, 15, 35136)]
    public void OfYear_AnyYear_HasItsIntervals(int year, int step, int count) =>
        // REFERENCE.md §10: 8,760 hours, 8,784 in a leap year.
        Assert.Equal(count, TimeAxis.OfYear(DateTimeZoneProviders.Tzdb["America/Chicago"], year, step).Count);

    [Theory]
    [InlineData(0)]
    [InlineData(7)]
    [InlineData(120)]
    public void New_StepNotAllowed_Throws(int step) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 1, 1, 0, 0), step, 1));

    [Fact]
    public void ClockWindow_AcrossMidnight_ContainsBothSides()
    {
        var night = new ClockWindow(21 * 60, 6 * 60);
        Assert.True(night.Contains(23 * 60));
        Assert.True(night.Contains(0));
        Assert.False(night.Contains(6 * 60));
        Assert.True(new ClockWindow(60, 60).Contains(0));
        Assert.True(ClockWindow.WholeDay.Contains(1439));
    }

    [Fact]
    public void ClockWindow_AndItsComplement_PartTheDay() => FixedSeed.Check(Gen.Select(Gen.Int[0, 1439], Gen.Int[0, 1439]).Where((a, b) => a != b), 200, window =>
    {
        (int from, int to) = window;
        for (int minute = 0; minute < 1440; minute++)
            Assert.True(new ClockWindow(from, to).Contains(minute) ^ new ClockWindow(to, from).Contains(minute));
    });
}
