using NodaTime;

namespace EnergySim.Solar;

/// <summary>
/// Years that might have been: clearness of the days by <see cref="ClearnessModel"/>, the hours of each day and its air and wind from a recorded day of
/// that time of year with nearly that clearness. A year is determined by seed and index alone.
/// </summary>
public sealed class SyntheticYears
{
    // Two months around the day give some sixty days a recorded year to find the clearness among. Our choice.
    private const int NearDays = 30;
    private readonly ClearnessModel _model;
    private readonly ulong _seed;
    private readonly LocalDate _first;
    private readonly int _days;
    private readonly DayLayer _layer;
    private readonly SunTrack _track;
    private readonly ClearnessDay[][] _near;
    private readonly double[][] _nearClearness;

    /// <param name="model">The model.</param>
    /// <param name="seed">The seed: the same seed, the same years.</param>
    /// <param name="calendarYear">The year whose dates and sun they have, 1–9998.</param>
    public SyntheticYears(ClearnessModel model, ulong seed, int calendarYear)
    {
        ArgumentNullException.ThrowIfNull(model);
        _model = model;
        _seed = seed;
        _first = new LocalDate(calendarYear, 1, 1);
        _days = CalendarSystem.Iso.GetDaysInYear(calendarYear);
        _layer = new DayLayer(model.Sky);
        WeatherSeries empty = _layer.Empty(_first, _days, "");
        _track = new SunTrack(empty.Place, empty.Start, empty.Step, empty.Count);
        _near = DayOfYear.Near(model.Sky.Days, NearDays);
        _nearClearness = [.. _near.Select(days => days.Select(d => d.Clearness!.Value).ToArray())];
    }

    /// <summary>Clearness of the days of a year.</summary>
    /// <param name="index">Which year, ≥ 0.</param>
    public double[] Clearness(int index)
    {
        SeededNoise noise = NoiseOf(index);
        var clearness = new double[_days];
        _model.Fill(ref noise, clearness);
        return clearness;
    }

    /// <summary>Weather of a year.</summary>
    /// <param name="index">Which year, ≥ 0.</param>
    public WeatherSeries Year(int index)
    {
        SeededNoise noise = NoiseOf(index);
        var clearness = new double[_days];
        _model.Fill(ref noise, clearness);
        WeatherSeries year = _layer.Empty(_first, _days, FormattableString.Invariant($"synthetic year {index} of seed {_seed}, fitted to {string.Join("; ", _model.Sky.Sources.Select(s => s.Source))}"));
        for (int d = 0; d < _days; d++)
        {
            int of = DayOfYear.Of(_first.PlusDays(d));
            // One of the three nearest in clearness, so that few recorded years do not repeat one day again and again.
            int at = Array.BinarySearch(_nearClearness[of], clearness[d]);
            at = Math.Clamp((at < 0 ? ~at : at) - 1 + (int)(3 * noise.Even()), 0, _near[of].Length - 1);
            _layer.Lay(_near[of][at], clearness[d], year, d * _layer.PerDay, _track);
        }
        return year;
    }

    private SeededNoise NoiseOf(int index)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        return SeededNoise.Stream(_seed, index);
    }
}
