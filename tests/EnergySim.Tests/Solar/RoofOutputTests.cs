using CsCheck;
using EnergySim.Profiles;
using EnergySim.Solar;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Solar;

/// <summary>What must hold for any roof and weather; no figures of a source.</summary>
public class RoofOutputTests
{
    private static readonly DateTimeZone s_denver = DateTimeZoneProviders.Tzdb["America/Denver"];
    private static readonly Place s_place = new(39.9, -104.6, 1600);

    private static readonly Gen<RoofPlane> s_planes =
        from tilt in Gen.Double[0, 90]
        from azimuth in Gen.Double[0, 359.9]
        from kw in Gen.Double[0.5, 10]
        select new RoofPlane { Name = "plane", TiltDegrees = tilt, AzimuthDegrees = azimuth, RatedKw = kw };

    [Fact]
    public void Sky_OfQuartersFromHours_KeepsTheEnergyOfEveryHour()
    {
        WeatherSeries weather = Year(2025, 7);
        // Whole days of standard time, so that hours of the two clocks are the same.
        var axis = new TimeAxis(s_denver, weather.Start, 15, weather.Count * 4);
        SkySeries sky = SkySeries.Of(weather, axis, s_place);
        for (int h = 0; h < weather.Count; h++)
        {
            double global = 0, diffuse = 0, direct = 0;
            for (int i = h * 4; i < (h * 4) + 4; i++)
            {
                global += sky.GlobalWPerM2[i] / 4;
                diffuse += sky.DiffuseWPerM2[i] / 4;
                direct += sky.DirectNormalWPerM2[i] / 4;
            }
            // The sun's declination moves within the hour, which shows at rise and set: 0.05 W/m².
            Assert.Equal(weather.GlobalWPerM2[h], global, Math.Max(0.05, 1e-4 * weather.GlobalWPerM2[h]));
            Assert.Equal(weather.DiffuseWPerM2[h], diffuse, Math.Max(0.05, 1e-4 * weather.DiffuseWPerM2[h]));
            Assert.Equal(weather.DirectNormalWPerM2[h], direct, Math.Max(0.05, 1e-3 * weather.DirectNormalWPerM2[h]));
        }
    }

    [Fact]
    public void Incident_OnTheFlat_IsTheGlobal() => FixedSeed.Check(Gen.Double[0, 359], 10, azimuth =>
    {
        WeatherSeries weather = Year(2025, 3);
        SkySeries sky = SkySeries.Of(weather, new TimeAxis(s_denver, weather.Start, 60, weather.Count), s_place, SkyModel.Isotropic);
        double[] incident = new double[weather.Count], power = new double[weather.Count];
        new PlaneModel(new RoofPlane { Name = "flat", TiltDegrees = 0, AzimuthDegrees = azimuth, RatedKw = 1 }).Fill(sky, incident, power);
        for (int i = 0; i < incident.Length; i++) Assert.Equal(sky.GlobalWPerM2[i], incident[i], 1e-6);
    });

    [Fact]
    public void Power_OfAnyPlane_IsBoundedAndGrowsWithItsSize() => FixedSeed.Check(s_planes, 40, plane =>
    {
        WeatherSeries weather = Year(2025, 11);
        var axis = new TimeAxis(s_denver, weather.Start, 60, weather.Count);
        RoofOutput one = Of(plane, weather, axis), two = Of(plane with { RatedKw = plane.RatedKw * 2 }, weather, axis);
        Assert.Equal(one.Dc.EnergyKwh * 2, two.Dc.EnergyKwh, 1e-6);
        foreach (double kw in one.Dc.Kw) Assert.InRange(kw, 0, plane.RatedKw * 1.5);
        Assert.InRange(one.Dc.EnergyKwh / plane.RatedKw, 150, 2400);
    });

    [Fact]
    public void Dc_OfSeveralPlanes_IsTheirSum() => FixedSeed.Check(s_planes.Array[2, 4], 15, planes =>
    {
        WeatherSeries weather = Year(2025, 5);
        var axis = new TimeAxis(s_denver, weather.Start, 30, 96 * 7);
        RoofOutput all = RoofOutput.Of(Roof(planes), weather, axis);
        Assert.Equal(planes.Sum(p => Of(p, weather, axis).Dc.EnergyKwh), all.Dc.EnergyKwh, 1e-9);
    });

