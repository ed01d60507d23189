using EnergySim.Solar;
using EnergySim.TestData;
using NodaTime;

namespace EnergySim.Files.Tests.Weather;

/// <summary>Open weather years. Sums and extremes are those that shared/data/weather/PROVENANCE.md states, worked out there from the raw columns.</summary>
public class SharedWeatherTests
{
    private const string Boston = "USA_MA_Boston-Logan.Intl.AP.725090_TMY3.epw", Golden = "USA_CO_Golden-NREL.724666_TMY3.epw";
    private const string NewYork = "nsrdb-nyc-2017.csv", NewYorkEpw = "nyc-2017-from-nsrdb-missingcodes.epw";

    [Theory]
    [InlineData(Boston, 1407838, 1002, 1336042, 976, 651843, 508)]
    [InlineData(Golden, 1619948, 1032, 1866531, 1031, 577938, 549)]
    [InlineData(NewYork, 1470254, 990, 1526440, 1043, 616497, 570)]
    [InlineData(NewYorkEpw, 1470254, 990, 1526440, 1043, 616497, 570)]
    public void Read_Year_HasTheStatedIrradiance(string file, double global, double mostGlobal, double direct, double mostDirect, double diffuse, double mostDiffuse)
    {
        WeatherSeries weather = WeatherFile.Read(SharedData.DataPath("weather", file)).Weather;
        Assert.Equal(8760, weather.Count);
        Assert.Equal((global, mostGlobal), (weather.GlobalWPerM2.Sum(), weather.GlobalWPerM2.Max()));
        Assert.Equal((direct, mostDirect), (weather.DirectNormalWPerM2.Sum(), weather.DirectNormalWPerM2.Max()));
        Assert.Equal((diffuse, mostDiffuse), (weather.DiffuseWPerM2.Sum(), weather.DiffuseWPerM2.Max()));
    }

    [Theory]
    [InlineData(Boston, -20.0, 10.600, 37.2, 0, 5.485, 21.6)]
    [InlineData(Golden, -25.0, 9.761, 36.0, 0, 3.958, 17.0)]
    [InlineData(NewYork, -12.5, 11.873, 32.2, 0.1, 1.879, 6.6)]
    [InlineData(NewYorkEpw, -12.5, 11.873, 32.2, 0.1, 1.879, 6.6)]
    public void Read_Year_HasTheStatedAirAndWind(string file, double coldest, double mean, double hottest, double least, double wind, double most)
    {
        WeatherSeries weather = WeatherFile.Read(SharedData.DataPath("weather", file)).Weather;
        Assert.Equal((coldest, hottest), (weather.AirCelsius.Min(), weather.AirCelsius.Max()));
        Assert.Equal(mean, weather.AirCelsius.Average(), 3);
        Assert.Equal(least, weather.WindMPerS!.Min());
        Assert.Equal(most, weather.WindMPerS!.Max(), 9);
        Assert.Equal(wind, weather.WindMPerS!.Average(), 3);
    }

    [Theory]
    [InlineData(Boston, "55.5 77.7 111.9 135.4 172.7 172.9 188.1 165.8 127.7 92.5 60.2 47.4")]
    [InlineData(Golden, "71.8 85.4 145.7 170.6 189.5 187.9 191.4 182.7 147.9 107.9 86.4 52.7")]
    public void Read_TypicalYear_IsOneYearWithTheStatedMonths(string file, string months)
    {
        WeatherReading reading = WeatherFile.Read(SharedData.DataPath("weather", file));
        WeatherSeries weather = reading.Weather;
        Assert.True(weather.IsTypicalYear);
        Assert.Equal(new LocalDateTime(2001, 1, 1, 0, 0), weather.Start.WithOffset(weather.StandardOffset).LocalDateTime);
        var sums = new double[12];
        for (int i = 0; i < weather.Count; i++)
            sums[(weather.Start + (weather.Step * i)).WithOffset(weather.StandardOffset).Month - 1] += weather.GlobalWPerM2[i] / 1000;
        Assert.Equal(months, string.Join(' ', sums.Select(s => s.ToString("0.0", System.Globalization.CultureInfo.InvariantCulture))));
        Assert.StartsWith("A typical year (January 19", reading.Notes[0], StringComparison.Ordinal);
        Assert.Equal(11, reading.Notes[0].Count(c => c == ',') - 1);
    }

