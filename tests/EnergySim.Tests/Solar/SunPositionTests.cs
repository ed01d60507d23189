using System.Globalization;
using EnergySim.Solar;
using EnergySim.TestData;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Tests.Solar;

/// <summary>The sun's place in the sky against the worked example of the algorithm's report, a second library and three measuring stations.</summary>
public class SunPositionTests(ITestOutputHelper output)
{
    private static readonly Instant s_example = Instant.FromUtc(2003, 10, 17, 19, 30, 30);
    private static readonly Place s_golden = new(39.742476, -105.1786, 1830.14);

    // Reda and Andreas, NREL/TP-560-34302 (rev. 2008), Appendix A.5, Table A5.1.
    [Fact]
    public void At_WorkedExampleOfTheReport_GivesItsTable()
    {
        GeocentricSun sun = GeocentricSun.At(s_example, 67, out GeocentricSun.Parts parts);
        Assert.Equal(2452930.312847, GeocentricSun.JulianDay(s_example), 1e-6);
        Assert.Equal(24.0182616917, parts.LongitudeDegrees, 1e-6);
        Assert.Equal(-0.0001011219, parts.LatitudeDegrees, 1e-8);
        Assert.Equal(0.9965422974, sun.DistanceAu, 1e-9);
        Assert.Equal(-0.00399840, parts.NutationLongitudeDegrees, 1e-7);
        Assert.Equal(0.00166657, parts.NutationObliquityDegrees, 1e-7);
        Assert.Equal(23.440465, parts.ObliquityDegrees, 1e-6);
        Assert.Equal(318.511910, sun.SiderealDegrees, 1e-5);
        Assert.Equal(202.227408, sun.RightAscensionDegrees, 1e-5);
        Assert.Equal(-9.314340, sun.DeclinationDegrees, 1e-5);
        Assert.Equal(14.641503, sun.EquationOfTimeMinutes, 1e-4);
        SunPosition seen = SunPosition.At(sun, s_golden, new Air(820, 11));
        Assert.Equal(39.872046, seen.GeometricElevationDegrees, 1e-5);
        Assert.Equal(0.016332, seen.RefractionDegrees, 1e-6);
        Assert.Equal(50.111622, seen.ZenithDegrees, 1e-5);
        Assert.Equal(194.340241, seen.AzimuthDegrees, 1e-5);
        // The report turns the plane 10° east of south.
        Assert.Equal(25.187000, seen.IncidenceDegrees(30, 170), 1e-5);
    }

    // Espenak and Meeus, NASA/TP-2006-214141 (2006): February 1985.
    [Fact]
    public void DeltaT_February1985_IsThePolynomials() => Assert.Equal(54.413442, DeltaT.SecondsAt(Instant.FromUtc(1985, 2, 14, 0, 0)), 1e-5);

