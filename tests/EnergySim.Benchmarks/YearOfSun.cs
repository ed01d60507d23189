using EnergySim.Solar;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Benchmarks;

/// <summary>A made-up year of hourly weather over a roof of three planes, on the benchmark year's quarter-hours.</summary>
internal sealed class YearOfSun
{
    private readonly TimeAxis _axis;
    private readonly WeatherSeries _weather;
    private readonly Roof _roof;
    private readonly SkySeries _sky;

    public YearOfSun(TimeAxis axis)
    {
        _axis = axis;
        var place = new Place(39.9, -104.6, 1600);
        Instant start = Instant.FromUtc(2025, 1, 1, 7, 0);
        var track = new SunTrack(place, start, Duration.FromHours(1), 8760);
        double[] global = new double[8760], direct = new double[8760], diffuse = new double[8760], air = new double[8760], wind = new double[8760];
        for (int i = 0; i < 8760; i++)
        {
            global[i] = track.ExtraterrestrialHorizontalWPerM2(i) * (0.3 + (0.4 * ((i * 2654435761L) % 1000) / 1000));
            air[i] = 10 + (i % 24);
            wind[i] = 1 + (i % 7);
        }
        DiffuseSplit.Split(track, global, direct, diffuse);
        _weather = new WeatherSeries
        {
            Source = "made up",
            Place = place,
            Start = start,
            Step = Duration.FromHours(1),
            StandardOffset = Offset.FromHours(-7),
            IsTypicalYear = false,
            GlobalWPerM2 = global,
            DirectNormalWPerM2 = direct,
            DiffuseWPerM2 = diffuse,
            AirCelsius = air,
            WindMPerS = wind,
        };
        _roof = new Roof
        {
            Place = place,
            Planes =
            [
                new RoofPlane { Name = "east", TiltDegrees = 25, AzimuthDegrees = 90, RatedKw = 3 },
                new RoofPlane { Name = "south", TiltDegrees = 25, AzimuthDegrees = 180, RatedKw = 4 },
                new RoofPlane { Name = "west", TiltDegrees = 25, AzimuthDegrees = 270, RatedKw = 3 },
            ],
        };
        _sky = SkySeries.Of(_weather, _axis, place);
    }

    /// <summary>From weather to the DC power of three planes.</summary>
    public RoofOutput FromWeather() => RoofOutput.Of(_roof, _weather, _axis);

    /// <summary>The same under a sky worked out before.</summary>
    public RoofOutput UnderSharedSky() => RoofOutput.Of(_roof, _sky, _axis.StepMinutes);
}