    [Fact]
    public void Read_BothFormsOfOneYear_AgreeToTheUnit()
    {
        WeatherSeries csv = WeatherFile.Read(SharedData.DataPath("weather", NewYork)).Weather;
        WeatherSeries epw = WeatherFile.Read(SharedData.DataPath("weather", NewYorkEpw)).Weather;
        Assert.Equal(csv.Place, epw.Place);
        Assert.Equal(new Place(40.81, -73.94, 19), csv.Place);
        Assert.Equal(Instant.FromUtc(2017, 1, 1, 5, 0), csv.Start);
        Assert.Equal((csv.Start, csv.Step, csv.StandardOffset), (epw.Start, epw.Step, epw.StandardOffset));
        Assert.Equal(csv.GlobalWPerM2, epw.GlobalWPerM2);
        Assert.Equal(csv.DirectNormalWPerM2, epw.DirectNormalWPerM2);
        Assert.Equal(csv.DiffuseWPerM2, epw.DiffuseWPerM2);
        // The EPW holds single-precision debris such as 2.9000000000000004 in these columns.
        for (int i = 0; i < csv.Count; i++)
        {
            Assert.Equal(csv.AirCelsius[i], epw.AirCelsius[i], 9);
            Assert.Equal(csv.WindMPerS![i], epw.WindMPerS![i], 9);
            Assert.Equal(csv.AlbedoFraction![i], epw.AlbedoFraction![i], 9);
        }
        Assert.False(csv.IsTypicalYear || epw.IsTypicalYear);
    }

    [Fact]
    public void Read_999_IsAnIrradianceButNoAlbedo()
    {
        WeatherSeries golden = WeatherFile.Read(SharedData.DataPath("weather", Golden)).Weather;
        Assert.Equal(1, golden.GlobalWPerM2.Count(v => v == 999));
        Assert.Equal(6, golden.DirectNormalWPerM2.Count(v => v == 999));
        WeatherReading boston = WeatherFile.Read(SharedData.DataPath("weather", Boston));
        Assert.Null(boston.Weather.AlbedoFraction);
        Assert.Contains(boston.Notes, n => n.StartsWith("albedo is missing in ", StringComparison.Ordinal));
    }

    [Fact]
    public void Read_MeasuredQuarterHoursWithOffsets_HaveTheStatedMonths()
    {
        string path = SharedData.DataPath("pvmeas", "golden-co-rooftop-east-jul-oct2016-15min-ghi.csv");
        var columns = new WeatherColumns
        {
            Place = new Place(39.742, -105.1727, 1829),
            StandardOffset = Offset.FromHours(-7),
            Mark = WeatherMark.Middle,
            Global = new WeatherColumn("ghi_w_m2"),
            DirectNormal = new WeatherColumn("dni_clear_w_m2"),
            Diffuse = new WeatherColumn("dhi_clear_w_m2"),
            Air = new WeatherColumn("temp_air_c"),
        };
        WeatherSeries weather = WeatherFile.Read(path, new WeatherOptions { Columns = columns }).Weather;
        Assert.Equal(Duration.FromMinutes(15), weather.Step);
        // Stamps are the interval's middle here: off the quarter-hours by half a step.
        Assert.Equal(Instant.FromUtc(2016, 7, 1, 6, 52) + Duration.FromSeconds(30), weather.Start);
        var sums = new double[13];
        for (int i = 0; i < weather.Count; i++)
            sums[(weather.Start + (weather.Step * (i + 0.5))).WithOffset(weather.StandardOffset).Month] += weather.GlobalWPerM2[i] / 4000;
        Assert.Equal([205.52, 181.44, 158.46, 51.53], sums[7..11].Select(s => Math.Round(s, 2)));
    }
}
