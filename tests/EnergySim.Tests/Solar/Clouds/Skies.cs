using EnergySim.Solar;
using NodaTime;

namespace EnergySim.Tests.Solar.Clouds;

/// <summary>Made-up weather whose days have the clearness that a test wants.</summary>
internal static class Skies
{
    public static readonly Place Town = new(40, -105, 1600);
    public static readonly Offset Clock = Offset.FromHours(-7);

    /// <summary>Weather of hours from midnight of a date on, each day with its clearness.</summary>
    public static WeatherSeries Of(LocalDate first, params IReadOnlyList<double> clearness) => Of(first, Duration.FromHours(1), Town, clearness);

    public static WeatherSeries Of(LocalDate first, Duration step, Place place, IReadOnlyList<double> clearness)
    {
        Instant start = first.AtMidnight().WithOffset(Clock).ToInstant();
        int perDay = (int)(Duration.FromDays(1) / step), count = perDay * clearness.Count;
        var track = new SunTrack(place, start, step, count);
        var global = new double[count];
        for (int i = 0; i < count; i++) global[i] = clearness[i / perDay] * track.ExtraterrestrialHorizontalWPerM2(i);
        return new WeatherSeries
        {
            Source = "made up",
            Place = place,
            Start = start,
            Step = step,
            StandardOffset = Clock,
            IsTypicalYear = false,
            GlobalWPerM2 = global,
            DirectNormalWPerM2 = new double[count],
            DiffuseWPerM2 = global,
            AirCelsius = [.. Enumerable.Range(0, count).Select(i => (double)(i / perDay))],
        };
    }
}
