using EnergySim.TestData;
using NodaTime;

namespace EnergySim.Files.Tests.Meter;

/// <summary>Copies of the layouts of portal exports with answers beside them (shared/data/layouts/README.md says where they come from and what is odd).</summary>
public class PortalTests
{
    private static readonly string[] s_none = [];

    private static string Path(string name) => SharedData.DataPath("layouts", name);

    private static MeterOptions Options(string zone) => new() { Zone = zone.Length == 0 ? null : DateTimeZoneProviders.Tzdb[zone] };

    [Theory]
    [InlineData("layout-01.csv", "America/Chicago")]
    [InlineData("layout-02.csv", "America/New_York")]
    [InlineData("layout-03.csv", "America/Denver")]
    [InlineData("layout-04.csv", "America/Chicago")]
    [InlineData("layout-06.csv", "Europe/Madrid")]
    [InlineData("layout-07.csv", "Europe/Paris")]
    [InlineData("layout-07.csv", "")]
    [InlineData("layout-08.csv", "Europe/London")]
    [InlineData("layout-08.csv", "")]
    [InlineData("layout-10.csv", "America/New_York")]
    [InlineData("layout-12.csv", "")]
    [InlineData("layout-13.csv", "Europe/Copenhagen")]
    [InlineData("layout-14.csv", "America/Toronto")]
    [InlineData("layout-16.txt", "Europe/Berlin")]
    public void Read_Layout_GivesTheAnswersBesideIt(string name, string zone)
    {
        MeterData data = MeterFile.Read(Path(name), Options(zone));
        ExpectedSeries.AssertSame(Path($"{System.IO.Path.GetFileNameWithoutExtension(name)}.expected.csv"), data);
    }

    [Fact]
    public void Read_LayoutWithoutAYear_AsksAndGivesTheAnswersBesideIt()
    {
        var clock = new MeterOptions { Clock = new ProfileClock.Fixed(Offset.FromHours(-5)) };
        MeterQuestionsException e = Assert.Throws<MeterQuestionsException>(() => MeterFile.Read(Path("layout-18.csv"), clock));
        Assert.Contains(e.Questions, q => q.Option == "--year");
        ExpectedSeries.AssertSame(Path("layout-18.expected.csv"), MeterFile.Read(Path("layout-18.csv"), clock with { Year = 2025 }));
    }

