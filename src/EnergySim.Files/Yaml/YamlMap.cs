using System.Globalization;
using YamlDotNet.Core;
using YamlDotNet.RepresentationModel;

namespace EnergySim.Files;

/// <summary>
/// One mapping of a YAML file, read key by key. What does not fit is added to the problems with its line and column, and reads as
/// absent, so that one pass finds everything.
/// </summary>
internal sealed partial class YamlMap
{
    internal const int MostNesting = 100;

    private readonly Dictionary<string, (YamlNode Key, YamlNode Value)> _entries;
    private readonly ProblemList _problems;
    private readonly Mark _at;

    private YamlMap(string file, string path, Mark at, Dictionary<string, (YamlNode Key, YamlNode Value)> entries, ProblemList problems) =>
        (File, Path, _at, _entries, _problems) = (file, path, at, entries, problems);

    /// <summary>The file.</summary>
    public string File { get; }

    /// <summary>Path of keys that leads here; empty at the top.</summary>
    public string Path { get; }

    /// <summary>Where problems go: also those of a file that this one names.</summary>
    public ProblemList Problems => _problems;

    /// <summary>How often something was reported so far, anywhere; the same before and after = sound.</summary>
    public int Reported => _problems.Reported;

    /// <summary>The keys, in order.</summary>
    public IEnumerable<string> Keys => _entries.Keys;

    /// <summary>Opens a file; null, with problems, when it is no YAML mapping.</summary>
    /// <param name="file">The file.</param>
    /// <param name="section">Its keys.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="change">Changes the parsed file before it is read; null = as it stands.</param>
    public static YamlMap? Open(string file, Section section, ProblemList problems, Action<YamlMappingNode>? change = null)
    {
        if (RootOf(file, problems) is not YamlMappingNode root) return null;
        change?.Invoke(root);
        return Of(file, "", root, section, problems);
    }

    /// <summary>The parsed mapping that a file holds; null, with problems, when it is no YAML mapping.</summary>
    public static YamlMappingNode? RootOf(string file, ProblemList problems)
    {
        if (InputText.Read(file, problems) is not string text) return null;
        var stream = new YamlStream();
        try
        {
            if (IsTooDeep(text))
            {
                problems.Add(new Problem { File = file, Rule = $"mappings and lists lie more than {MostNesting} deep in each other" });
                return null;
            }
            stream.Load(new StringReader(text));
        }
        catch (YamlException e)
        {
            problems.Add(new Problem { File = file, Line = (int)e.Start.Line, Column = (int)e.Start.Column, Rule = Sentence(e) });
            return null;
        }
        catch (InvalidOperationException)
        {
            // What the parser throws at some unfinished lists, without a place.
            problems.Add(new Problem { File = file, Rule = "the text is not YAML; a bracket or quote may be open" });
            return null;
        }
        if (stream.Documents.Count == 1 && stream.Documents[0].RootNode is YamlMappingNode root) return root;
        problems.Add(new Problem { File = file, Line = 1, Rule = "the file must be one mapping of keys to values" });
        return null;
    }

    // The loader calls itself for each level, so that a file of brackets alone could end the program.
    internal static bool IsTooDeep(string text)
    {
        var parser = new Parser(new StringReader(text));
        int depth = 0;
        while (depth <= MostNesting && parser.MoveNext()) depth += parser.Current!.NestingIncrease;
        return depth > MostNesting;
    }

    /// <summary>The mapping with the keys of another laid over its own.</summary>
    public YamlMap OverriddenBy(YamlMap other)
    {
        var entries = new Dictionary<string, (YamlNode, YamlNode)>(_entries);
        foreach ((string key, (YamlNode, YamlNode) entry) in other._entries) entries[key] = entry;
        return new YamlMap(File, other.Path, other._at, entries, _problems);
    }

    public bool Has(string key) => _entries.ContainsKey(key);

    /// <summary>A mapping with stated keys.</summary>
    public YamlMap? Map(string key, Section? section)
    {
        if (!_entries.TryGetValue(key, out (YamlNode Key, YamlNode Value) entry)) return null;
        if (entry.Value is YamlMappingNode node) return Of(File, Join(key), node, section, _problems);
        Report(key, "is not a mapping of keys to values");
        return null;
    }

    /// <summary>A list of mappings with stated keys.</summary>
    public IReadOnlyList<YamlMap> Maps(string key, Section section) => Items(key, (node, path) =>
    {
        if (node is YamlMappingNode map) return Of(File, path, map, section, _problems);
        ReportAt(node.Start, path, TextOf(node), "is not a mapping of keys to values");
        return null;
    });

    /// <summary>A list of texts; one text alone is a list of one.</summary>
    public IReadOnlyList<YamlText> Texts(string key) => Items(key, (node, path) =>
    {
        if (node is YamlScalarNode { Value: { Length: > 0 } value }) return new YamlText(this, path, node.Start, value);
        ReportAt(node.Start, path, TextOf(node), node is YamlScalarNode ? "is empty" : "is not a single value");
        return null;
    });

