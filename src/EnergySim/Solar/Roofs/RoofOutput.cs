using EnergySim.Profiles;
using EnergySim.Time;

namespace EnergySim.Solar;

/// <summary>What one plane gives.</summary>
/// <param name="Plane">The plane.</param>
/// <param name="Dc">DC power at the inverter's inputs, after all losses.</param>
/// <param name="IncidentKwPerM2">Irradiance on the plane in each interval of the same axis, kW/m², before any loss but the horizon's.</param>
public sealed record PlaneOutput(RoofPlane Plane, Profile Dc, Profile IncidentKwPerM2);

/// <summary>What a roof gives under a weather.</summary>
public sealed class RoofOutput
{
    private RoofOutput(IReadOnlyList<PlaneOutput> planes, Profile dc) => (Planes, Dc) = (planes, dc);

    /// <summary>Plane by plane.</summary>
    public IReadOnlyList<PlaneOutput> Planes { get; }

    /// <summary>All planes together, DC.</summary>
    public Profile Dc { get; }

    /// <summary>Power of a roof on a run's axis.</summary>
    /// <param name="roof">The roof.</param>
    /// <param name="weather">The weather.</param>
    /// <param name="axis">The run's intervals.</param>
    /// <exception cref="ArgumentException">A number of the roof is out of range, or the weather lacks a day of the axis.</exception>
    public static RoofOutput Of(Roof roof, WeatherSeries weather, TimeAxis axis)
    {
        ArgumentNullException.ThrowIfNull(roof);
        ArgumentNullException.ThrowIfNull(weather);
        ArgumentNullException.ThrowIfNull(axis);
        TimeAxis fine = axis.StepMinutes > weather.Step.TotalMinutes ? axis.WithStep((int)weather.Step.TotalMinutes) : axis;
        return Of(roof, SkySeries.Of(weather, fine, roof.Place, roof.SkyModel, roof.AlbedoFraction), axis.StepMinutes);
    }

    /// <summary>Power of a roof under a sky that is worked out already and may be shared by many roofs.</summary>
    /// <param name="roof">The roof.</param>
    /// <param name="sky">The sky.</param>
    /// <param name="stepMinutes">Length of the intervals of the result, at least the sky's.</param>
    public static RoofOutput Of(Roof roof, SkySeries sky, int stepMinutes)
    {
        ArgumentNullException.ThrowIfNull(roof);
        ArgumentNullException.ThrowIfNull(sky);
        roof.Validate();
        int count = sky.Axis.Count;
        var (power, incident, all, kept) = (new double[count], new double[count], new double[count], new double[count]);
        double keptFraction = roof.KeptFraction;
        bool[] covered = SnowCover.Of(roof.SnowDays, sky);
        var planes = new List<PlaneOutput>(roof.Planes.Count);
        foreach (RoofPlane plane in roof.Planes)
        {
            new PlaneModel(plane).Fill(sky, incident, power);
            KeepAfterLosses(plane, sky.Axis, keptFraction, covered, kept);
            for (int i = 0; i < count; i++)
            {
                power[i] *= kept[i];
                incident[i] *= 1e-3;
                all[i] += power[i];
            }
            planes.Add(new PlaneOutput(plane, new Profile(sky.Axis, power).Resampled(stepMinutes), new Profile(sky.Axis, incident).Resampled(stepMinutes)));
        }
        return new RoofOutput(planes, new Profile(sky.Axis, all).Resampled(stepMinutes));
    }

    /// <summary>
    /// What of a power passes inputs that take so much each: planes share it as they share this output, or by their strings where this has none; a
    /// plane's strings share its part evenly and clip each for itself.
    /// </summary>
    /// <param name="dc">DC power of the whole roof, kW, on the same axis: this output, or that of faded panels, under clouds, in another year.</param>
    /// <param name="eachKw">Most DC power that one input takes, kW, ≥ 0.</param>
    /// <param name="clippedKwh">What the inputs do not take, kWh.</param>
    /// <exception cref="ArgumentException">The power is on another axis.</exception>
    public Profile PastInputs(Profile dc, double eachKw, out double clippedKwh)
    {
        ArgumentNullException.ThrowIfNull(dc);
        if (!dc.Axis.IsSameAs(Dc.Axis)) throw new ArgumentException("The power is on another axis than the roof's output.", nameof(dc));
        var kw = new double[Dc.Axis.Count];
        int strings = Planes.Sum(p => p.Plane.Strings);
        ReadOnlySpan<double> whole = dc.Kw, here = Dc.Kw;
        foreach (PlaneOutput plane in Planes)
        {
            double most = plane.Plane.Strings * eachKw, share = plane.Plane.Strings / (double)strings;
            ReadOnlySpan<double> part = plane.Dc.Kw;
            for (int i = 0; i < kw.Length; i++) kw[i] += Math.Min(here[i] > 0 ? part[i] * (whole[i] / here[i]) : whole[i] * share, most);
        }
        var past = new Profile(Dc.Axis, kw);
        clippedKwh = Math.Max(0, dc.EnergyKwh - past.EnergyKwh);
        return past;
    }

    private static void KeepAfterLosses(RoofPlane plane, TimeAxis axis, double keptFraction, bool[] covered, Span<double> kept)
    {
        kept.Fill(keptFraction);
        if (covered.Length > 0)
            for (int i = 0; i < kept.Length; i++)
                if (covered[i]) kept[i] = 0;
        if (plane.MonthlyShadeFractions.Count == 0) return;
        for (int i = 0; i < kept.Length; i++) kept[i] *= 1 - plane.MonthlyShadeFractions[axis.LocalDateOf(i).Month - 1];
    }
}
