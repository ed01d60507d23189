using System.Globalization;
using EnergySim.Solar;
using EnergySim.TestData;

namespace EnergySim.Files.Tests.Weather;

public sealed class WeatherSetTests : IDisposable
{
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Read_FolderOfYears_IsInOrderOfTimeAndRunsGoOnAcrossThem()
    {
        _folder.Write("b.epw", Day("2016,12,31"));
        _folder.Write("a.epw", Day("2017,1,1"));
        _folder.Write("notes.txt", "not weather");
        IReadOnlyList<WeatherReading> set = WeatherSet.Read([_folder.Path]);
        Assert.Equal(["b.epw", "a.epw"], set.Select(r => Path.GetFileName(r.File)));
        Assert.Equal([false, true], DailyClearness.Of([.. set.Select(r => r.Weather)]).Days.Select(d => d.FollowsPrevious));
    }

    [Theory]
    [InlineData("2017,1,2", "41", "-7", "a.epw: the place 40, -105 is not that of b.epw, 41, -105; a set is of one place.")]
    [InlineData("2016,1,2", "40", "-6", "a.epw: the clock is not that of b.epw; a set has one.")]
    [InlineData("2017,1,1", "40", "-7", "a.epw: the time overlaps that of b.epw; a typical year stands alone, and a year stands once.")]
    public void Read_FilesThatDoNotBelongTogether_SaysSo(string date, string latitude, string zone, string message)
    {
        string a = _folder.Write("a.epw", Day("2017,1,1")), b = _folder.Write("b.epw", Day(date.Replace("2017,1,2", "2016,1,2", StringComparison.Ordinal), latitude, zone));
        Assert.Equal(message, _folder.ProblemsOf(() => WeatherSet.Read([b, a])));
    }

    [Fact]
    public void Read_EmptyFolder_SaysSo() =>
        Assert.EndsWith(": there is no .epw or .csv file.", Assert.Throws<ProblemsException>(() => WeatherSet.Read([_folder.Path])).Message, StringComparison.Ordinal);

    // The file's own split of the same global irradiance, as a plain CSV that holds the global alone.
    [Fact]
    public void Read_GlobalAlone_IsSplitByThePublishedCorrelation()
    {
        WeatherSeries own = WeatherFile.Read(SharedData.DataPath("weather", "nsrdb-nyc-2017.csv")).Weather;
        WeatherReading Plain(bool direct, bool diffuse)
        {
            var text = new System.Text.StringBuilder("time,ghi,dni,dhi,air\n");
            for (int i = 0; i < own.Count; i++)
                text.Append(CultureInfo.InvariantCulture, $"{own.Start + (own.Step * i):uuuu-MM-ddTHH:mm:ss'Z'},{own.GlobalWPerM2[i]},{own.DirectNormalWPerM2[i]},{own.DiffuseWPerM2[i]},{own.AirCelsius[i]}\n");
            return WeatherFile.Read(_folder.Write("plain.csv", text.ToString()), new WeatherOptions
            {
                Columns = new WeatherColumns
                {
                    Place = own.Place,
                    StandardOffset = own.StandardOffset,
                    Mark = WeatherMark.Start,
                    Global = new WeatherColumn("ghi"),
                    DirectNormal = direct ? new WeatherColumn("dni") : null,
                    Diffuse = diffuse ? new WeatherColumn("dhi") : null,
                    Air = new WeatherColumn("air"),
                },
            });
        }
        WeatherReading split = Plain(false, false);
        Assert.True(split.Weather.IsSplitEstimated);
        Assert.Equal(["The file has global irradiance alone: direct and diffuse are estimated from it."], split.Notes);
        Assert.Equal((own.Start, own.Count), (split.Weather.Start, split.Weather.Count));
        // Error of the correlation against this year, stated: −2 % of the year's diffuse, 42 W/m² root mean square by daylight.
        double bias = (split.Weather.DiffuseWPerM2.Sum() / own.DiffuseWPerM2.Sum()) - 1;
        double rmse = Math.Sqrt(Enumerable.Range(0, own.Count).Where(i => own.GlobalWPerM2[i] > 0).Average(i => Math.Pow(split.Weather.DiffuseWPerM2[i] - own.DiffuseWPerM2[i], 2)));
        TestContext.Current.SendDiagnosticMessage("split: bias {0:0.000}, rmse {1:0.0}", bias, rmse);
        Assert.InRange(bias, -0.03, 0);
        Assert.InRange(rmse, 0, 45);
        // With one of the two at hand the other closes the sum; the file's own closure is not exact.
        Assert.Equal(own.DiffuseWPerM2.Sum(), Plain(true, false).Weather.DiffuseWPerM2.Sum(), 0.04 * own.DiffuseWPerM2.Sum());
        Assert.Equal(own.DirectNormalWPerM2.Sum(), Plain(false, true).Weather.DirectNormalWPerM2.Sum(), 0.04 * own.DirectNormalWPerM2.Sum());
    }

    private static string Day(string date, string latitude = "40", string zone = "-7") =>
        $"LOCATION,Town,XX,Nowhere,made up,0,{latitude},-105,{zone},1600\nDATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n"
        + string.Concat(Enumerable.Range(1, 24).Select(h => string.Create(CultureInfo.InvariantCulture, $"{date},{h},0,?,5,0,50,100000,0,0,300,{(h is > 8 and < 17 ? 300 : 0)},0,0,0,0,0,0,180,2.5\n")));
}
