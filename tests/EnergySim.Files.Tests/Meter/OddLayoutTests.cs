using NodaTime;

namespace EnergySim.Files.Tests.Meter;

/// <summary>Ways of writing that exports are known for (common practice), each in a few rows. Files are made up.</summary>
public sealed class OddLayoutTests : IDisposable
{
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private static readonly MeterOptions s_chicago = new() { Zone = DateTimeZoneProviders.Tzdb["America/Chicago"] };

    private MeterData Read(string text, MeterOptions? options = null) => MeterFile.Read(_folder.Write("x.csv", text), options ?? s_chicago);

    private MeterQuestionsException Asked(string text, MeterOptions? options = null) => Assert.Throws<MeterQuestionsException>(() => Read(text, options));

    [Theory]
    [InlineData("a date once a day", "Date,Start,Energy kWh\n2025-06-01,00:00,1\n,01:00,2\n,02:00,3\n", 3, 6)]
    [InlineData("ranges of moments", "Interval,kWh\n2025-06-01 00:00 - 2025-06-01 01:00,1\n2025-06-01 01:00 - 2025-06-01 02:00,2\n", 2, 3)]
    [InlineData("ranges of times", "Date,Time,kWh\nJun 01 2025,12:00 AM - 01:00 AM,1\nJun 01 2025,01:00 AM - 02:00 AM,2\n", 2, 3)]
    [InlineData("ranges without blanks", "Date,Time,kWh\nJun 01 2025,00:00-01:00,1\nJun 01 2025,01:00-02:00,2\n", 2, 3)]
    [InlineData("units behind numbers", "Start,Usage\n1 Jun 2025 00:00,1.5 kWh\n1 Jun 2025 01:00,2.5 kWh\n", 2, 4)]
    [InlineData("points in times", "Start;kWh\n2025-06-01 00.00;1,5\n2025-06-01 01.00;2,5\n", 2, 4)]
    [InlineData("no signs in dates and times", "READ_DATE,START_TIME,KWH\n20250601,0000,1\n20250601,0100,2\n20250601,0200,3\n", 3, 6)]
    [InlineData("letters of zones", "Start,Usage (kWh)\n2025-06-01 12:00 AM CDT,1\n2025-06-01 01:00 AM CDT,2\n", 2, 3)]
    [InlineData("two lines of header", "Date,Start,Import,Export\ndd-mm-yyyy,hh:mm,kWh,kWh\n01.06.2025,00:00,1,0\n01.06.2025,01:00,2,0\n", 2, 3)]
    [InlineData("demand and money beside energy", "Start,Usage (kWh),Demand (kW),Temp (F),Cost ($)\n2025-06-01 00:00,1,9,70,0.1\n2025-06-01 01:00,2,9,70,0.2\n", 2, 3)]
    [InlineData("a register beside energy", "Start,Usage (kWh),Meter reading (kWh)\n2025-06-01 00:00,1,1001\n2025-06-01 01:00,2,1003\n", 2, 3)]
    [InlineData("MWh", "Start,Energy (MWh)\n2025-06-01 00:00,0.001\n2025-06-01 01:00,0.002\n", 2, 3)]
    [InlineData("the header once more", "Start,kWh\n2025-06-01 00:00,1\n2025-06-01 01:00,2\n2025-06-01 02:00,1\n2025-06-01 03:00,1\nStart,kWh\n2025-06-01 04:00,1\n", 5, 6)]
    public void Read_OddWriting_IsUnderstood(string what, string text, int count, double kwh)
    {
        MeterData data = Read(text);
        Assert.True(count == data.Spans.Count, what);
        Assert.Equal(60, data.StepMinutes);
        Assert.Equal(Instant.FromUtc(2025, 6, 1, 5, 0), data.Spans[0].Start);
        Assert.Equal(kwh, data.ImportKwh, 9);
        Assert.Equal(0, data.MissingCount);
    }

    [Fact]
    public void Read_RegisterInGermanNumbers_IsTheDifference()
    {
        MeterData data = Read("Zeit;Zählerstand (kWh)\n01.06.2025 00:00;1.000,500\n01.06.2025 00:15;1.000,750\n01.06.2025 00:30;1.001,250\n");
        Assert.Equal([0.25, 0.5], data.Spans.Select(s => Math.Round(s.ImportKwh!.Value, 9)));
        Assert.Equal(15, data.StepMinutes);
    }

    [Fact]
    public void Read_SpreadsheetDays_AreDates()
    {
        // 45809 is 2025-06-01 (days since 1899-12-30).
        MeterData data = Read("Start,kWh\n45809.000000,1\n45809.041667,2\n45809.083333,3\n");
        Assert.Equal(Instant.FromUtc(2025, 6, 1, 5, 0), data.Spans[0].Start);
        Assert.Equal(6, data.ImportKwh);
    }

    [Fact]
    public void Read_ARowADay_LastsFromMidnightToMidnight()
    {
        MeterData data = Read("Date,kWh\n2025-11-01,10\n2025-11-02,11\n2025-11-03,12\n");
        Assert.Null(data.StepMinutes);
        Assert.Equal([24 * 3600, 25 * 3600, 24 * 3600], data.Spans.Select(s => s.Seconds));
        Assert.Equal(33, data.ImportKwh);
    }

    [Theory]
    [InlineData("--stamp", "When,kWh\n2025-06-01 05:00,1\n2025-06-01 06:00,2\n")]
    [InlineData("--unit", "Start,Value\n2025-06-01 00:00,1\n2025-06-01 01:00,2\n")]
    [InlineData("--role", "Start,Consumption (kWh),Generation (kWh)\n2025-06-01 00:00,1,0\n2025-06-01 01:00,2,1\n")]
    [InlineData("--decimal", "Start,Usage (Wh)\n2025-06-01 00:00,\"1,248\"\n2025-06-01 01:00,\"1,300\"\n")]
    [InlineData("--day-first", "Start,kWh\n06/01/2025 00:00,1\n06/01/2025 01:00,2\n")]
    public void Read_TwoReadings_Asks(string option, string text) => Assert.Contains(Asked(text).Questions, q => q.Option == option);

    [Fact]
    public void Read_HourThatStandsOnceInTheAutumn_AsksAndFollows()
    {
        var text = new System.Text.StringBuilder("Start,kWh\n");
        for (int h = 0; h < 72; h++) text.Append(System.Globalization.CultureInfo.InvariantCulture, $"{new LocalDateTime(2025, 11, 1, 0, 0).PlusHours(h):uuuu-MM-dd HH:mm},{(h == 25 ? 3 : 1)}\n");
        MeterQuestion question = Assert.Single(Asked(text.ToString()).Questions);
        Assert.Equal(["--clock-change split", "--clock standard", "--clock local"], question.Choices);
        MeterData split = Read(text.ToString(), s_chicago with { ClockChange = ClockChange.SplitAndDrop });
        Assert.Equal(73, split.Spans.Count);
        Assert.Equal([1.5, 1.5], split.Spans.Where(s => s.Mark == SpanMark.Split).Select(s => s.ImportKwh!.Value));
        Assert.Equal(1, Read(text.ToString(), s_chicago with { Clock = new ProfileClock.Local() }).MissingCount);
        MeterData standard = Read(text.ToString(), s_chicago with { Clock = new ProfileClock.Standard() });
        Assert.Equal((72, Instant.FromUtc(2025, 11, 1, 6, 0)), (standard.Spans.Count, standard.Spans[0].Start));
    }
}
