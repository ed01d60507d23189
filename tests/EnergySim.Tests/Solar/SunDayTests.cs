using EnergySim.Solar;
using EnergySim.TestData;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Tests.Solar;

public class SunDayTests(ITestOutputHelper output)
{
    // sunrise_sunset.csv: astronomy-engine 2.1.19; tolerance 60 s, the refraction model's.
    [Fact]
    public void Of_FourSitesAndDays_RisesAndSetsAsALibrarySays()
    {
        string[][] rows = [.. File.ReadAllLines(SharedData.Reference("sunrise_sunset.csv")).Skip(1).Where(l => l.Length > 0).Select(l => l.Split(','))];
        Assert.Equal(4, rows.Length);
        foreach (string[] row in rows)
        {
            double Value(int column) => double.Parse(row[column], System.Globalization.CultureInfo.InvariantCulture);
            Instant At(int column) => InstantPattern.ExtendedIso.Parse(row[column]).Value;
            var place = new Place(Value(2), Value(3), 0);
            var offset = Offset.FromHours((int)Math.Round(Value(3) / 15));
            SunDay day = SunDay.Of(At(5).WithOffset(offset).Date, offset, place);
            double Apart(Instant? ours, int column) => Math.Abs((ours!.Value - At(column)).TotalSeconds);
            output.WriteLine($"{row[0]}: rise {Apart(day.Rise, 4):0.0} s, noon {Apart(day.Noon, 5):0.0} s, set {Apart(day.Set, 6):0.0} s apart");
            Assert.InRange(Apart(day.Rise, 4), 0, 60);
            Assert.InRange(Apart(day.Noon, 5), 0, 5);
            Assert.InRange(Apart(day.Set, 6), 0, 60);
        }
    }

    // Golden, 17 October 2003: 06:12:44, 11:46:05, 17:18:51 local standard time (astronomy-engine 2.1.19, sea-level horizon), tolerance 5 s.
    [Fact]
    public void Of_DayOfTheWorkedExample_RisesAndSetsAsALibrarySays()
    {
        SunDay day = SunDay.Of(new LocalDate(2003, 10, 17), Offset.FromHours(-7), new Place(39.742476, -105.1786, 0));
        Assert.InRange((day.Rise!.Value - Instant.FromUtc(2003, 10, 17, 13, 12, 44)).TotalSeconds, -5, 5);
        Assert.InRange((day.Noon - Instant.FromUtc(2003, 10, 17, 18, 46, 5)).TotalSeconds, -5, 5);
        Assert.InRange((day.Set!.Value - Instant.FromUtc(2003, 10, 18, 0, 18, 51)).TotalSeconds, -5, 5);
    }

    // Midnight sun and polar night at 70° N: common knowledge, May to July and late November to mid-January.
    [Theory]
    [InlineData(6, 21, true)]
    [InlineData(12, 21, false)]
    public void Of_BeyondThePolarCircle_NeitherRisesNorSets(int month, int day, bool isUp)
    {
        SunDay sun = SunDay.Of(new LocalDate(2025, month, day), Offset.FromHours(1), new Place(69.65, 18.96, 0));
        Assert.Null(sun.Rise);
        Assert.Null(sun.Set);
        Assert.Equal(isUp, sun.IsAlwaysUp);
    }
}
