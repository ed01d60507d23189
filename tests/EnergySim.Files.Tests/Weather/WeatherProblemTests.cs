using System.Globalization;
using EnergySim.Solar;
using NodaTime;

namespace EnergySim.Files.Tests.Weather;

/// <summary>One bad file a rule, with the whole message.</summary>
public sealed class WeatherProblemTests : IDisposable
{
    private static readonly WeatherColumns s_plain = new()
    {
        Place = new Place(40, -105, 1600),
        StandardOffset = Offset.FromHours(-7),
        Mark = WeatherMark.Start,
        Global = new WeatherColumn("ghi") { MissingCodes = [-9999] },
        DirectNormal = new WeatherColumn("dni"),
        Diffuse = new WeatherColumn("dhi"),
        Air = new WeatherColumn("air"),
    };

    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("LOCATION,Town,XX,Nowhere,made up,0,95,-105,-7,1600", "bad.csv line 1, latitude: \"95\" is above 90")]
    [InlineData("LOCATION,Town,XX,Nowhere,made up,0,40,-185,-7,1600", "bad.csv line 1, longitude: \"-185\" is below -180")]
    [InlineData("LOCATION,Town,XX,Nowhere,made up,0,40,-105,-70,1600", "bad.csv line 1, time zone: \"-70\" is below -12")]
    [InlineData("LOCATION,Town,XX,Nowhere,made up,0,40,-105", "bad.csv line 1, time zone: \"\" is not a number.\nbad.csv line 1, elevation: \"\" is not a number")]
    public void Read_EpwPlaceOutOfRange_SaysSo(string location, string message) =>
        Assert.Equal(message + ".", Problems(Epw(location: location)));

    [Theory]
    [InlineData("2017,1,1,25,0", "hour: \"25\" is not 1 to 24, the hour that ends then")]
    [InlineData("2017,1,1,0,0", "hour: \"0\" is not 1 to 24, the hour that ends then")]
    [InlineData("2017,1,1,2,30", "minute: \"30\" is not 0 or 60; only files of one row an hour can be read")]
    [InlineData("2017,2,29,2,0", "date: \"2017-2-29\" is no day of the calendar")]
    [InlineData("2017,1,x,2,0", "day: \"x\" is not a whole number")]
    [InlineData("2017,1,1,1,0", "date and hour: \"2017-01-01 01:00\" stands twice; each interval has one row")]
    [InlineData("2016,12,31,1,0", "date and hour: \"2016-12-31 01:00\" comes after 2017-01-01 01:00; rows go forward in time")]
    [InlineData("2017,1,1,4,0", "date and hour: \"2017-01-01 04:00\" comes after a gap; 2 rows are missing")]
    [InlineData("2017,1,1,3,0", "date and hour: \"2017-01-01 03:00\" comes after a gap; 1 row is missing; weather is in standard time, whose clock never skips an hour")]
    public void Read_EpwStamp_SaysSo(string stamp, string sentence) =>
        Assert.Equal($"bad.csv line 4, {sentence}.", Problems(Epw(Row("2017,1,1,1,0"), Row(stamp))));

    [Theory]
    [InlineData("2100", "global horizontal: \"2100\" is above 2000; W/m², mean of the interval")]
    [InlineData("-30", "global horizontal: \"-30\" is below -20; W/m², mean of the interval")]
    [InlineData("sun", "global horizontal: \"sun\" is not a number")]
    [InlineData("9999", "global horizontal: is missing; gaps are filled only up to the hours that the options allow (0)")]
    [InlineData("", "global horizontal: is missing; gaps are filled only up to the hours that the options allow (0)")]
    public void Read_EpwIrradiance_SaysSo(string global, string sentence) =>
        Assert.Equal($"bad.csv line 4, {sentence}.", Problems(Epw(Row("2017,1,1,1,0"), Row("2017,1,1,2,0", global: global), Row("2017,1,1,3,0"))));

    [Theory]
    [InlineData("72.5", "dry bulb: \"72.5\" is above 60; °C; a file in °F must say so")]
    [InlineData("99.9", "dry bulb: is missing; gaps are filled only up to the hours that the options allow (0)")]
    public void Read_EpwAir_SaysSo(string air, string sentence) =>
        Assert.Equal($"bad.csv line 4, {sentence}.", Problems(Epw(Row("2017,1,1,1,0"), Row("2017,1,1,2,0", air: air), Row("2017,1,1,3,0"))));

    [Fact]
    public void Read_EpwOfFourRowsAnHour_SaysSo() =>
        Assert.Equal("bad.csv line 2, DATA PERIODS: \"4\" rows an hour; only files of one row an hour can be read.", Problems(Epw(perHour: 4)));

    [Fact]
    public void Read_EpwWithoutDataPeriods_SaysSo() =>
        Assert.Equal("bad.csv: the header has no line DATA PERIODS.", Problems("LOCATION,Town,XX,Nowhere,made up,0,40,-105,-7,1600\n"));

    [Fact]
    public void Read_EpwRowCutShort_SaysSo() =>
        Assert.Equal("bad.csv line 3: the row has 6 fields; at least 22 are needed.", Problems(Epw("2017,1,1,1,0,?")));

    [Fact]
    public void Read_EmptyData_SaysSo() => Assert.Equal("bad.csv: the file has fewer than two rows of data.", Problems(Epw()));

    [Fact]
    public void Read_UnknownFormat_SaysSo() => Assert.Equal(
        "bad.csv line 1: the file neither begins with LOCATION nor names Latitude and Longitude; a plain CSV needs its columns declared.", Problems("time,ghi\n"));

    [Fact]
    public void Read_NoFile_SaysSo() =>
        Assert.Equal("none.epw: there is no such file.", _folder.ProblemsOf(() => WeatherFile.Read(Path.Combine(_folder.Path, "none.epw"))));

    [Theory]
    [InlineData("GHI Units", "kJ/m2", "bad.csv line 2, GHI Units: \"kJ/m2\" is not w/m2")]
    [InlineData("Temperature Units", "k", "bad.csv line 2, Temperature Units: \"k\" is not c or f")]
    [InlineData("Latitude", "-105", "bad.csv line 2, Latitude: \"-105\" is below -90")]
    [InlineData("Time Zone", "MST", "bad.csv line 2, Time Zone: \"MST\" is not a number")]
    public void Read_TwoHeaderFact_SaysSo(string name, string value, string message) => Assert.Equal(message + ".", Problems(TwoHeader(name, value)));

    [Fact]
    public void Read_TwoHeaderColumnMisnamed_NamesTheNearest() => Assert.Equal(
        "bad.csv line 3, header: \"GHI\" names no column; the nearest is DHI.", Problems(TwoHeader().Replace(",GHI,DHI", ",Global,DHI", StringComparison.Ordinal)));

    [Fact]
    public void Read_TwoHeaderInFahrenheit_TurnsItAndSaysSo()
    {
        WeatherReading reading = WeatherFile.Read(_folder.Write("f.csv", TwoHeader("Temperature Units", "f")));
        Assert.Equal([0.0, 10.0], reading.Weather.AirCelsius.Select(a => Math.Round(a, 9)));
        Assert.Equal(["Air temperature was turned from °F into °C."], reading.Repairs);
    }

    [Fact]
    public void Read_TwoHeaderHalfHours_StampIsTheMiddle()
    {
        string text = TwoHeader().Replace("2016,1,1,0,30", "2016,1,1,1,0", StringComparison.Ordinal);
        WeatherSeries weather = WeatherFile.Read(_folder.Write("half.csv", text)).Weather;
        Assert.Equal(Duration.FromMinutes(30), weather.Step);
        Assert.Equal(Instant.FromUtc(2016, 1, 1, 7, 45), weather.Start);
    }

    [Theory]
    [InlineData("ghx,dni,dhi,air", "bad.csv line 1, header: \"ghi\" names no column; the nearest is ghx.")]
    [InlineData("ghi,ghi,dni,dhi,air", "bad.csv line 1, header: \"ghi\" names more than one column.")]
    public void Read_PlainHeader_SaysSo(string headers, string message) => Assert.Equal(message, Problems($"time,{headers}\n", s_plain));

    [Theory]
    [InlineData("2017-01-01 01:00,1,1,1,5", "time: \"2017-01-01 01:00\" stands twice; each interval has one row")]
    [InlineData("2017-01-01 02:17,1,1,1,5", "time: \"2017-01-01 02:17\" is not a whole number of 60-minute intervals after the row before")]
    [InlineData("soon,1,1,1,5", "time: \"soon\" is not a stamp such as 2025-01-31 00:15 or 2025-01-31T00:15:00Z")]
    [InlineData("2017-01-01 02:00,-9999,1,1,5", "ghi: is missing; gaps are filled only up to the hours that the options allow (0)")]
    [InlineData("2017-01-01 02:00,1,-9999,1,5", "dni: \"-9999\" is below -20; W/m², the most that the sun gives outside the air")]
    public void Read_PlainRow_SaysSo(string row, string sentence) => Assert.Equal(
        $"bad.csv line 4, {sentence}.", Problems($"time,ghi,dni,dhi,air\n2017-01-01 00:00,0,0,0,5\n2017-01-01 01:00,0,0,0,5\n{row}\n", s_plain));

    [Fact]
    public void Read_PlainPlaceOrPattern_SaysSo()
    {
        Assert.Equal("bad.csv latitude: \"-105\" is below -90.", Problems("time\n", s_plain with { Place = new Place(-105, 40, 0) }));
        Assert.Equal("bad.csv pattern: \"MM/DD HH\" names no year (YYYY); weather stamps carry theirs.", Problems("time\n", s_plain with { Pattern = "MM/DD HH" }));
    }

    [Fact]
    public void Read_LeapDayLeftOut_IsRefusedOrRepeatedAndTold()
    {
        string[] rows = [.. Enumerable.Range(0, 48).Select(h => Row(string.Create(CultureInfo.InvariantCulture, $"2016,{(h < 24 ? "2,28" : "3,1")},{(h % 24) + 1},0"), global: $"{h}"))];
        string text = Epw(rows);
        Assert.Equal(
            "bad.csv line 27, date and hour: \"2016-03-01 01:00\" comes after a gap; 24 rows are missing; files of 8,760 rows leave 29 February out: if 28 February may stand for it, say so (leap day: repeat).",
            Problems(text));
        WeatherReading reading = WeatherFile.Read(_folder.Write("leap.epw", text), new WeatherOptions { RepeatsForLeapDay = true });
        Assert.Equal([.. Enumerable.Range(0, 24).Select(h => (double)h), .. Enumerable.Range(0, 48).Select(h => (double)h)], reading.Weather.GlobalWPerM2);
        Assert.Equal(["28 February 2016 stands for the 29th too, which the file leaves out."], reading.Repairs);
    }

    [Fact]
    public void Read_YearOf8784Rows_IsALeapYear()
    {
        WeatherSeries weather = WeatherFile.Read(_folder.Write("leap.epw", Epw([.. Hours(2016)]))).Weather;
        Assert.Equal(8784, weather.Count);
        Assert.Equal(Instant.FromUtc(2017, 1, 1, 7, 0), weather.Start + (weather.Step * weather.Count));
    }

    [Fact]
    public void Read_StitchedYearWithALeapDay_LeavesItOutAndSaysSo()
    {
        string[] rows = [.. Hours(2016).Select(r => r.StartsWith("2016,1,", StringComparison.Ordinal) || r.StartsWith("2016,2,", StringComparison.Ordinal) ? r : "2009" + r[4..])];
        WeatherReading reading = WeatherFile.Read(_folder.Write("typical.epw", Epw(rows)));
        Assert.True(reading.Weather.IsTypicalYear);
        Assert.Equal(8760, reading.Weather.Count);
        Assert.Equal(["29 February was left out of the typical year, 24 rows."], reading.Repairs);
    }

    [Fact]
    public void Read_Gaps_AreFilledOnStraightLinesUpToTheHoursAllowed()
    {
        string text = Epw(Row("2017,1,1,1,0", "100"), Row("2017,1,1,2,0", "9999"), Row("2017,1,1,3,0", "9999"), Row("2017,1,1,4,0", "400"));
        WeatherReading reading = WeatherFile.Read(_folder.Write("gap.epw", text), new WeatherOptions { FillsGapHours = 2 });
        Assert.Equal([100, 200, 300, 400], reading.Weather.GlobalWPerM2);
        Assert.Equal(["global horizontal: 2 missing values were filled on straight lines."], reading.Repairs);
        Assert.Equal(
            "bad.csv line 4, global horizontal: is missing for 2 rows; gaps are filled only up to the hours that the options allow (1).",
            Problems(text, null, 1));
    }

    [Fact]
    public void Read_NightOffsets_AreTakenAsZeroAndTold()
    {
        WeatherReading reading = WeatherFile.Read(
            _folder.Write("night.csv", "time,ghi,dni,dhi,air\n2017-01-01 00:00,-4.8,0,-1.2,5\n2017-01-01 01:00,0,0,0,5\n"), new WeatherOptions { Columns = s_plain });
        Assert.Equal(0, reading.Weather.GlobalWPerM2[0]);
        Assert.Equal(["2 irradiances between -4.8 and 0 W/m² were taken as 0 (an instrument's offset at night)."], reading.Repairs);
    }

    private string Problems(string text, WeatherColumns? columns = null, double gapHours = 0)
    {
        string path = _folder.Write("bad.csv", text);
        return _folder.ProblemsOf(() => WeatherFile.Read(path, new WeatherOptions { Columns = columns, FillsGapHours = gapHours }));
    }

    private static string Row(string stamp, string global = "0", string air = "5") =>
        $"{stamp},?,{air},0,50,100000,0,0,300,{global},0,0,0,0,0,0,180,2.5,0,0,20,2000,9,999999999,89,0.03,0,88,0.2,999,99";

    private static string Epw(params string[] rows) => Epw("LOCATION,Town,XX,Nowhere,made up,0,40,-105,-7,1600", 1, rows);

    private static string Epw(string location = "LOCATION,Town,XX,Nowhere,made up,0,40,-105,-7,1600", int perHour = 1, params string[] rows) =>
        string.Create(CultureInfo.InvariantCulture, $"{location}\nDATA PERIODS,1,{perHour},Data,Sunday, 1/ 1,12/31\n{string.Concat(rows.Select(r => r + "\n"))}");

    private static string TwoHeader(string fact = "", string value = "")
    {
        (string Name, string Value)[] facts =
        [
            ("Source", "made up"), ("Location ID", "7"), ("Latitude", "40"), ("Longitude", "-105"), ("Time Zone", "-7"), ("Elevation", "1600"),
            ("GHI Units", "w/m2"), ("Temperature Units", "c"),
        ];
        return $"{string.Join(',', facts.Select(f => f.Name))}\n{string.Join(',', facts.Select(f => f.Name == fact ? value : f.Value))}\n"
            + "Year,Month,Day,Hour,Minute,GHI,DHI,DNI,Temperature\n2016,1,1,0,30,0,0,0,32\n2016,1,1,1,30,0,0,0,50\n";
    }

    private static IEnumerable<string> Hours(int year)
    {
        for (var date = new LocalDate(year, 1, 1); date.Year == year; date = date.PlusDays(1))
            for (int hour = 1; hour <= 24; hour++)
                yield return Row(string.Create(CultureInfo.InvariantCulture, $"{date.Year},{date.Month},{date.Day},{hour},0"));
    }
}