    // sun_positions.csv: computed with astronomy-engine 2.1.19, an independent library; tolerance for a full algorithm 0.01°.
    [Fact]
    public void At_TwentyFourPlacesAndTimes_AgreesWithAnIndependentLibrary()
    {
        string[][] rows = [.. File.ReadAllLines(SharedData.Reference("sun_positions.csv")).Skip(1).Where(l => l.Length > 0).Select(l => l.Split(','))];
        Assert.Equal(24, rows.Length);
        double worstElevation = 0, worstAzimuth = 0, worstDeclination = 0, worstEquation = 0, worstRefracted = 0;
        foreach (string[] row in rows)
        {
            double Value(int column) => double.Parse(row[column], CultureInfo.InvariantCulture);
            Instant at = InstantPattern.General.Parse(row[1]).Value;
            var place = new Place(Value(2), Value(3), Value(4));
            GeocentricSun sun = GeocentricSun.At(at);
            SunPosition seen = SunPosition.At(at, place);
            worstElevation = Math.Max(worstElevation, Math.Abs(seen.GeometricElevationDegrees - Value(6)));
            double across = Math.IEEERemainder(seen.AzimuthDegrees - Value(5), 360) * Math.Cos(Value(6) * Math.PI / 180);
            worstAzimuth = Math.Max(worstAzimuth, Math.Abs(across));
            worstDeclination = Math.Max(worstDeclination, Math.Abs(sun.DeclinationDegrees - Value(8)));
            worstEquation = Math.Max(worstEquation, Math.Abs(sun.EquationOfTimeMinutes - Value(9)));
            if (Value(6) > 0) worstRefracted = Math.Max(worstRefracted, Math.Abs(SunPosition.At(at, place, new Air(1010, 10)).ElevationDegrees - Value(7)));
        }
        output.WriteLine($"24 positions, largest difference: elevation {worstElevation:0.0000}°, azimuth × cos elevation {worstAzimuth:0.0000}°, declination {worstDeclination:0.00000}°, equation of time {worstEquation:0.0000} min, refracted elevation {worstRefracted:0.0000}°");
        Assert.InRange(worstElevation, 0, 0.01);
        Assert.InRange(worstAzimuth, 0, 0.01);
        Assert.InRange(worstDeclination, 0, 0.001);
        Assert.InRange(worstEquation, 0, 0.02);
        Assert.InRange(worstRefracted, 0, 0.01);
    }

    // sun_extra.csv: worked examples of two courses, which count hours from solar noon and azimuth from south; rounded to a tenth of a degree at worst.
    [Fact]
    public void At_WorkedExamplesOfCourses_GivesTheirAngles()
    {
        string[][] rows = [.. File.ReadAllLines(SharedData.Reference("sun_extra.csv")).Skip(1).Where(l => l.Length > 0).Select(l => l.Split(','))];
        Assert.Equal(4, rows.Length);
        Assert.All(rows, row =>
        {
            double Value(int column) => double.Parse(row[column].Split(' ')[0], CultureInfo.InvariantCulture);
            double hour = (LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(row[3].Split(' ')[0]).Value - LocalTime.Noon).ToDuration().TotalHours;
            double southward = row[5].Split(' ')[1] == "E" ? -Value(5) : Value(5);
            // A sun in the place that the example says: its hour angle is sidereal time at Greenwich, there the example's own meridian, less right ascension.
            var sun = new GeocentricSun(RightAscensionDegrees: 0, DeclinationDegrees: Value(2), DistanceAu: 1, SiderealDegrees: 15 * hour, EquationOfTimeMinutes: 0);
            SunPosition seen = SunPosition.At(sun, new Place(Value(1), 0, 0), new Air(1010, 10));
            Assert.Equal(Value(4), seen.GeometricElevationDegrees, 0.06);
            Assert.Equal(southward, seen.AzimuthDegrees - 180, 0.06);
        });
    }

    // NOAA GML SURFRAD station files: the zenith printed for the centre of each minute (two decimals), refraction by another formula for air at sea level,
    // which stops at another depth below the horizon (those minutes are left out). In the last ten degrees above it the two formulas differ by tenths; elsewhere the tables must agree.
    [Theory]
    [InlineData("surfrad-psu17001.dat", 40.72, -77.93, 376)]
    [InlineData("surfrad-tbl17005.dat", 40.125, -105.237, 1689)]
    public void At_EveryMinuteOfAMeasuredDay_GivesTheStationsZenith(string file, double latitude, double longitude, double elevation)
    {
        string[][] rows = [.. File.ReadAllLines(SharedData.DataPath("weather", file)).Skip(2).Select(l => l.Split(' ', StringSplitOptions.RemoveEmptyEntries))];
        Assert.Equal(1440, rows.Length);
        double sum = 0, squares = 0, worst = 0, worstLow = 0;
        int low = 0;
        var place = new Place(latitude, longitude, elevation);
        foreach (string[] row in rows)
        {
            int Whole(int column) => int.Parse(row[column], CultureInfo.InvariantCulture);
            Instant end = Instant.FromUtc(Whole(0), Whole(2), Whole(3), Whole(4), Whole(5));
            SunPosition seen = SunPosition.At(end - Duration.FromSeconds(30), place, new Air(1013.25, 10));
            double difference = seen.ZenithDegrees - double.Parse(row[7], CultureInfo.InvariantCulture);
            if (seen.ZenithDegrees is > 80 and < 91.5)
            {
                if (seen.ZenithDegrees < 90) worstLow = Math.Max(worstLow, Math.Abs(difference));
                low++;
                continue;
            }
            sum += difference;
            squares += difference * difference;
            worst = Math.Max(worst, Math.Abs(difference));
        }
        int high = 1440 - low;
        output.WriteLine($"{file}: {high} minutes, zenith bias {sum / high:0.0000}°, RMSE {Math.Sqrt(squares / high):0.0000}°, largest {worst:0.0000}°; {low} minutes within ten degrees of the horizon: largest {worstLow:0.000}°");
        Assert.InRange(worst, 0, 0.015);
        Assert.InRange(worstLow, 0, 0.2);
    }