    [Fact]
    public void Horizon_AllAround_TakesTheSunAndItsShareOfTheSky()
    {
        WeatherSeries weather = Year(2025, 5);
        var axis = new TimeAxis(s_denver, weather.Start, 60, weather.Count);
        RoofPlane plane = new() { Name = "south", TiltDegrees = 30, AzimuthDegrees = 180, RatedKw = 5 };
        double open = Of(plane, weather, axis).Dc.EnergyKwh;
        double low = Of(plane with { Horizon = new HorizonLine([(0, 5)]) }, weather, axis).Dc.EnergyKwh;
        double deep = Of(plane with { Horizon = new HorizonLine([(0, 90)]) }, weather, axis).Dc.EnergyKwh;
        Assert.InRange(low / open, 0.9, 0.999);
        Assert.InRange(deep / open, 0, 0.05);
    }

    [Fact]
    public void Shade_ByMonth_TakesItsShareOfThatMonthAlone()
    {
        WeatherSeries weather = Year(2025, 5);
        var axis = TimeAxis.OfYear(s_denver, 2025, 60);
        RoofPlane plane = new() { Name = "south", TiltDegrees = 30, AzimuthDegrees = 180, RatedKw = 5 };
        Profile open = Of(plane, weather, axis).Dc;
        Profile shaded = Of(plane with { MonthlyShadeFractions = [0.5, .. Enumerable.Repeat(0.0, 11)] }, weather, axis).Dc;
        for (int i = 0; i < axis.Count; i++)
            Assert.Equal(open.Kw[i] * (axis.LocalDateOf(i).Month == 1 ? 0.5 : 1), shaded.Kw[i], 1e-12);
    }

    [Fact]
    public void SnowDays_OfAMonth_AreItsColdestDays()
    {
        WeatherSeries weather = Year(2025, 5);
        var axis = TimeAxis.OfYear(s_denver, 2025, 60);
        int[] days = [3, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 2];
        RoofPlane plane = new() { Name = "south", TiltDegrees = 30, AzimuthDegrees = 180, RatedKw = 5 };
        Profile dc = RoofOutput.Of(Roof([plane]) with { SnowDays = days }, weather, axis).Dc;
        int[] dark = [.. Enumerable.Range(0, axis.Count).GroupBy(axis.LocalDayOf).Where(g => g.All(i => dc.Kw[i] == 0)).Select(g => TimeAxis.DateOfDay(g.Key).Month)];
        Assert.Equal([1, 1, 1, 12, 12], dark);
    }

    [Fact]
    public void PastInputs_OfTwoPlanes_ClipsEachForItself()
    {
        WeatherSeries weather = Year(2025, 5);
        var axis = TimeAxis.OfYear(s_denver, 2025, 60);
        RoofOutput output = RoofOutput.Of(
            Roof([new RoofPlane { Name = "east", TiltDegrees = 30, AzimuthDegrees = 90, RatedKw = 6 }, new RoofPlane { Name = "west", TiltDegrees = 30, AzimuthDegrees = 270, RatedKw = 6, Strings = 2 }]), weather, axis);
        Profile past = output.PastInputs(output.Dc, 2, out double clipped);
        Assert.Equal(output.Dc.EnergyKwh, past.EnergyKwh + clipped, 1e-6);
        Assert.True(clipped > 100);
        for (int i = 0; i < axis.Count; i++)
            Assert.Equal(Math.Min(output.Planes[0].Dc.Kw[i], 2) + Math.Min(output.Planes[1].Dc.Kw[i], 4), past.Kw[i], 1e-12);
        // Half the sun: half of each plane. A power where this roof gives none (another year's dusk) is shared by strings: 1 of 3 is clipped at 2 kW.
        Profile half = output.PastInputs(output.Dc.Scaled(0.5), 2, out _), more = output.PastInputs(output.Dc.Map(kw => kw > 0 ? kw : 9), 2, out _);
        for (int i = 0; i < axis.Count; i++)
        {
            Assert.Equal(Math.Min(output.Planes[0].Dc.Kw[i] / 2, 2) + Math.Min(output.Planes[1].Dc.Kw[i] / 2, 4), half.Kw[i], 1e-12);
            Assert.Equal(output.Dc.Kw[i] > 0 ? past.Kw[i] : 6, more.Kw[i], 1e-12);
        }
    }

