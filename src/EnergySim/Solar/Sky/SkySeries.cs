using EnergySim.Time;
using NodaTime;

namespace EnergySim.Solar;

/// <summary>
/// Weather and sun on a run's axis, worked out once and shared by all planes. Where the axis is finer than the weather, the clearness is held through each weather interval, so that
/// its energy stays what it was (to 0.05 W/m²) and follows the sun within it.
/// </summary>
public sealed class SkySeries
{
    private const double LeastAboveAirWPerM2 = 1;
    private readonly double[] _global, _direct, _diffuse, _air, _wind, _albedo;
    private readonly PerezSky[] _sky;

    private SkySeries(TimeAxis axis, SunTrack track, double[] albedo)
    {
        (Axis, Track, _albedo) = (axis, track, albedo);
        (_global, _direct, _diffuse) = (new double[axis.Count], new double[axis.Count], new double[axis.Count]);
        (_air, _wind, _sky) = (new double[axis.Count], new double[axis.Count], new PerezSky[axis.Count]);
    }

    /// <summary>The intervals.</summary>
    public TimeAxis Axis { get; }

    /// <summary>The sun over them.</summary>
    public SunTrack Track { get; }

    /// <summary>Global irradiance on the flat, W/m².</summary>
    public ReadOnlySpan<double> GlobalWPerM2 => _global;

    /// <summary>Direct normal irradiance, W/m².</summary>
    public ReadOnlySpan<double> DirectNormalWPerM2 => _direct;

    /// <summary>Diffuse irradiance on the flat, W/m².</summary>
    public ReadOnlySpan<double> DiffuseWPerM2 => _diffuse;

    /// <summary>Air temperature, °C.</summary>
    public ReadOnlySpan<double> AirCelsius => _air;

    /// <summary>Wind, m/s.</summary>
    public ReadOnlySpan<double> WindMPerS => _wind;

    /// <summary>Albedo of the ground, 0–1.</summary>
    internal ReadOnlySpan<double> AlbedoFraction => _albedo;

    /// <summary>Brightness of the sky; default where it is read as even.</summary>
    internal ReadOnlySpan<PerezSky> Sky => _sky;

    /// <summary>Lays weather on an axis.</summary>
    /// <param name="weather">The weather; of another year where it does not hold the axis's own.</param>
    /// <param name="axis">The intervals, none longer than the weather's.</param>
    /// <param name="place">Where the sun is looked at.</param>
    /// <param name="model">How the sky is read.</param>
    /// <param name="albedoFraction">Albedo to use in place of the weather's.</param>
    /// <exception cref="ArgumentException">The weather lacks a day that the axis has, or its intervals are shorter than the axis's.</exception>
    public static SkySeries Of(WeatherSeries weather, TimeAxis axis, in Place place, SkyModel model = SkyModel.Perez, double? albedoFraction = null)
    {
        ArgumentNullException.ThrowIfNull(weather);
        ArgumentNullException.ThrowIfNull(axis);
        var step = Duration.FromMinutes(axis.StepMinutes);
        if (step > weather.Step) throw new ArgumentException("The axis has longer intervals than the weather.", nameof(axis));
        var days = new WeatherDays(weather);
        Instant start = days.StartOfIntervalAt(axis.Start);
        int count = (int)Math.Ceiling((axis.End - start) / weather.Step);
        var coarse = new SunTrack(place, start, weather.Step, count);
        var index = new int[count];
        for (int c = 0; c < count; c++) index[c] = days.IndexOf(start + (weather.Step * c));
        SunTrack track = step == weather.Step && start == axis.Start ? coarse : new SunTrack(place, axis.Start, step, axis.Count);
        var albedo = new double[axis.Count];
        var series = new SkySeries(axis, track, albedo);
        double ahead = (axis.Start - start) / weather.Step, share = step / weather.Step;
        for (int i = 0; i < axis.Count; i++)
        {
            int c = (int)(ahead + ((i + 0.5) * share));
            series.Lay(weather, i, index[c], coarse, c);
            albedo[i] = albedoFraction ?? weather.AlbedoFraction?[index[c]] ?? Roof.UsualAlbedoFraction;
        }
        if (model == SkyModel.Perez) series.ReadSky();
        return series;
    }

    private void Lay(WeatherSeries weather, int i, int w, SunTrack coarse, int c)
    {
        _air[i] = weather.AirCelsius[w];
        _wind[i] = weather.WindMPerS?[w] ?? Mounting.WindWhereUnknownMPerS;
        double global = weather.GlobalWPerM2[w], diffuse = weather.DiffuseWPerM2[w];
        if (global <= 0 && diffuse <= 0) return;
        double aboveAir = coarse.ExtraterrestrialHorizontalWPerM2(c);
        if (aboveAir < LeastAboveAirWPerM2)
        {
            // Twilight: too little sun to follow; what there is comes from the sky, evenly.
            _global[i] = _diffuse[i] = diffuse;
            return;
        }
        double here = Track.ExtraterrestrialHorizontalWPerM2(i) / aboveAir;
        _global[i] = global * here;
        _diffuse[i] = diffuse * here;
        _direct[i] = Math.Min(weather.DirectNormalWPerM2[w] / coarse.UpFraction[c], Track.ExtraterrestrialNormalWPerM2[i]) * Track.UpFraction[i];
    }

    private void ReadSky()
    {
        for (int i = 0; i < _sky.Length; i++)
        {
            if (_diffuse[i] <= 0 || Track.UpFraction[i] == 0) continue;
            double zenith = Math.Acos(Math.Min(1, Track.Up[i])) / GeocentricSun.Radian;
            _sky[i] = PerezSky.Of(_diffuse[i], _direct[i], zenith, AirMass.Relative(zenith), Track.ExtraterrestrialNormalWPerM2[i]);
        }
    }
}