    // Equinoxes and solstices, UTC: astronomy-engine 2.1.19, tolerance 60 s. The sun's declination is 0, or changes sign of its course, within the minute.
    [Theory]
    [InlineData("2024-03-20T03:06:24Z", 0)]
    [InlineData("2024-06-20T20:50:58Z", 90)]
    [InlineData("2024-12-21T09:20:19Z", 270)]
    [InlineData("2025-09-22T18:19:35Z", 180)]
    [InlineData("2026-03-20T14:45:36Z", 0)]
    [InlineData("2026-06-21T08:25:00Z", 90)]
    [InlineData("2026-12-21T20:50:22Z", 270)]
    public void At_EquinoxOrSolstice_RightAscensionIsAWholeQuarter(string utc, double quarter)
    {
        double Away(Instant at) => Math.IEEERemainder(GeocentricSun.At(at).RightAscensionDegrees - quarter, 360);
        Instant stated = InstantPattern.General.Parse(utc).Value;
        Assert.True(Away(stated - Duration.FromSeconds(60)) < 0);
        Assert.True(Away(stated + Duration.FromSeconds(60)) > 0);
    }

    // Sun–earth distance: astronomy-engine 2.1.19, tolerance 5e-5 AU; the irradiance ratio is 1/R².
    [Theory]
    [InlineData(2025, 1, 3, 0.98333, 1.0342)]
    [InlineData(2025, 7, 4, 1.01665, 0.9675)]
    public void At_PerihelionAndAphelion_DistanceIsThatOfALibrary(int year, int month, int day, double distance, double ratio)
    {
        double at = GeocentricSun.At(Instant.FromUtc(year, month, day, 12, 0)).DistanceAu;
        Assert.Equal(distance, at, 5e-5);
        Assert.Equal(ratio, Extraterrestrial.NormalWPerM2(at) / Extraterrestrial.SolarConstantWPerM2, 1e-4);
    }

    // NOAA's solar calculation sheet, 2010-06-21 00:06 at UTC−7, latitude 40, longitude −105; tolerance 1e-4° (it is a simpler algorithm, within 0.001° of the full one).
    [Fact]
    public void At_ExampleOfTheNoaaSheet_AgreesToAThousandthDegree()
    {
        var at = Instant.FromUtc(2010, 6, 21, 7, 6);
        Assert.Equal(2455368.79583333, GeocentricSun.JulianDay(at), 1e-8);
        GeocentricSun sun = GeocentricSun.At(at);
        output.WriteLine($"right ascension {sun.RightAscensionDegrees:0.0000000} (sheet 89.8094801), declination {sun.DeclinationDegrees:0.0000000} (23.4383706), equation of time {sun.EquationOfTimeMinutes:0.0000} (−1.7154)");
        Assert.Equal(23.4383706193, sun.DeclinationDegrees, 1e-3);
        Assert.Equal(89.8094800844, sun.RightAscensionDegrees, 5e-3);
        Assert.Equal(-1.71536757847, sun.EquationOfTimeMinutes, 0.03);
    }
}
