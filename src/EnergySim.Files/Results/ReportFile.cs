using System.Text.Json;
using EnergySim.Studies.Findings;

namespace EnergySim.Files;

/// <summary>A report's JSON document as it was written.</summary>
public sealed class ReportFile
{
    private readonly JsonElement _root;

    private ReportFile(JsonElement root, ReportManifest manifest) => (_root, Manifest) = (root, manifest);

    /// <summary>What it was made from.</summary>
    public ReportManifest Manifest { get; }

    /// <summary>Reads a document.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="ProblemsException">It can not be read, or is no report.</exception>
    public static ReportFile Read(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var problems = new ProblemList();
        string? text = InputText.Read(path, problems);
        problems.ThrowIfAny();
        try
        {
            using JsonDocument document = JsonDocument.Parse(text!);
            return Of(document.RootElement.Clone());
        }
        catch (JsonException fault)
        {
            problems.Add(new Problem { File = path, Line = (int)(fault.LineNumber ?? 0) + 1, Rule = "the text is not JSON" });
        }
        catch (Exception fault) when (fault is KeyNotFoundException or InvalidOperationException)
        {
            problems.Add(new Problem { File = path, Field = ReportJson.Manifest, Rule = "the file is no report of this program: it must say its program version, options and inputs" });
        }
        problems.ThrowIfAny();
        throw new InvalidOperationException("A problem was told.");
    }

    /// <summary>A document that has just been written.</summary>
    /// <param name="write">Writes it.</param>
    public static ReportFile Of(Action<Stream> write)
    {
        ArgumentNullException.ThrowIfNull(write);
        using var stream = new MemoryStream();
        write(stream);
        stream.Position = 0;
        using JsonDocument document = JsonDocument.Parse(stream);
        return Of(document.RootElement.Clone());
    }

    /// <summary>Where the figures of another document are not these, in the order of this one.</summary>
    /// <param name="now">The other.</param>
    /// <param name="figures">How many figures were compared.</param>
    public IReadOnlyList<FigureDifference> DifferencesTo(ReportFile now, out int figures)
    {
        ArgumentNullException.ThrowIfNull(now);
        Dictionary<string, string> mine = Figures(_root), other = Figures(now._root);
        figures = mine.Count;
        return
        [
            .. mine.Where(f => !other.TryGetValue(f.Key, out string? value) || value != f.Value).Select(f => new FigureDifference(f.Key, f.Value, other.GetValueOrDefault(f.Key))),
            .. other.Where(f => !mine.ContainsKey(f.Key)).Select(f => new FigureDifference(f.Key, null, f.Value)),
        ];
    }

    private static ReportFile Of(JsonElement root)
    {
        JsonElement manifest = root.GetProperty(ReportJson.Manifest);
        InputDigest[] inputs = [.. manifest.GetProperty("inputs").EnumerateArray().Select(i => new InputDigest(i.GetProperty("path").GetString() ?? "", i.GetProperty("sha256").GetString() ?? ""))];
        if (inputs.Length == 0) throw new KeyNotFoundException("inputs");
        return new ReportFile(root, new ReportManifest
        {
            ProgramVersion = manifest.GetProperty("programVersion").GetString() ?? "",
            Dated = manifest.GetProperty("dated").GetString(),
            Options = [.. manifest.GetProperty("options").EnumerateObject().Select(o => (o.Name, o.Value.GetString() ?? ""))],
            Inputs = inputs,
        });
    }

    private static Dictionary<string, string> Figures(JsonElement root)
    {
        var found = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (JsonProperty part in root.EnumerateObject())
            if (part.Name != ReportJson.Manifest) Walk(part.Name, part.Value);
        return found;

        void Walk(string path, JsonElement value)
        {
            switch (value.ValueKind)
            {
                case JsonValueKind.Object:
                    foreach (JsonProperty part in value.EnumerateObject()) Walk($"{path}.{part.Name}", part.Value);
                    break;
                case JsonValueKind.Array:
                    int index = 0;
                    foreach (JsonElement part in value.EnumerateArray()) Walk(FormattableString.Invariant($"{path}[{index++}]"), part);
                    break;
                default:
                    // A key said twice would hide one of its values.
                    found[path] = found.TryGetValue(path, out string? before) ? before + ", " + value.GetRawText() : value.GetRawText();
                    break;
            }
        }
    }
}

/// <summary>A figure that is not the same in two documents.</summary>
/// <param name="Figure">Its path: keys joined by points, places in lists from 0.</param>
/// <param name="Report">In the first; null = not there.</param>
/// <param name="Now">In the second; null = not there.</param>
public sealed record FigureDifference(string Figure, string? Report, string? Now);
