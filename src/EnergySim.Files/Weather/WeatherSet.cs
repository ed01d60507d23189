using System.Globalization;
using EnergySim.Solar;

namespace EnergySim.Files;

/// <summary>Several years of one place, each in a file of its own.</summary>
public static class WeatherSet
{
    // Files name the same cell or station to two or more decimals; 0.02° are two kilometres. Our choice.
    private const double SamePlaceDegrees = 0.02;

    /// <summary>Reads files of one place, in any order.</summary>
    /// <param name="paths">Files, or folders whose .epw and .csv files are meant.</param>
    /// <param name="options">What may be done, and the columns of plain files.</param>
    /// <returns>The readings in order of time.</returns>
    /// <exception cref="ProblemsException">A file can not be used, is of another place, clock or step, or overlaps another.</exception>
    public static IReadOnlyList<WeatherReading> Read(IReadOnlyList<string> paths, WeatherOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(paths);
        var problems = new ProblemList();
        var readings = new List<WeatherReading>();
        foreach (string path in paths.SelectMany(FilesOf))
            if (WeatherFile.Read(path, options ?? new WeatherOptions(), problems) is WeatherReading reading) readings.Add(reading);
        problems.ThrowIfAny();
        if (readings.Count == 0) problems.Add(new Problem { File = string.Join(", ", paths), Rule = "there is no .epw or .csv file" });
        readings.Sort((a, b) => a.Weather.Start.CompareTo(b.Weather.Start));
        for (int i = 1; i < readings.Count; i++)
            if (FaultOf(readings[i - 1], readings[i]) is string rule) problems.Add(new Problem { File = readings[i].File, Rule = rule });
        problems.ThrowIfAny();
        return readings;
    }

    private static IEnumerable<string> FilesOf(string path) => !Directory.Exists(path)
        ? [path]
        : Directory.EnumerateFiles(path)
            .Where(f => Path.GetExtension(f).Equals(".epw", StringComparison.OrdinalIgnoreCase) || Path.GetExtension(f).Equals(".csv", StringComparison.OrdinalIgnoreCase))
            .Order(StringComparer.Ordinal);

    private static string? FaultOf(WeatherReading before, WeatherReading reading)
    {
        WeatherSeries a = before.Weather, b = reading.Weather;
        string other = Path.GetFileName(before.File);
        if (Math.Abs(a.Place.LatitudeDegrees - b.Place.LatitudeDegrees) > SamePlaceDegrees || Math.Abs(a.Place.LongitudeDegrees - b.Place.LongitudeDegrees) > SamePlaceDegrees)
            return string.Create(CultureInfo.InvariantCulture,
                $"the place {b.Place.LatitudeDegrees}, {b.Place.LongitudeDegrees} is not that of {other}, {a.Place.LatitudeDegrees}, {a.Place.LongitudeDegrees}; a set is of one place");
        if (a.StandardOffset != b.StandardOffset) return $"the clock is not that of {other}; a set has one";
        if (a.Step != b.Step) return $"the intervals are not as long as those of {other}";
        return a.End > b.Start ? $"the time overlaps that of {other}; a typical year stands alone, and a year stands once" : null;
    }
}