    // Typical years have 8,760 hours; a home's year may have a leap day: it takes the day before.
    [Fact]
    public void Of_ALeapYear_TakesTheDayBeforeForItsLeapDay()
    {
        WeatherSeries weather = Year(2025, 5);
        var leap = new TimeAxis(s_denver, Instant.FromUtc(2024, 2, 28, 7, 0), 60, 48);
        SkySeries sky = SkySeries.Of(weather, leap, s_place);
        for (int i = 0; i < 24; i++) Assert.Equal(sky.AirCelsius[i], sky.AirCelsius[i + 24]);
    }

    // Whatever the step of the home's data, the year's energy is the same: within 0.5 %, the curvature inside an hour.
    [Theory]
    [InlineData(5)]
    [InlineData(15)]
    [InlineData(30)]
    public void Dc_OfAnyStep_HasTheSameEnergy(int step)
    {
        WeatherSeries weather = Year(2025, 5);
        RoofPlane plane = new() { Name = "south-west", TiltDegrees = 25, AzimuthDegrees = 225, RatedKw = 5 };
        double hours = Of(plane, weather, TimeAxis.OfYear(s_denver, 2025, 60)).Dc.EnergyKwh;
        Assert.InRange(Of(plane, weather, TimeAxis.OfYear(s_denver, 2025, step)).Dc.EnergyKwh / hours, 0.995, 1.005);
    }

    [Fact]
    public void Of_WeatherFinerThanTheHome_IsAveraged()
    {
        WeatherSeries hourly = Year(2025, 5);
        var axis = TimeAxis.OfYear(s_denver, 2025, 60);
        double[] Held(double[] column) => [.. column.SelectMany(v => Enumerable.Repeat(v, 4))];
        WeatherSeries fine = hourly with { Step = Duration.FromMinutes(15), GlobalWPerM2 = Held(hourly.GlobalWPerM2), DirectNormalWPerM2 = Held(hourly.DirectNormalWPerM2), DiffuseWPerM2 = Held(hourly.DiffuseWPerM2), AirCelsius = Held(hourly.AirCelsius) };
        RoofPlane plane = new() { Name = "south-west", TiltDegrees = 25, AzimuthDegrees = 225, RatedKw = 5 };
        RoofOutput output = Of(plane, fine, axis);
        Assert.Equal(60, output.Dc.Axis.StepMinutes);
        Assert.InRange(output.Dc.EnergyKwh / Of(plane, hourly, axis).Dc.EnergyKwh, 0.97, 1.03);
    }

    private static RoofOutput Of(RoofPlane plane, WeatherSeries weather, TimeAxis axis) => RoofOutput.Of(Roof([plane]), weather, axis);

    private static Roof Roof(RoofPlane[] planes) => new() { Place = s_place, Planes = planes };

    // A made-up year: clear sky times a random share a day, split by the correlation.
    private static WeatherSeries Year(int year, ulong seed)
    {
        Instant start = Instant.FromUtc(year, 1, 1, 7, 0);
        var track = new SunTrack(s_place, start, Duration.FromHours(1), 8760);
        double[] global = new double[8760], direct = new double[8760], diffuse = new double[8760], air = new double[8760];
        ulong state = seed;
        double share = 1;
        for (int i = 0; i < 8760; i++)
        {
            state = (state * 6364136223846793005) + 1442695040888963407;
            double chance = (state >> 11) / (double)(1ul << 53);
            if (i % 24 == 0) share = 0.2 + (0.8 * chance);
            global[i] = track.ExtraterrestrialHorizontalWPerM2(i) * 0.72 * share;
            air[i] = 10 - (12 * Math.Cos(2 * Math.PI * i / 8760)) + (5 * Math.Sin(2 * Math.PI * ((i % 24) - 9) / 24)) + (8 * share);
        }
        DiffuseSplit.Split(track, global, direct, diffuse);
        return new WeatherSeries
        {
            Source = "made-up year",
            Place = s_place,
            Start = start,
            Step = Duration.FromHours(1),
            StandardOffset = Offset.FromHours(-7),
            IsTypicalYear = false,
            GlobalWPerM2 = global,
            DirectNormalWPerM2 = direct,
            DiffuseWPerM2 = diffuse,
            AirCelsius = air,
        };
    }
}
