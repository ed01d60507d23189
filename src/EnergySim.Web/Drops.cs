using EnergySim.Files;
using EnergySim.Profiles;
using Microsoft.AspNetCore.Http;

namespace EnergySim.Web;

/// <summary>What became of dropped files.</summary>
/// <param name="Home">The home among them; null = there is none.</param>
/// <param name="Files">Their names here.</param>
/// <param name="Notes">What was assumed, a sentence each.</param>
internal sealed record DropAnswer(string? Home, IReadOnlyList<string> Files, IReadOnlyList<string> Notes);

/// <summary>A load read out of meter files.</summary>
/// <param name="File">The profile, to begin a home with.</param>
/// <param name="FromDate">First day.</param>
/// <param name="ToDate">Last day.</param>
/// <param name="LoadKwh">Energy, kWh.</param>
/// <param name="StepMinutes">Length of an interval.</param>
/// <param name="Notes">What was understood and done, a sentence each.</param>
internal sealed record MeterAnswer(string File, string FromDate, string ToDate, double LoadKwh, int StepMinutes, IReadOnlyList<string> Notes);

/// <summary>Takes files that are dropped on the page: each into a folder of its own, where only the page's program reads them.</summary>
internal sealed class Drops(Library library, ServeOptions options)
{
    private const int MostFiles = 24;

    /// <summary>Keeps files.</summary>
    /// <exception cref="ArgumentException">There are none, too many, or a name is none.</exception>
    public async Task<DropAnswer> Take(IFormFileCollection files, CancellationToken cancel)
    {
        (string area, string folder) = await Keep(files, cancel).ConfigureAwait(false);
        string[] names = [.. files.Select(f => Path.GetFileName(f.FileName))];
        string? home = names.FirstOrDefault(n => IsYaml(n) && File.ReadLines(Path.Combine(folder, n)).Take(2000).Any(l => l.StartsWith("home:", StringComparison.Ordinal)));
        var notes = new List<string>();
        if (home is not null) Reconnect(folder, home, names, notes);
        return new DropAnswer(home is null ? null : $"{area}/{home}", [.. names.Select(n => $"{area}/{n}")], notes);
    }

    /// <summary>Reads meter files as one load.</summary>
    /// <param name="files">The files, kept before.</param>
    /// <param name="said">How they are to be read: option and value.</param>
    /// <param name="cancel">Ends the waiting.</param>
    /// <exception cref="MeterQuestionsException">Something can be read in two ways.</exception>
    /// <exception cref="ProblemsException">A file can not be used.</exception>
    public async Task<MeterAnswer> Meter(IReadOnlyList<string> files, IReadOnlyList<KeyValuePair<string, string>> said, CancellationToken cancel)
    {
        MeterOptions read = said.Aggregate(new MeterOptions(), (o, s) => MeterWords.With(o, s.Key, s.Value));
        string[] paths = [.. files.Select(f => library.PathOf(f))];
        Task<MeterAnswer> reading = Task.Run(() => Read(paths, read), cancel);
        try
        {
            return await reading.WaitAsync(options.MostReadingTime, cancel).ConfigureAwait(false);
        }
        catch (TimeoutException)
        {
            throw new ArgumentException(FormattableString.Invariant($"The files took longer than {options.MostReadingTime.TotalSeconds:0} s to read; `energysim import` reads them without that limit."));
        }
    }

    private MeterAnswer Read(string[] paths, MeterOptions read)
    {
        MeterData data = MeterMerge.Of([.. paths.Select(p => MeterFile.Read(p, read))], read);
        MeterLoadResult load = MeterLoad.Of(data);
        (string area, string folder) = library.NewDrop();
        ProfileCsv.Write(Path.Combine(folder, "load.csv"), ("load_kw", load.Load));
        Profile profile = load.Load;
        return new MeterAnswer(
            $"{area}/load.csv", Date(profile, 0), Date(profile, profile.Axis.Count - 1), Math.Round(profile.EnergyKwh, 3), profile.Axis.StepMinutes,
            [.. data.Findings.Select(f => f.ToString()), .. load.Notes]);
    }

    private async Task<(string Area, string Folder)> Keep(IFormFileCollection files, CancellationToken cancel)
    {
        if (files.Count is 0 or > MostFiles) throw new ArgumentException($"{files.Count} files were dropped; 1 to {MostFiles} can be taken at once.");
        (string area, string folder) = library.NewDrop();
        foreach (IFormFile file in files)
        {
            string path = library.PathOf($"{area}/{Path.GetFileName(file.FileName)}");
            var stream = new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.None);
            await using (stream.ConfigureAwait(false)) await file.CopyToAsync(stream, cancel).ConfigureAwait(false);
        }
        return (area, folder);
    }

    // Dropped files lie flat, whatever folders they came from; a plan of the catalogue need not be dropped along.
    private void Reconnect(string folder, string home, string[] names, List<string> notes)
    {
        string path = Path.Combine(folder, home), text = File.ReadAllText(path);
        string? Found(string value)
        {
            string name = value[(value.LastIndexOfAny(['/', '\\']) + 1)..];
            if (value.Length > 300 || name.Length == 0 || !name.Contains('.', StringComparison.Ordinal)) return null;
            if (names.Contains(name)) return name == value ? null : name;
            string? catalogue = IsYaml(name) ? library.InCatalogue(name) : null;
            if (catalogue is not null) notes.Add($"{name} was not dropped: the plan of that name in the catalogue is used.");
            return catalogue;
        }
        string connected;
        try
        {
            connected = HomeEdit.WithFiles(text, Found);
        }
        catch (ArgumentException)
        {
            // What is wrong with it is told when it is opened.
            return;
        }
        if (connected != text) WholeFile.Write(path, stream => stream.Write(System.Text.Encoding.UTF8.GetBytes(connected)));
    }

    private static bool IsYaml(string name) => name.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase) || name.EndsWith(".yml", StringComparison.OrdinalIgnoreCase);

    private static string Date(Profile profile, int index) => NodaTime.Text.LocalDatePattern.Iso.Format(profile.Axis.LocalDateOf(index));
}
