using EnergySim.TestData;
using NodaTime;

namespace EnergySim.Files.Tests.Meter;

/// <summary>Sample files of NAESB REQ.21 ESPI. Counts and sums are those that shared/data/espi/PROVENANCE.md states; answers lie beside the synthetic files.</summary>
public class EspiTests
{
    private static string Path(string name) => SharedData.DataPath(["espi", .. name.Split('/')]);

    [Theory]
    [InlineData("sample-15min-14days-dst-spring.xml", 1340, 15, 1391.666, "2012-03-01T05:00:00Z", "2012-03-15T04:00:00Z", 1)]
    [InlineData("sample-15min-1day.xml", 96, 15, 93.846, "2012-03-01T05:00:00Z", "2012-03-02T05:00:00Z", 1)]
    [InlineData("sample-hourly-9days.xml", 216, 60, 199.563, "2014-01-01T05:00:00Z", "2014-01-10T05:00:00Z", 0)]
    [InlineData("sample-daily-444days-dst-durations.xml", 444, null, 9917.817, "2013-01-01T05:00:00Z", "2014-03-21T04:00:00Z", 0)]
    [InlineData("sample-hourly-month-dst-spring.xml", 743, 60, 2278.213, "2011-03-01T05:00:00Z", "2011-04-01T04:00:00Z", 0)]
    [InlineData("sample-hourly-month-dst-fall.xml", 721, 60, 2213.810, "2011-11-01T04:00:00Z", "2011-12-01T05:00:00Z", 0)]
    [InlineData("sample-hourly-32days-nocost.xml", 768, 60, 2355.432, "2012-04-01T04:00:00Z", "2012-05-03T04:00:00Z", 0)]
    [InlineData("sample-monthly-powerOfTen3.xml", 14, null, 9567, "2011-08-26T04:00:00Z", null, 0)]
    public void Read_PublicSample_HasTheStatedReadings(string name, int count, int? step, double kwh, string first, string? end, int estimated)
    {
        MeterData data = MeterFile.Read(Path(name));
        Assert.Equal(count, data.Spans.Count);
        Assert.Equal(step, data.StepMinutes);
        Assert.Equal(kwh, data.ImportKwh, 6);
        Assert.Equal(first, data.Spans[0].Start.ToString());
        if (end is not null) Assert.Equal(end, data.Spans[^1].End.ToString());
        Assert.Equal(estimated, data.EstimatedCount);
        Assert.Equal(0, data.MissingCount);
        Assert.False(data.HasExport);
        Assert.Equal("America/New_York", data.Zone.Id);
    }

    [Theory]
    [InlineData("net-single-signed", null)]
    [InlineData("two-usagepoints-electric-and-gas", null)]
    [InlineData("gap-estimated-duplicate-out-of-order", null)]
    [InlineData("average-power-watts-15min", null)]
    [InlineData("three-usagepoints-no-intervallength-no-localtime", "1")]
    public void Read_SyntheticFile_GivesTheAnswersBesideIt(string name, string? meter)
    {
        MeterData data = MeterFile.Read(Path($"synthetic/{name}.xml"), new MeterOptions { Meter = meter });
        ExpectedSeries.AssertSame(Path($"synthetic/{name}.xml.expected.csv"), data);
    }

    [Fact]
    public void Read_SeveralMeters_Asks()
    {
        string path = Path("synthetic/three-usagepoints-no-intervallength-no-localtime.xml");
        MeterQuestionsException e = Assert.Throws<MeterQuestionsException>(() => MeterFile.Read(path));
        MeterQuestion question = Assert.Single(e.Questions);
        Assert.Equal("--meter", question.Option);
        Assert.Equal(["1", "2", "3", "sum"], question.Choices);
        Assert.Contains("1 \"Electric meter\": delivered to the home, received from the home; 2", question.Text, StringComparison.Ordinal);
        // 6.370 + 48.000 bought, 7.798 + 7.798 sold: the four series of the file.
        MeterData sum = MeterFile.Read(path, new MeterOptions { Meter = "sum" });
        Assert.Equal(54.370, sum.ImportKwh, 6);
        Assert.Equal(15.596, sum.ExportKwh, 6);
    }

