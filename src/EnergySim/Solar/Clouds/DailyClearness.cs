using NodaTime;

namespace EnergySim.Solar;

/// <summary>The whole days of weather at one place, in order, with their clearness.</summary>
public sealed class DailyClearness
{
    private DailyClearness(IReadOnlyList<WeatherSeries> sources, List<ClearnessDay> days) => (Sources, Days) = (sources, days);

    /// <summary>The weather, in order of time.</summary>
    public IReadOnlyList<WeatherSeries> Sources { get; }

    /// <summary>The days.</summary>
    public IReadOnlyList<ClearnessDay> Days { get; }

    /// <summary>True when all there is are typical years, whose cloudy spells are understated.</summary>
    public bool IsTypicalOnly => Sources.All(s => s.IsTypicalYear);

    /// <summary>The days of weather.</summary>
    /// <param name="sources">One series or more of one place with steps that divide a day; months of a typical year are taken as separate stretches.</param>
    /// <exception cref="ArgumentException">There is no series, they are not in order of time, or no whole day is in them.</exception>
    public static DailyClearness Of(params IReadOnlyList<WeatherSeries> sources)
    {
        ArgumentNullException.ThrowIfNull(sources);
        var days = new List<ClearnessDay>();
        for (int s = 0; s < sources.Count; s++)
        {
            bool goesOn = s > 0 && sources[s - 1].End == sources[s].Start;
            if (s > 0 && sources[s - 1].End > sources[s].Start) throw new ArgumentException("Weather must be in order of time and may not overlap.", nameof(sources));
            AddDays(days, sources[s], s, goesOn);
        }
        if (days.Count == 0) throw new ArgumentException("There is no whole day of weather.", nameof(sources));
        return new DailyClearness(sources, days);
    }

    private static void AddDays(List<ClearnessDay> days, WeatherSeries weather, int source, bool goesOn)
    {
        double perDayReal = 1 / weather.Step.TotalDays;
        int perDay = (int)Math.Round(perDayReal);
        if (Math.Abs(perDay - perDayReal) > 1e-9) throw new ArgumentException("The intervals do not divide a day.", nameof(weather));
        // An interval belongs to the day that its middle is in.
        LocalDateTime first = (weather.Start + (weather.Step / 2)).WithOffset(weather.StandardOffset).LocalDateTime;
        int index = (perDay - (int)(first.TimeOfDay.TickOfDay / weather.Step.BclCompatibleTicks)) % perDay;
        LocalDate date = index == 0 ? first.Date : first.Date.PlusDays(1);
        var track = new SunTrack(weather.Place, weather.Start, weather.Step, weather.Count);
        double stepHours = weather.Step.TotalHours;
        for (bool isFirst = true; index + perDay <= weather.Count; index += perDay, date = date.PlusDays(1), isFirst = false)
        {
            double global = 0, above = 0;
            for (int i = index; i < index + perDay; i++)
            {
                global += weather.GlobalWPerM2[i];
                above += track.ExtraterrestrialHorizontalWPerM2(i);
            }
            bool follows = isFirst ? goesOn : !(weather.IsTypicalYear && date.Day == 1);
            days.Add(new ClearnessDay(date, source, index, global * stepHours, above * stepHours, follows));
        }
    }
}
