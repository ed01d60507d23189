using System.Globalization;
using CsCheck;
using EnergySim.Solar;
using EnergySim.TestData;
using NodaTime;

namespace EnergySim.Tests.Solar;

public class SunTrackTests
{
    private static readonly Gen<(Place Place, Instant Start)> s_cases =
        from latitude in Gen.Double[-75, 75]
        from longitude in Gen.Double[-180, 180]
        from hours in Gen.Int[0, 24 * 365 * 30]
        select (new Place(latitude, longitude, 0), Instant.FromUtc(1995, 1, 1, 0, 0) + Duration.FromHours(hours));

    // The interpolated, integrated track against the full algorithm at every minute.
    [Fact]
    public void Track_OfOneMinute_PointsWhereTheFullAlgorithmDoes() => FixedSeed.Check(s_cases, 60, c =>
    {
        var track = new SunTrack(c.Place, c.Start, Duration.FromMinutes(1), 2880);
        for (int i = 0; i < track.Count; i += 17)
        {
            if (track.UpFraction[i] < 1) continue;
            SunPosition seen = SunPosition.At(c.Start + Duration.FromMinutes(i) + Duration.FromSeconds(30), c.Place);
            double elevation = Math.Asin(track.Up[i]) * 180 / Math.PI;
            double azimuth = Math.Atan2(track.East[i], track.North[i]) * 180 / Math.PI;
            // The parallax (0.0024°) is left out of the track.
            Assert.Equal(seen.GeometricElevationDegrees, elevation, 0.004);
            Assert.True(Math.Abs(Math.IEEERemainder(azimuth - seen.AzimuthDegrees, 360)) * Math.Cos(elevation * Math.PI / 180) < 0.004);
        }
    });

    [Fact]
    public void Track_OfAnHour_IsTheMeanOfItsMinutes() => FixedSeed.Check(s_cases, 100, c =>
    {
        var hours = new SunTrack(c.Place, c.Start, Duration.FromHours(1), 48);
        var minutes = new SunTrack(c.Place, c.Start, Duration.FromMinutes(1), 48 * 60);
        for (int h = 0; h < hours.Count; h++)
        {
            double up = 0, east = 0, north = 0, high = 0, above = 0;
            for (int m = h * 60; m < (h + 1) * 60; m++)
            {
                up += minutes.UpFraction[m] / 60;
                high += minutes.UpFraction[m] * minutes.Up[m] / 60;
                east += minutes.UpFraction[m] * minutes.East[m] / 60;
                north += minutes.UpFraction[m] * minutes.North[m] / 60;
                above += minutes.ExtraterrestrialHorizontalWPerM2(m) / 60;
            }
            Assert.Equal(up, hours.UpFraction[h], 2e-3);
            Assert.Equal(high, hours.Up[h] * hours.UpFraction[h], 2e-4);
            Assert.Equal(east, hours.East[h] * hours.UpFraction[h], 2e-3);
            Assert.Equal(north, hours.North[h] * hours.UpFraction[h], 2e-3);
            Assert.Equal(above, hours.ExtraterrestrialHorizontalWPerM2(h), 0.3);
        }
    });

    // h0_monthly.csv: daily extraterrestrial radiation on the flat, MJ/m² (Duffie and Beckman, Solar Engineering of Thermal Processes, 2013, eq. 1.10.3, 1367 W/m²),
    // for Klein's mean days with Cooper's declination and the simple factor of distance; tolerance 0.01.
    [Fact]
    public void Span_OfTheMeanDays_GivesTheDailyTable()
    {
        int[] days = [17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344];
        string[][] lines = [.. File.ReadAllLines(SharedData.Reference("h0_monthly.csv")).Where(l => l.Length > 0).Select(l => l.Split(','))];
        int cells = 0;
        foreach (string[] row in lines.Skip(1))
            for (int m = 0; m < 12; m++, cells++)
            {
                double latitude = double.Parse(row[0], CultureInfo.InvariantCulture) * Math.PI / 180;
                double declination = 23.45 * Math.PI / 180 * Math.Sin(2 * Math.PI * (284 + days[m]) / 365);
                double a = Math.Sin(latitude) * Math.Sin(declination), b = Math.Cos(latitude) * Math.Cos(declination);
                double sum = 0;
                for (int h = -12; h < 12; h++)
                {
                    SunSpan span = SunSpan.Of(a, b, h * Math.PI / 12, (h + 1) * Math.PI / 12);
                    if (span.UpFraction > 0) sum += span.UpFraction * (a + (b * span.MeanCosHour));
                }
                double daily = sum * 0.0036 * Extraterrestrial.SolarConstantWPerM2 * (1 + (0.033 * Math.Cos(2 * Math.PI * days[m] / 365)));
                Assert.Equal(double.Parse(row[m + 1], CultureInfo.InvariantCulture), daily, 0.01);
            }
        Assert.Equal(120, cells);
    }

    // Duffie and Beckman, Solar Engineering of Thermal Processes (2013), Example 1.10.2: latitude 43°, 15 April, 10 to 11 h: 3.79 MJ/m² (recomputed 3.7898).
    [Fact]
    public void Span_OfTheTextbooksHour_GivesItsRadiation()
    {
        double latitude = 43 * Math.PI / 180, declination = 9.4 * Math.PI / 180;
        double a = Math.Sin(latitude) * Math.Sin(declination), b = Math.Cos(latitude) * Math.Cos(declination);
        SunSpan span = SunSpan.Of(a, b, -Math.PI / 6, -Math.PI / 12);
        Assert.Equal(1, span.UpFraction, 1e-12);
        Assert.Equal(3.7898, 0.0036 * 1367 * (1 + (0.033 * Math.Cos(2 * Math.PI * 105 / 365))) * (a + (b * span.MeanCosHour)), 1e-3);
    }

    // Kasten and Young, Applied Optics 28 (1989), values computed from the published formula (REFERENCE §2.5), tolerance 1e-5.
    [Theory]
    [InlineData(0, 0.99971)]
    [InlineData(30, 1.15399)]
    [InlineData(45, 1.41260)]
    [InlineData(60, 1.99429)]
    [InlineData(70, 2.90315)]
    [InlineData(75, 3.81291)]
    [InlineData(80, 5.58604)]
    [InlineData(85, 10.30579)]
    [InlineData(88, 19.43325)]
    [InlineData(90, 37.91961)]
    [InlineData(97, 37.91961)]
    public void AirMass_OfAZenith_IsTheTables(double zenith, double mass) => Assert.Equal(mass, AirMass.Relative(zenith), 1e-5);
}
