using EnergySim.TestData;

namespace EnergySim.Files.Tests.Homes;

/// <summary>The roof of a home file: a sound one, and one bad file a rule.</summary>
public sealed class RoofReaderTests : IDisposable
{
    private static readonly string s_profiles = Path.Combine(SharedData.RepositoryRoot, "profiles");
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Read_DemoRoof_GivesItsPlanesAndTellsNothingAssumed()
    {
        HomeReading reading = HomeFile.Read(Path.Combine(s_profiles, "demo-roof-home.yaml"));
        HomeSolar solar = reading.Home.Solar!;
        Assert.True(solar.IsDc);
        Assert.Equal(["south-east", "south-west"], solar.Modelled!.Roof.Planes.Select(p => p.Name));
        Assert.Equal(8.2, solar.Modelled.Roof.RatedKw, 1e-12);
        Assert.True(solar.Profile.Axis.IsSameAs(reading.Home.Load.Axis));
        Assert.InRange(solar.InverterEfficiency, 0.95, 0.965);
        Assert.DoesNotContain(reading.Repairs, r => r.StartsWith("Assumed", StringComparison.Ordinal));
    }

    [Fact]
    public void Read_RoofThatSaysLittle_TellsWhatWasAssumed()
    {
        string told = string.Join('\n', HomeFile.Read(With(("  losses:\n    - {loss: soiling, share: 2 %, source: assumption of the demo}\n    - {loss: mismatch and wiring, share: 3 %, source: assumption of the demo}\n", ""),
            (", temperatureCoefficient: \"-0.35 %\", mounting: close}", "}"), ("  inverterCurve: [[0.05, 0.9], [0.1, 0.94], [0.2, 0.958], [0.5, 0.965], [1, 0.958]]\n", ""))).Repairs);
        Assert.Contains("soiling 2 % (assumption; common practice", told, StringComparison.Ordinal);
        Assert.Contains("0.35 % a kelvin", told, StringComparison.Ordinal);
        Assert.Contains("turns 96 % of its DC into AC", told, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("latitude: 39.9\n  longitude: -104.6", "latitude: -104.6\n  longitude: 39.9", "roof.latitude: \"-104.6\" is beyond 90 degrees; latitude and longitude seem swapped")]
    [InlineData("longitude: -104.6", "longitude: 104.6", "roof.longitude: \"104.6\" does not fit America/Denver; east is positive, west negative: -104.6 would")]
    [InlineData("longitude: -104.6", "longitude: 10", "roof.longitude: \"10\" does not fit America/Denver: the sun's noon would be hours from the clock's")]
    [InlineData("azimuth: 135", "azimuth: -45", "roof.planes[1].azimuth: \"-45\" is below 0; an azimuth runs from north clockwise: east 90, south 180, west 270. Where south is 0 and west positive, this is 135 here")]
    [InlineData("azimuth: 135", "azimuth: 360", "roof.planes[1].azimuth: \"360\" is not from 0 to below 360; an azimuth runs from north clockwise: east 90, south 180, west 270")]
    [InlineData("tilt: 25, azimuth: 135", "tilt: 95, azimuth: 135", "roof.planes[1].tilt: \"95\" is above 90; a tilt runs from 0 (flat) to 90 (upright) degrees")]
    [InlineData("azimuth: 135, kw: 4.1", "azimuth: 135, kw: 0", "roof.planes[1].kw: \"0\" is not above 0")]
    [InlineData("\"-0.35 %\", mounting: close}\n    - {plane: south-west", "0.0035, mounting: close}\n    - {plane: south-west", "roof.planes[1].temperatureCoefficient: \"0.0035\" is above 0; a module loses power as it warms: a share a kelvin such as -0.0035")]
    [InlineData("snowDays: [3, ", "snowDays: [", "roof.snowDays: there are 11 numbers; a year has twelve months, January first")]
    [InlineData("[240, 2], [270, 8]", "[270, 8], [240, 2]", "roof.planes[2].horizon: its azimuths do not rise")]
    [InlineData("[0.1, 0.94], ", "[0.6, 0.94], ", "roof.inverterCurve: its shares of the rating do not rise")]
    [InlineData("plane: south-west", "plane: south-east", "roof.planes: two planes are called south-east")]
    [InlineData("clock: \"-07:00\", ", "clock: local, ", "roof.weather.clock: \"local\" is no offset of standard time; write \"-07:00\"")]
    [InlineData("solarInputs: 2", "solarInputs: 1\n    solarInputKw: 3", null)]
    [InlineData("units: 2\n    price: 20500", "units: 1\n    price: 20500", null)]
    public void Read_RoofThatIsWrong_SaysIt(string sound, string bad, string? sentence)
    {
        string path = With((sound, bad));
        if (sentence is null) Assert.NotNull(HomeFile.Read(path));
        else Assert.Contains(sentence, _folder.ProblemsOf(() => HomeFile.Read(path)), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_MoreStringsThanInputs_SaysIt() => Assert.Contains(
        "offers[3].replacesSolarInverter: the roof's planes make 6 strings, the battery inverter has 4 solar inputs",
        _folder.ProblemsOf(() => HomeFile.Read(With(("kw: 4.1, ", "kw: 4.1, strings: 3, ")))), StringComparison.Ordinal);

    [Fact]
    public void Read_ProfileAndRoof_ExcludeEachOther() => Assert.Contains(
        "solar (a profile) and roof (planes) exclude each other",
        _folder.ProblemsOf(() => HomeFile.Read(With(("roof:\n", "solar: {file: demo-solar.csv, column: solar_dc_kw, unit: kW, stamp: start, kind: dc, inverterKw: 7.6}\nroof:\n")))), StringComparison.Ordinal);

    [Fact]
    public void Read_PlanesThatAllFaceNorth_IsDoubted() => Assert.Contains(
        HomeFile.Read(With(("azimuth: 135", "azimuth: 0"), ("azimuth: 225", "azimuth: 45"))).Repairs,
        r => r.StartsWith("Every tilted plane faces north", StringComparison.Ordinal));

    [Fact]
    public void Read_WeatherOfAnotherClock_IsDoubted() => Assert.Contains(
        HomeFile.Read(With(("clock: \"-07:00\"", "clock: \"-05:00\""))).Repairs,
        r => r.Contains("off by 2 h", StringComparison.Ordinal));

    // data/weather: a typical year of Boston is 2,800 km from the demo's roof.
    [Fact]
    public void Read_WeatherFromFarAway_IsRefused()
    {
        string epw = SharedData.DataPath("weather", "USA_MA_Boston-Logan.Intl.AP.725090_TMY3.epw").Replace('\\', '/');
        string text = File.ReadAllText(Path.Combine(s_profiles, "demo-roof-home.yaml"));
        string line = text.Split('\n').Single(l => l.Contains("weather: {file", StringComparison.Ordinal));
        Assert.Contains("km away; is a sign or the file wrong", _folder.ProblemsOf(() => HomeFile.Read(With((line, $"  weather: {{file: '{epw}'}}")))), StringComparison.Ordinal);
    }

    private string With(params (string Sound, string Other)[] changes)
    {
        string text = File.ReadAllText(Path.Combine(s_profiles, "demo-roof-home.yaml"));
        foreach ((string sound, string other) in changes)
        {
            Assert.Contains(sound, text, StringComparison.Ordinal);
            text = text.Replace(sound, other, StringComparison.Ordinal);
        }
        foreach (string file in (string[])["demo-load.csv", "demo-weather.csv", "demo-solar.csv"])
            text = text.Replace(file, Path.Combine(s_profiles, file).Replace('\\', '/'), StringComparison.Ordinal);
        text = text.Replace("../tariffs", Path.Combine(SharedData.RepositoryRoot, "tariffs").Replace('\\', '/'), StringComparison.Ordinal);
        return _folder.Write("h.yaml", text);
    }
}
