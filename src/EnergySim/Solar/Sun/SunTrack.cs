using NodaTime;

namespace EnergySim.Solar;

/// <summary>
/// The sun over equal intervals at one place. Directions are means over the part of an interval in which the sun is up (without refraction), as components of a
/// unit vector towards the sun: what a plane sees is their product with its normal. All zeros while the sun is down.
/// </summary>
public sealed class SunTrack
{
    private const double Radian = GeocentricSun.Radian;
    private readonly double[] _east, _north, _up, _upFraction, _normal;

    /// <param name="place">The place.</param>
    /// <param name="start">Start of the first interval.</param>
    /// <param name="step">Length of an interval, above 0 and at most a day.</param>
    /// <param name="count">Number of intervals, ≥ 1.</param>
    public SunTrack(in Place place, Instant start, Duration step, int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        if (step <= Duration.Zero || step > Duration.FromDays(1)) throw new ArgumentOutOfRangeException(nameof(step), step, "An interval is longer than nothing and at most a day.");
        Place = place;
        Start = start;
        Step = step;
        (_east, _north, _up, _upFraction, _normal) = (new double[count], new double[count], new double[count], new double[count], new double[count]);
        Fill();
    }

    /// <summary>The place.</summary>
    public Place Place { get; }

    /// <summary>Start of the first interval.</summary>
    public Instant Start { get; }

    /// <summary>Length of an interval.</summary>
    public Duration Step { get; }

    /// <summary>Number of intervals.</summary>
    public int Count => _up.Length;

    /// <summary>Eastward component of the mean direction towards the sun.</summary>
    public ReadOnlySpan<double> East => _east;

    /// <summary>Northward component.</summary>
    public ReadOnlySpan<double> North => _north;

    /// <summary>Upward component: the mean cosine of the zenith while the sun is up.</summary>
    public ReadOnlySpan<double> Up => _up;

    /// <summary>Share of the interval in which the sun is up, 0–1.</summary>
    public ReadOnlySpan<double> UpFraction => _upFraction;

    /// <summary>Extraterrestrial irradiance on a plane that faces the sun, W/m², night and day.</summary>
    public ReadOnlySpan<double> ExtraterrestrialNormalWPerM2 => _normal;

    /// <summary>Mean extraterrestrial irradiance on the flat over an interval, W/m².</summary>
    public double ExtraterrestrialHorizontalWPerM2(int index) => _normal[index] * _up[index] * _upFraction[index];

    private void Fill()
    {
        SunDays days = SunDays.Of(Start, Start + (Step * Count));
        (double sinLatitude, double cosLatitude) = Math.SinCos(Place.LatitudeDegrees * Radian);
        double stepDays = Step.TotalDays, stepRadians = stepDays * 2 * Math.PI;
        for (int i = 0; i < _up.Length; i++)
        {
            days.At((i + 0.5) * stepDays, out double declination, out double hour, out double distance);
            _normal[i] = Extraterrestrial.NormalWPerM2(distance);
            hour = Math.IEEERemainder(hour + (Place.LongitudeDegrees * Radian) - (stepRadians / 2), 2 * Math.PI);
            (double sinDeclination, double cosDeclination) = Math.SinCos(declination);
            double a = sinLatitude * sinDeclination, b = cosLatitude * cosDeclination;
            SunSpan span = SunSpan.Of(a, b, hour, hour + stepRadians);
            if (span.UpFraction == 0) continue;
            _upFraction[i] = span.UpFraction;
            _up[i] = a + (b * span.MeanCosHour);
            _east[i] = -cosDeclination * span.MeanSinHour;
            _north[i] = (cosLatitude * sinDeclination) - (sinLatitude * cosDeclination * span.MeanCosHour);
        }
    }
}
