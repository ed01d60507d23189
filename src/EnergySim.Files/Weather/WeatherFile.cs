namespace EnergySim.Files;

/// <summary>
/// Reads weather: EPW, the two-header CSV of satellite data bases, or plain CSV with declared columns. Which of them a file is, is told by
/// its first line. Values become means over intervals; all stamps are standard time.
/// </summary>
public static class WeatherFile
{
    /// <summary>The calendar year that a typical year, whose months come from several years, is laid on.</summary>
    public const int TypicalYearOn = 2001;

    /// <summary>Reads a file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="options">What may be done, and the columns of a plain file; null = nothing, none.</param>
    /// <exception cref="ProblemsException">The file can not be read, or breaks a rule.</exception>
    public static WeatherReading Read(string path, WeatherOptions? options = null)
    {
        var problems = new ProblemList();
        WeatherReading? reading = Read(path, options ?? new WeatherOptions(), problems);
        problems.ThrowIfAny();
        return reading!;
    }

    /// <summary>Reads a file; null, with problems added, when it can not be used.</summary>
    internal static WeatherReading? Read(string path, WeatherOptions options, ProblemList problems)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        int before = problems.Count;
        if (InputText.Read(path, problems) is not string text) return null;
        WeatherTable? table = TableOf(path, text, options, problems);
        return table is null || problems.Count > before ? null : WeatherPlacing.Of(table, options, problems);
    }

    private static WeatherTable? TableOf(string path, string text, WeatherOptions options, ProblemList problems)
    {
        if (text.StartsWith(EpwReader.FirstWord + ",", StringComparison.OrdinalIgnoreCase)) return EpwReader.Read(path, text, problems);
        if (options.Columns is WeatherColumns columns) return PlainReader.Read(path, text, columns, problems);
        if (TwoHeaderReader.Fits(text)) return TwoHeaderReader.Read(path, text, problems);
        problems.Add(new Problem { File = path, Line = 1, Rule = "the file neither begins with LOCATION nor names Latitude and Longitude; a plain CSV needs its columns declared" });
        return null;
    }
}