    /// <summary>A list of lists of texts.</summary>
    public IReadOnlyList<IReadOnlyList<YamlText>> Rows(string key) => Items(key, (node, path) =>
    {
        if (node is YamlSequenceNode row && row.Children.All(n => n is YamlScalarNode { Value.Length: > 0 }))
            return (IReadOnlyList<YamlText>)[.. row.Children.Select(n => new YamlText(this, path, n.Start, ((YamlScalarNode)n).Value!))];
        ReportAt(node.Start, path, TextOf(node), "is not a list of values");
        return null;
    });

    /// <summary>One value as text.</summary>
    public YamlText? Text(string key)
    {
        if (!_entries.TryGetValue(key, out (YamlNode Key, YamlNode Value) entry)) return null;
        if (entry.Value is YamlScalarNode { Value: { Length: > 0 } value }) return new YamlText(this, Join(key), entry.Value.Start, value);
        // A text that may well be empty says so with quotes.
        if (entry.Value is YamlScalarNode { Style: ScalarStyle.DoubleQuoted or ScalarStyle.SingleQuoted }) return new YamlText(this, Join(key), entry.Value.Start, "");
        if (entry.Value is YamlScalarNode) ReportAt(entry.Key.Start, Join(key), null, "has no value; leave the key out or state one");
        else Report(key, "is not a single value");
        return null;
    }

    /// <summary>True when the key holds a mapping.</summary>
    public bool IsMap(string key) => _entries.TryGetValue(key, out (YamlNode Key, YamlNode Value) entry) && entry.Value is YamlMappingNode;

    /// <summary>Reports a fault of a key that is there (its value is quoted), or of the mapping that lacks it.</summary>
    public void Report(string key, string rule)
    {
        if (_entries.TryGetValue(key, out (YamlNode Key, YamlNode Value) entry)) ReportAt(entry.Value.Start, Join(key), TextOf(entry.Value), rule);
        else ReportAt(_at, Path.Length == 0 ? null : Path, null, rule);
    }

    /// <summary>Reports a fault of a key's whole content, with no value quoted.</summary>
    public void ReportWhole(string key, string rule) =>
        ReportAt(_entries.TryGetValue(key, out (YamlNode Key, YamlNode Value) entry) ? entry.Key.Start : _at, Join(key), null, rule);

    /// <summary>Reports a fault of the mapping itself.</summary>
    public void ReportHere(string rule) => ReportAt(_at, Path.Length == 0 ? null : Path, null, rule);

    public void ReportAt(Mark at, string? path, string? value, string rule) => _problems.Add(new Problem
    {
        File = File,
        Line = (int)at.Line,
        Column = (int)at.Column,
        Field = path,
        Value = value,
        Rule = rule,
    });

    private static YamlMap Of(string file, string path, YamlMappingNode node, Section? section, ProblemList problems)
    {
        var entries = new Dictionary<string, (YamlNode, YamlNode)>(StringComparer.Ordinal);
        var map = new YamlMap(file, path, node.Start, entries, problems);
        foreach ((YamlNode key, YamlNode value) in node.Children)
        {
            string name = TextOf(key) ?? "";
            entries[name] = (key, value);
            if (section is null || section.Keys.Contains(name)) continue;
            string hint = Nearest.Hint(name, section.Keys);
            map.ReportAt(key.Start, path.Length == 0 ? null : path, name, $"is not a key here{(hint.Length > 0 ? hint : $"; the keys are {string.Join(", ", section.Keys)}")}");
        }
        foreach (string key in section?.Required ?? [])
            if (!entries.ContainsKey(key)) map.ReportHere($"{key} is missing");
        return map;
    }

    private List<T> Items<T>(string key, Func<YamlNode, string, T?> read) where T : class
    {
        var items = new List<T>();
        if (!_entries.TryGetValue(key, out (YamlNode Key, YamlNode Value) entry)) return items;
        IEnumerable<YamlNode> nodes = entry.Value is YamlSequenceNode list ? list.Children : [entry.Value];
        int number = 0;
        foreach (YamlNode node in nodes)
            if (read(node, string.Create(CultureInfo.InvariantCulture, $"{Join(key)}[{++number}]")) is T item) items.Add(item);
        return items;
    }

    private string Join(string key) => Path.Length == 0 ? key : $"{Path}.{key}";

    private static string? TextOf(YamlNode node) => (node as YamlScalarNode)?.Value;

    private static string Sentence(YamlException e) => e.Message.Contains("uplicate key", StringComparison.Ordinal)
        ? "a key stands twice in this mapping"
        : $"the text is not YAML ({e.Message.TrimEnd('.')})";
}
