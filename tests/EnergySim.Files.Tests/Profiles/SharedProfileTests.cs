using System.Diagnostics;
using EnergySim.TestData;
using NodaTime;

namespace EnergySim.Files.Tests.Profiles;

/// <summary>Open data of full years. The sums are those that shared/data/load/PROVENANCE.md states, worked out there from the raw columns.</summary>
public class SharedProfileTests
{
    private static readonly DateTimeZone s_sydney = DateTimeZoneProviders.Tzdb["Australia/Sydney"];
    private static readonly DateTimeZone s_newYork = DateTimeZoneProviders.Tzdb["America/New_York"];

    private static ProfileColumn Sydney(string column) => new()
    {
        Column = column,
        Unit = ProfileUnit.KW,
        StampColumns = [""],
        Stamp = StampMark.Start,
        Clock = new ProfileClock.Local(),
        ClockChange = ClockChange.SplitAndDrop,
    };

    [Theory]
    [InlineData("GC", 5938.369, "1.092", "1.128")]
    [InlineData("GG", 1296.404, "0", "0")]
    public void Read_YearOf48SlotsADay_SplitsAndDropsAndKeepsTheEnergy(string column, double kwh, string first, string second)
    {
        string path = SharedData.DataPath("load", "au-home-a-halfhour-load-pv.csv");
        ProfileReading reading = ProfileFile.Read(path, Sydney(column), s_sydney);
        Assert.Equal(kwh, reading.EnergyKwh, 3);
        Assert.Equal(17568, reading.Rows);
        Assert.Equal(17568, reading.Profile.Axis.Count);
        Assert.Equal(30, reading.Profile.Axis.StepMinutes);
        Assert.Equal(Instant.FromUtc(2011, 6, 30, 14, 0), reading.Profile.Axis.Start);
        Assert.Equal(Instant.FromUtc(2012, 6, 30, 14, 0), reading.Profile.Axis.End);
        Assert.Equal(
            [
                "2011-10-02 02:00 does not exist on the clock of Australia/Sydney: the slot, 0, was dropped.",
                "2011-10-02 02:30 does not exist on the clock of Australia/Sydney: the slot, 0, was dropped.",
                $"2012-04-01 02:00 comes twice on the clock of Australia/Sydney: the slot's {first} kW were split evenly over both passes.",
                $"2012-04-01 02:30 comes twice on the clock of Australia/Sydney: the slot's {second} kW were split evenly over both passes.",
            ],
            reading.Repairs);
    }

    [Fact]
    public void Read_YearOf48SlotsADayOnTheLocalClock_SaysWhatIsWrong()
    {
        string path = SharedData.DataPath("load", "au-home-a-halfhour-load-pv.csv");
        ProblemsException e = Assert.Throws<ProblemsException>(() =>
            ProfileFile.Read(path, Sydney("GC") with { ClockChange = ClockChange.AsOnTheClock }, s_sydney));
        Assert.Equal(
            [
                "\"2011-10-02 02:00\" does not exist on the clock of Australia/Sydney, which skips that hour; a file that keeps 24 hours on every day needs clockChange: split-and-drop.",
                "\"2011-10-02 02:30\" does not exist on the clock of Australia/Sydney, which skips that hour; a file that keeps 24 hours on every day needs clockChange: split-and-drop.",
                "\"2012-04-01 03:00\" comes too early: the clock of Australia/Sydney repeats 2012-04-01 02:00 and the second pass is missing; a file that keeps 24 hours on every day needs clockChange: split-and-drop.",
            ],
            e.Problems.Select(p => p.ToString().Split(", stamp: ")[1]));
    }

    [Fact]
    public void Read_TypicalYearInStandardTime_LaysItOnTheStatedYear()
    {
        string path = SharedData.DataPath("load", "us-boston-tmy3-base.csv");
        ProfileReading reading = ProfileFile.Read(path, Boston(2025), s_newYork);
        Assert.Equal(9010.62, reading.EnergyKwh, 2);
        Assert.True(reading.Profile.Axis.IsSameAs(EnergySim.Time.TimeAxis.OfYear(s_newYork, 2025, 60)));
        Assert.Equal(0.938925290302, reading.Profile.Kw[0]);
        Assert.Empty(reading.Repairs);
    }