    [Fact]
    public void Read_GasBesideElectricity_IsLeftOutWithAWord() =>
        Assert.Contains(MeterFile.Read(Path("synthetic/two-usagepoints-electric-and-gas.xml")).Notes, n => n.Contains("gas: left out", StringComparison.Ordinal));

    [Fact]
    public void Read_GapDuplicateAndDisorder_AreSaid()
    {
        MeterData data = MeterFile.Read(Path("synthetic/gap-estimated-duplicate-out-of-order.xml"));
        Assert.Contains(data.Notes, n => n.Contains("stand twice with the same number", StringComparison.Ordinal));
        Assert.Contains(data.Notes, n => n.StartsWith("Missing: ", StringComparison.Ordinal) && n.Contains("(3 intervals)", StringComparison.Ordinal));
        Assert.Throws<ProblemsException>(() => data.Import());
    }

    [Theory]
    [InlineData("sample-gas-not-electricity.xml", "gas: left out, only electricity is read")]
    [InlineData("sample-water-not-electricity.xml", "water: left out, only electricity is read")]
    [InlineData("synthetic/broken-truncated.xml", "cut off or damaged")]
    [InlineData("synthetic/broken-no-readingtype.xml", "their unit is unknown")]
    [InlineData("synthetic/broken-not-espi.xml", "holds nothing of the energy-usage standard")]
    [InlineData("synthetic/broken-empty-feed.xml", "holds nothing of the energy-usage standard")]
    [InlineData("synthetic/broken-html.xml", "is a web page")]
    [InlineData("synthetic/broken-negative-duration.xml", "is no length of time")]
    [InlineData("synthetic/broken-huge-value.xml", "\"9999999999999999999932\" is larger than any meter counts (64 bits)")]
    [InlineData("synthetic/broken-cumulative-register.xml", "a register that only counts up")]
    [InlineData("synthetic/broken-entity-expansion.xml", "declares a document type (DOCTYPE)")]
    public void Read_WrongFile_SaysWhatIsWrong(string name, string rule)
    {
        ProblemsException e = Assert.Throws<ProblemsException>(() => MeterFile.Read(Path(name)));
        Assert.Contains(rule, e.Message, StringComparison.Ordinal);
    }

    // NAESB REQ.21 schema, DstRuleType: 380A1A8C is its own example, the third Friday of March at 01:45; 360E2000 and B40E2000 are the North American rules.
    [Theory]
    [InlineData(0x360E2000u, 2015, "2015-03-08T02:00:00")]
    [InlineData(0xB40E2000u, 2015, "2015-11-01T02:00:00")]
    [InlineData(0x380A1A8Cu, 2025, "2025-03-21T01:45:00")]
    public void TimeOf_Rule_IsTheLocalTimeThatItNames(uint rule, int year, string time) =>
        Assert.Equal(time, EspiLocalTime.TimeOf(rule, year)!.Value.ToString("uuuu-MM-dd'T'HH:mm:ss", System.Globalization.CultureInfo.InvariantCulture));

    // Sample readings worked out in shared/reference/REFERENCE.md, section 9: value × 10^multiplier Wh.
    [Theory]
    [InlineData(72, 0, 1245, 3600, 1.245)]
    [InlineData(72, 3, 12, 900, 12)]
    [InlineData(38, 0, 1000, 900, 0.25)]
    public void KwhPerUnit_OfTheUnits_IsEnergy(int uom, int multiplier, int value, int seconds, double kwh) =>
        Assert.Equal(kwh, value * new EspiReadingType { Uom = uom, PowerOfTenMultiplier = multiplier }.KwhPerUnit(seconds), 12);

    [Theory]
    [InlineData(-18000, "America/New_York")]
    [InlineData(-28800, "America/Los_Angeles")]
    [InlineData(-25200, "America/Denver")]
    public void ZoneIn_NorthAmericanRules_IsTheZoneOfTheOffset(int tz, string zone) =>
        Assert.Equal(zone, new EspiLocalTime(tz, 3600, 0x360E2000, 0xB40E2000).ZoneIn(2025)!.Id);

