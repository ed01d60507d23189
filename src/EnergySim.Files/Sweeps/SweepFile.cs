using EnergySim.Studies;
using EnergySim.Studies.Sweeps;

namespace EnergySim.Files;

/// <summary>A sweep as it was read: its plan, and where its homes come from.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="Homes">Its homes.</param>
/// <param name="PlanHash">A hash of the sweep file and every file behind it: two sweeps with the same hash have the same rows.</param>
public sealed record SweepReading(SweepPlan Plan, SweepHomes Homes, string PlanHash)
{
    /// <summary>The study of this sweep.</summary>
    public SweepStudy Study() => new(Plan, Homes.Offers, Homes.Of);
}

/// <summary>Reads sweep files (YAML), checked whole with the homes and tariffs that they name. Paths in a sweep file are relative to it.</summary>
public static class SweepFile
{
    private const int MostHomes = 10_000;

    /// <summary>Reads a sweep.</summary>
    /// <param name="path">The sweep file.</param>
    /// <exception cref="ProblemsException">A file can not be read, or breaks a rule.</exception>
    public static SweepReading Read(string path) => Read(path, quickly: true);

    /// <summary>Reads a sweep; with <paramref name="quickly"/> false every variant's home is read anew, the slow way that the quick one is held against.</summary>
    internal static SweepReading Read(string path, bool quickly)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var problems = new ProblemList();
        SweepReading? reading = Read(path, problems, quickly);
        problems.ThrowIfAny();
        return reading!;
    }

    private static SweepReading? Read(string path, ProblemList problems, bool quickly)
    {
        if (YamlMap.Open(path, SweepSections.Sweep, problems) is not YamlMap map) return null;
        string[] homes = Files(map, "homes"), tariffs = Files(map, "tariffs");
        if (map.Has("homes") && homes.Length == 0 && problems.Count == 0) map.ReportWhole("homes", "there is no home");
        IReadOnlyList<YamlMap> inputMaps = map.Maps("inputs", SweepSections.Input);
        SweepInput[] inputs = [.. inputMaps.Select(InputReader.Read).OfType<SweepInput>()];
        foreach (string twice in inputs.GroupBy(i => i.Name).Where(g => g.Count() > 1).Select(g => g.Key)) map.ReportWhole("inputs", $"two inputs are called {twice}");
        SweepDesign design = map.Text("design")?.Choice(
            ("grid", SweepDesign.Grid), ("one-at-a-time", SweepDesign.OneAtATime), ("latin-hypercube", SweepDesign.LatinHypercube), ("sobol", SweepDesign.Sobol),
            ("sobol-indices", SweepDesign.SobolIndices)) ?? SweepDesign.Grid;
        int? points = map.Text("points")?.Whole(1, SweepPlan.MostVariants);
        int seed = map.Text("seed")?.Whole(0) ?? 1;
        bool samples = design is not (SweepDesign.Grid or SweepDesign.OneAtATime);
        if (samples && !map.Has("points")) map.ReportHere("a sampled design needs points, how many are taken for each home and tariff");
        if (!samples && map.Has("points")) map.ReportWhole("points", "only a sampled design takes a number of points");
        if (problems.Count > 0) return null;
        string[] names = NamesOf(homes);
        var plan = new SweepPlan
        {
            Name = map.Name("sweep"),
            Homes = names,
            Tariffs = NamesOf(tariffs),
            Inputs = inputs,
            Design = design,
            Points = points ?? 0,
            Seed = (ulong)seed,
            Outputs = [],
        };
        if (SweepVariants.FaultOf(plan) is string fault) map.ReportHere(char.ToLowerInvariant(fault[0]) + fault[1..].TrimEnd('.'));
        if (problems.Count > 0 || SweepHomes.Read(plan, homes, tariffs, inputMaps, problems, quickly) is not SweepHomes read) return null;
        plan = plan with { Outputs = ReadOutputs(map, read.Offers) };
        return problems.Count > 0 ? null : new SweepReading(plan, read, SweepHash.Of(path, homes, tariffs));
    }

    // A star in the last part of a path stands for every file that fits, in order of name.
    private static string[] Files(YamlMap map, string key)
    {
        var files = new List<string>();
        foreach (YamlText text in map.Texts(key))
        {
            string path = HomeFile.Beside(map.File, text.Value), folder = Path.GetDirectoryName(path) is { Length: > 0 } f ? f : ".";
            if (!path.Contains('*', StringComparison.Ordinal)) files.Add(path);
            else if (!Directory.Exists(folder)) text.Report("is in no folder that there is");
            else if (Directory.GetFiles(folder, Path.GetFileName(path)) is { Length: > 0 } found) files.AddRange(found.Order(StringComparer.Ordinal));
            else text.Report("fits no file");
        }
        if (files.Count > MostHomes) map.ReportWhole(key, FormattableString.Invariant($"there are {files.Count:N0} files; at most {MostHomes:N0} are read"));
        return [.. files];
    }

    // The file's name alone, where that tells all apart.
    private static string[] NamesOf(string[] files)
    {
        string[] names = [.. files.Select(f => Path.GetFileNameWithoutExtension(f))];
        return names.Distinct().Count() == names.Length ? names : files;
    }

    private static List<SweepOutput> ReadOutputs(YamlMap map, IReadOnlyList<string> offers)
    {
        var outputs = new List<SweepOutput>();
        string[] columns = [Installation.AsItIs, .. offers];
        foreach (YamlText text in map.Texts("outputs"))
        {
            int dot = text.Value.LastIndexOf('.');
            string name = text.Value[(dot + 1)..];
            SweepMeasure? measure = SweepMeasure.All.FirstOrDefault(m => m.Name == name);
            string? offer = dot < 0 ? null : columns.FirstOrDefault(o => PathName.Of(o) == PathName.Of(text.Value[..dot]));
            if (measure is null) text.Report($"asks for no figure that there is{(Nearest.Hint(name, SweepMeasure.All.Select(m => m.Name)) is { Length: > 0 } hint ? hint : $"; there are {string.Join(", ", SweepMeasure.All.Select(m => m.Name))}")}");
            else if (dot >= 0 && offer is null) text.Report($"names no offer of these homes; there are {string.Join(", ", columns.Select(PathName.Of))}");
            else if (offer == Installation.AsItIs && !measure.HasAsItIs) text.Report("is a figure of offers, not of the home as it is");
            else outputs.Add(new SweepOutput(offer, measure));
        }
        if (outputs.Count == 0 && map.Problems.Count == 0) map.ReportWhole("outputs", "there is no output");
        return outputs;
    }
}