    [Theory]
    [InlineData("bad-01-header-only.csv", "no rows of data")]
    [InlineData("bad-02-empty.csv", "the file is empty")]
    [InlineData("bad-03-html-login-page.csv", "is a web page")]
    [InlineData("bad-04-zip-renamed.csv", "save the sheet as CSV")]
    [InlineData("bad-09-overlap-conflicting-values.csv", "stands twice with different numbers")]
    [InlineData("bad-14-nul-bytes.csv", "line 5: the file has NUL bytes here")]
    public void Read_WrongFile_SaysWhatIsWrong(string name, string rule)
    {
        ProblemsException e = Assert.Throws<ProblemsException>(() => MeterFile.Read(Path(name), Options("America/Denver")));
        Assert.Contains(rule, e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("bad-07-resolution-change.csv", "America/Denver", "--step")]
    [InlineData("bad-08-day-month-ambiguous.csv", "Europe/London", "--day-first")]
    [InlineData("bad-08-day-month-ambiguous.csv", "America/Denver", "--day-first")]
    [InlineData("bad-12-two-meters-mixed.csv", "America/Denver", "--meter")]
    [InlineData("bad-16-meter-stuck-zero.csv", "", "--zone")]
    public void Read_FileWithTwoReadings_Asks(string name, string zone, string option)
    {
        MeterQuestionsException e = Assert.Throws<MeterQuestionsException>(() => MeterFile.Read(Path(name), Options(zone)));
        Assert.Contains(e.Questions, q => q.Option == option);
    }

    [Fact]
    public void Read_GzipRenamed_IsUnpacked() => Assert.Equal(48, MeterFile.Read(Path("bad-05-gzip-renamed.csv"), Options("America/Denver")).Spans.Count);

    [Theory]
    [InlineData(60, 48)]
    [InlineData(15, 192)]
    public void Read_ResolutionChangeWithAStep_KeepsTheEnergy(int step, int count)
    {
        MeterData data = MeterFile.Read(Path("bad-07-resolution-change.csv"), Options("America/Denver") with { StepMinutes = step });
        Assert.Equal(count, data.Spans.Count);
        Assert.Equal(11.56 + 11.36, data.ImportKwh, 6);
    }

    [Fact]
    public void Read_DayFirstSaid_IsTheThirdOfApril()
    {
        MeterData data = MeterFile.Read(Path("bad-08-day-month-ambiguous.csv"), Options("Europe/London") with { DayFirst = true });
        Assert.Equal(72, data.Spans.Count);
        Assert.Equal(Instant.FromUtc(2025, 4, 2, 23, 0), data.Spans[0].Start);
        Assert.Equal(0, data.MissingCount);
    }

    [Theory]
    [InlineData(DuplicateRule.First)]
    [InlineData(DuplicateRule.Last)]
    [InlineData(DuplicateRule.Larger)]
    [InlineData(DuplicateRule.Sum)]
    public void Read_ConflictingRowsWithARule_FollowsIt(DuplicateRule rule)
    {
        MeterData data = MeterFile.Read(Path("bad-09-overlap-conflicting-values.csv"), Options("America/Denver") with { Duplicates = rule });
        Assert.Equal(48, data.Spans.Count);
        string[] lines = [.. File.ReadAllLines(Path("bad-09-overlap-conflicting-values.csv")).Skip(1)];
        double[] values = [.. lines.Select(l => double.Parse(l.Split(',')[2], System.Globalization.CultureInfo.InvariantCulture))];
        double wanted = values.Take(24).Sum() + rule switch
        {
            DuplicateRule.First => values.Skip(24).Take(24).Sum(),
            DuplicateRule.Sum => values.Skip(24).Sum(),
            _ => values.Skip(48).Sum(),
        };
        Assert.Equal(wanted, data.ImportKwh, 6);
        Assert.Contains(data.Notes, n => n.Contains("as asked", StringComparison.Ordinal));
    }

    [Fact]
    public void Read_TotalRowsInTheMiddle_AreLeftOut()
    {
        MeterData data = MeterFile.Read(Path("bad-11-total-row-in-middle.csv"), Options("America/Denver"));
        Assert.Equal(48, data.Spans.Count);
        Assert.Equal(0, data.MissingCount);
        Assert.Contains("2 rows of totals were left out.", data.Notes);
    }

    [Theory]
    [InlineData("A", 0.3)]
    [InlineData("B", 0.4)]
    [InlineData("sum", 0.7)]
    public void Read_TwoMeters_TakesTheOneOrTheSum(string meter, double first)
    {
        MeterData data = MeterFile.Read(Path("bad-12-two-meters-mixed.csv"), Options("America/Denver") with { Meter = meter });
        Assert.Equal(24, data.Spans.Count);
        Assert.Equal(first, data.Spans[0].ImportKwh!.Value, 9);
    }

    [Theory]
    [InlineData("bad-16-meter-stuck-zero.csv", "Stuck: import is 0 kWh in every interval for 72 hours")]
    [InlineData("bad-17-spike.csv", "Spike: import of 65535 kWh")]
    public void Read_DoubtfulFile_Warns(string name, string warning) =>
        Assert.Contains(MeterFile.Read(Path(name), Options("America/Denver")).Warnings, w => w.StartsWith(warning, StringComparison.Ordinal));

    [Fact]
    public void Read_GoodFile_HasNoWarnings() => Assert.Equal(s_none, MeterFile.Read(Path("layout-02.csv"), Options("America/New_York")).Warnings);
}