    [Fact]
    public void Read_StampsOfMilliseconds_AreRefused()
    {
        using var folder = new TempFolder();
        string text = Feed("<duration>3600</duration><start>1746072000000</start>", "100");
        string message = folder.ProblemsOf(() => MeterFile.Read(folder.Write("ms.xml", text)));
        Assert.Contains("milliseconds?", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ValueThatIsNoNumber_NamesItsLine()
    {
        using var folder = new TempFolder();
        string message = folder.ProblemsOf(() => MeterFile.Read(folder.Write("n.xml", Feed("<duration>3600</duration><start>1746072000</start>", "12a"))));
        Assert.Contains("n.xml line 6, value: \"12a\" is not a whole number.", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ExternalEntity_IsNotOpened()
    {
        using var folder = new TempFolder();
        string secret = folder.Write("secret.txt", "4711");
        string text = Feed("<duration>3600</duration><start>1746072000</start>", "&x;").Replace(
            "<feed", $"<!DOCTYPE feed [<!ENTITY x SYSTEM \"file://{secret}\">]>\n<feed", StringComparison.Ordinal);
        string message = folder.ProblemsOf(() => MeterFile.Read(folder.Write("x.xml", text)));
        Assert.Contains("declares a document type", message, StringComparison.Ordinal);
        Assert.DoesNotContain("4711", message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("utf-16")]
    [InlineData("utf-8")]
    [InlineData("iso-8859-1")]
    [InlineData("windows-1252")]
    public void Read_PrefixedNamespaceInAnyEncoding_IsTheSame(string encoding)
    {
        using var folder = new TempFolder();
        string text = Feed("<duration>3600</duration><start>1746072000</start>", "1245").Replace("<?xml version=\"1.0\"?>", $"<?xml version=\"1.0\" encoding=\"{encoding}\"?>", StringComparison.Ordinal)
            .Replace("T", "Zähler T", StringComparison.Ordinal);
        string path = System.IO.Path.Combine(folder.Path, "p.xml");
        text = Prefixed(text);
        File.WriteAllText(path, text, encoding == "windows-1252" ? System.Text.CodePagesEncodingProvider.Instance.GetEncoding(1252)! : System.Text.Encoding.GetEncoding(encoding));
        MeterData data = MeterFile.Read(path);
        Assert.Equal(1.245, data.ImportKwh, 9);
        Assert.Equal(Instant.FromUnixTimeSeconds(1746072000), data.Spans[0].Start);
    }

    private static string Prefixed(string text)
    {
        text = text.Replace("Zähler T", "T", StringComparison.Ordinal).Replace("<title>T", "<title>Zähler", StringComparison.Ordinal);
        foreach (string name in new[] { "ReadingType", "IntervalBlock", "IntervalReading", "MeterReading", "timePeriod", "duration", "start", "value", "uom" })
            text = text.Replace($"<{name}>", $"<e:{name}>", StringComparison.Ordinal).Replace($"</{name}>", $"</e:{name}>", StringComparison.Ordinal)
                .Replace($"<{name}/>", $"<e:{name}/>", StringComparison.Ordinal);
        return text.Replace("<feed xmlns=\"http://www.w3.org/2005/Atom\"", "<feed xmlns=\"http://www.w3.org/2005/Atom\" xmlns:e=\"http://naesb.org/espi\"", StringComparison.Ordinal);
    }

    private static string Feed(string period, string value) =>
        "<?xml version=\"1.0\"?>\n<feed xmlns=\"http://www.w3.org/2005/Atom\"><title>T</title>\n"
        + "<entry><link rel=\"self\" href=\"U/1/MeterReading/1\"/><link rel=\"related\" href=\"ReadingType/1\"/><content><MeterReading/></content></entry>\n"
        + "<entry><link rel=\"self\" href=\"ReadingType/1\"/><content><ReadingType><uom>72</uom></ReadingType></content></entry>\n"
        + "<entry><link rel=\"up\" href=\"U/1/MeterReading/1/IntervalBlock\"/><content><IntervalBlock>\n"
        + $"<IntervalReading><timePeriod>{period}</timePeriod><value>{value}</value></IntervalReading></IntervalBlock></content></entry></feed>";
}
