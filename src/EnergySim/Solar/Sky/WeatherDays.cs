using NodaTime;

namespace EnergySim.Solar;

/// <summary>
/// Finds the weather of a moment: that moment's own where the series holds it, else the same day and time of another year (29 February where there is none: the day before). All on the
/// file's standard clock, never shifted by daylight saving.
/// </summary>
internal sealed class WeatherDays
{
    private readonly WeatherSeries _weather;
    private readonly int[] _firstOfDay = new int[12 * 31];
    private readonly int _perDay;

    public WeatherDays(WeatherSeries weather)
    {
        _weather = weather;
        if (weather.Step <= Duration.Zero || NodaConstants.TicksPerDay % weather.Step.BclCompatibleTicks != 0)
            throw new ArgumentException("A weather series has a whole number of intervals a day.", nameof(weather));
        _perDay = (int)(NodaConstants.TicksPerDay / weather.Step.BclCompatibleTicks);
        Array.Fill(_firstOfDay, -1);
        LocalDateTime first = weather.Start.WithOffset(weather.StandardOffset).LocalDateTime;
        LocalDate day = first.TimeOfDay == LocalTime.Midnight ? first.Date : first.Date.PlusDays(1);
        int index = (int)Math.Round((day.AtMidnight().WithOffset(weather.StandardOffset).ToInstant() - weather.Start) / weather.Step);
        for (; index + _perDay <= weather.Count; index += _perDay, day = day.PlusDays(1))
            if (_firstOfDay[KeyOf(day)] < 0) _firstOfDay[KeyOf(day)] = index;
    }

    /// <summary>Start of the interval of the series' clock that holds an instant.</summary>
    public Instant StartOfIntervalAt(Instant instant) => _weather.Start + (_weather.Step * (long)Math.Floor((instant - _weather.Start) / _weather.Step));

    /// <summary>Index of the weather of an interval that starts so on the series' clock.</summary>
    /// <exception cref="ArgumentException">The series has no such day.</exception>
    public int IndexOf(Instant start)
    {
        long own = (long)Math.Round((start - _weather.Start) / _weather.Step);
        if (own >= 0 && own < _weather.Count) return (int)own;
        LocalDateTime local = start.WithOffset(_weather.StandardOffset).LocalDateTime;
        int first = _firstOfDay[KeyOf(local.Date)];
        if (first < 0 && local is { Month: 2, Day: 29 }) first = _firstOfDay[KeyOf(local.Date.PlusDays(-1))];
        if (first < 0) throw new ArgumentException($"The weather of {_weather.Source} has no whole {local.Date.ToString("d MMMM", System.Globalization.CultureInfo.InvariantCulture)}, which the home's data need.");
        return first + (int)(local.TimeOfDay.TickOfDay / _weather.Step.BclCompatibleTicks);
    }

    private static int KeyOf(LocalDate date) => ((date.Month - 1) * 31) + date.Day - 1;
}
