using System.Globalization;
using EnergySim.Time;
using NodaTime;
using NodaTime.TimeZones;

namespace EnergySim.Studies.Outages;

/// <summary>Finds the interval of a local date and time.</summary>
internal static class StartIndex
{
    /// <summary>The interval that holds a local time; of an hour that comes twice the first.</summary>
    /// <exception cref="ArgumentException">It is not within the data, or the clock skips it.</exception>
    public static int Of(TimeAxis axis, LocalDateTime at)
    {
        ZoneLocalMapping mapping = axis.Zone.MapLocal(at);
        string text = at.ToString("uuuu-MM-dd HH:mm", CultureInfo.InvariantCulture);
        if (mapping.Count == 0) throw new ArgumentException($"The clock skips {text} in {axis.Zone.Id}.");
        double index = Math.Floor((mapping.First().ToInstant() - axis.Start).TotalMinutes / axis.StepMinutes);
        if (index < 0 || index >= axis.Count)
        {
            string first = axis.LocalDateOf(0).ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);
            string last = axis.LocalDateOf(axis.Count - 1).ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);
            throw new ArgumentException($"The outage starts at {text}; the data go from {first} to {last}.");
        }
        return (int)index;
    }
}
