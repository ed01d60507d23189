using System.Globalization;
using EnergySim.TestData;
using NodaTime;

namespace EnergySim.Files.Tests.Meter;

/// <summary>Open household data; sums and oddities are those that shared/data/load/PROVENANCE.md states.</summary>
public class HouseholdTests
{
    private static string Path(string name) => SharedData.DataPath("load", name);

    private static DateTimeZone Zone(string id) => DateTimeZoneProviders.Tzdb[id];

    [Fact]
    public void Read_OntarioHome_FindsMidnightUnderTheDayThatEnds()
    {
        MeterData data = MeterFile.Read(Path("ca-ontario-hourly-tou.csv"), new MeterOptions { Zone = Zone("America/Toronto") });
        Assert.Equal(2712, data.Spans.Count);
        Assert.Equal(0, data.MissingCount);
        Assert.Equal(60, data.StepMinutes);
        Assert.Equal(1209.42, data.ImportKwh, 6);
        Assert.Equal(Instant.FromUtc(2011, 11, 25, 5, 0), data.Spans[0].Start);
        Assert.Equal(Instant.FromUtc(2012, 3, 17, 5, 0), data.Spans[^1].End);
        Assert.Contains(data.Findings, f => f.Subject == "stamps" && f.Answer == "end of the interval" && f.Ground.Contains("midnight", StringComparison.Ordinal));
        Assert.Contains(data.Findings, f => f.Subject == "clock" && f.Answer == "local America/Toronto" && f.Confidence > 0.95);
    }

    [Fact]
    public void Read_IllinoisHome_OnceItsUnitIsSaid()
    {
        string path = Path("us-il-simulated-hourly.csv");
        MeterQuestionsException asked = Assert.Throws<MeterQuestionsException>(() => MeterFile.Read(path));
        Assert.Equal("--unit", Assert.Single(asked.Questions).Option);
        MeterData data = MeterFile.Read(path, new MeterOptions { Unit = MeterUnit.KWh, Zone = Zone("America/Chicago") });
        Assert.Equal(19417, data.Spans.Count);
        Assert.Equal(0, data.MissingCount);
        Assert.Equal(21927.13, data.ImportKwh, 6);
        double Year(int year) => data.Spans.Where(s => s.Start.InZone(data.Zone).Year == year).Sum(s => s.ImportKwh!.Value);
        Assert.Equal(10393.72, Year(2016), 6);
        Assert.Equal(8986.47, Year(2017), 6);
    }

    [Fact]
    public void Read_BritishHome_FindsItsClockItsDuplicatesAndItsGaps()
    {
        string path = Path("uk-halfhour-sample.csv");
        MeterData data = MeterFile.Read(path, new MeterOptions { Unit = MeterUnit.KWh, Zone = Zone("Europe/London") });
        // The oracle: every stamp once.
        Dictionary<string, double> once = [];
        foreach (string line in File.ReadLines(path).Skip(1))
            if (line.Split(',') is [var stamp, var value]) once[stamp] = double.Parse(value, CultureInfo.InvariantCulture);
        Assert.Equal(22521, once.Count);
        Assert.Equal(once.Values.Sum(), data.ImportKwh, 6);
        Assert.Contains("15 import readings that stand twice with the same number were counted once.", data.Notes);
        // 1 + 1 + 48 + 1 + 1 half-hours, from the gaps that are stated.
        Assert.Equal(52, data.MissingCount);
        Assert.Equal(5, MeterGap.Of(data).Count);
        Assert.Contains(data.Findings, f => f.Subject == "clock" && f.Answer == "standard time of Europe/London all year");
        MeterData filled = GapFilling.Filled(data);
        Assert.Equal(0, filled.MissingCount);
        Assert.Equal(5, filled.Notes.Count(n => n.StartsWith("Filled: ", StringComparison.Ordinal)));
    }

    [Fact]
    public void Read_SydneyHome_AsksAndSplitsTheHourThatStandsTwice()
    {
        string path = Path("au-home-a-halfhour-load-pv.csv");
        var options = new MeterOptions { Zone = Zone("Australia/Sydney"), Unit = MeterUnit.KW };
        Assert.Contains(Assert.Throws<MeterQuestionsException>(() => MeterFile.Read(path, options)).Questions, q => q.Option == "--role");
        options = options with { Roles = new Dictionary<string, MeterRole> { ["GC"] = MeterRole.Import } };
        MeterQuestion question = Assert.Single(Assert.Throws<MeterQuestionsException>(() => MeterFile.Read(path, options)).Questions);
        Assert.Contains("--clock-change split", question.Choices);
        MeterData data = MeterFile.Read(path, options with { ClockChange = ClockChange.SplitAndDrop });
        Assert.Equal(17568, data.Spans.Count);
        Assert.Equal(0, data.MissingCount);
        Assert.Equal(5938.369, data.ImportKwh, 3);
        Assert.Contains("2012-04-01 02:00 comes twice on the clock of Australia/Sydney: the slot's 1.092 kW were split evenly over both passes.", data.Notes);
        MeterData solar = MeterFile.Read(path, options with { ClockChange = ClockChange.SplitAndDrop, Roles = new Dictionary<string, MeterRole> { ["GG"] = MeterRole.Import } });
        Assert.Equal(1296.404, solar.ImportKwh, 3);
    }

    [Fact]
    public void Read_BostonTypicalYear_TakesTheWholeHouse()
    {
        string path = Path("us-boston-tmy3-base.csv");
        var options = new MeterOptions { Zone = Zone("America/New_York"), Clock = new ProfileClock.Standard() };
        Assert.Contains(Assert.Throws<MeterQuestionsException>(() => MeterFile.Read(path, options)).Questions, q => q.Option == "--year");
        MeterData data = MeterFile.Read(path, options with { Year = 2025 });
        Assert.Equal(8760, data.Spans.Count);
        Assert.Equal(9010.62, data.ImportKwh, 2);
        Assert.Equal(2.6334, data.Spans.Max(s => s.ImportKwh)!.Value, 4);
        Assert.Contains(data.Findings, f => f.Subject == "channels" && f.Answer.Contains("Electricity:Facility", StringComparison.Ordinal));
    }
}