    [Fact]
    public void Read_TypicalYearOnALeapYear_MissesTheLeapDay()
    {
        string path = SharedData.DataPath("load", "us-boston-tmy3-base.csv");
        ProblemsException e = Assert.Throws<ProblemsException>(() => ProfileFile.Read(path, Boston(2024), s_newYork));
        Assert.EndsWith("Date/Time: \"2024-03-01 01:00\" comes after a gap; 24 rows of 60 minutes from 2024-02-29 01:00 on are missing.", e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(2016, 8784, 10393.72)]
    [InlineData(2017, 8760, 8986.47)]
    public void Read_StampsWithOffsetAndAYear_TakesThatYear(int year, int hours, double kwh)
    {
        string path = SharedData.DataPath("load", "us-il-simulated-hourly.csv");
        string[] header = File.ReadLines(path).First().Split(',');
        var column = new ProfileColumn
        {
            Column = header[^1],
            Unit = ProfileUnit.KWh,
            StampColumns = ["start"],
            Stamp = StampMark.Start,
            Clock = new ProfileClock.InStamp(),
            Year = year,
        };
        ProfileReading reading = ProfileFile.Read(path, column, DateTimeZoneProviders.Tzdb["America/Chicago"]);
        Assert.Equal(hours, reading.Profile.Axis.Count);
        Assert.Equal(kwh, reading.EnergyKwh, 2);
        Assert.Equal($"{19417 - hours:N0} intervals outside {year} were left out.", Assert.Single(reading.Repairs));
    }

    [Fact]
    public void Read_DuplicatedAndMissingRows_TellsEachOfThem()
    {
        string path = SharedData.DataPath("load", "uk-halfhour-sample.csv");
        string[] header = File.ReadLines(path).First().Split(',');
        var column = new ProfileColumn
        {
            Column = header[^1],
            Unit = ProfileUnit.KWh,
            Stamp = StampMark.End,
            Clock = new ProfileClock.Fixed(Offset.Zero),
        };
        ProblemsException e = Assert.Throws<ProblemsException>(() => ProfileFile.Read(path, column, DateTimeZoneProviders.Tzdb["Europe/London"]));
        Assert.Equal(20, e.Problems.Count + e.More);
        Assert.Equal(15, e.Problems.Count(p => p.Rule == "stands twice; each interval has one row"));
        Assert.Equal(5, e.Problems.Count(p => p.Rule.StartsWith("comes after a gap", StringComparison.Ordinal)));
    }

    [Fact]
    public void Read_YearOfQuarterHours_IsQuick()
    {
        using var folder = new TempFolder();
        var text = new System.Text.StringBuilder("start,load_kw,solar_dc_kw\n");
        Instant start = Instant.FromUtc(2025, 1, 1, 5, 0);
        for (int i = 0; i < 35040; i++) text.Append(System.Globalization.CultureInfo.InvariantCulture, $"{start + Duration.FromMinutes(15 * i):uuuu-MM-ddTHH:mm:ss'Z'},{i % 96 / 100.0},0\n");
        string path = folder.Write("home.csv", text.ToString());
        ProfileFile.Read(path, ProfileColumn.Ours("load_kw"), s_newYork);
        var clock = Stopwatch.StartNew();
        ProfileReading reading = ProfileFile.Read(path, ProfileColumn.Ours("load_kw"), s_newYork);
        // A generous bound for a loaded machine; it takes some 20 ms.
        Assert.True(clock.ElapsedMilliseconds < 1500, $"{clock.ElapsedMilliseconds} ms");
        TestContext.Current.SendDiagnosticMessage("read in {0} ms", clock.ElapsedMilliseconds);
        Assert.Equal(35040, reading.Profile.Axis.Count);
    }

    private static ProfileColumn Boston(int year) => new()
    {
        Column = "Electricity:Facility [kW](Hourly)",
        Unit = ProfileUnit.KW,
        StampColumns = ["Date/Time"],
        Stamp = StampMark.End,
        Clock = new ProfileClock.Standard(),
        Pattern = "MM/DD HH:00:00",
        Year = year,
    };
}
