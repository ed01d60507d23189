using System.Globalization;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;
using YamlDotNet.RepresentationModel;

namespace EnergySim.Files;

/// <summary>
/// Changes single values in the text of a YAML file: comments, order, spacing and all other bytes stay. What was changed is read again, and must be
/// the old content with those values and nothing else.
/// </summary>
internal static class YamlEdit
{
    /// <summary>The text with values set.</summary>
    /// <param name="text">A YAML mapping.</param>
    /// <param name="changes">Paths of keys, <c>#name</c> being the entry of a list whose first key has that value; and new values, written as they are.</param>
    /// <exception cref="ArgumentException">A path leads through something that is no mapping, or to no entry of a list.</exception>
    public static string With(string text, IReadOnlyList<(IReadOnlyList<string> Path, string Value)> changes)
    {
        foreach ((IReadOnlyList<string> path, string value) in changes)
        {
            string changed = Set(text, path, value);
            CheckOnlyThat(text, changed, path, value);
            text = changed;
        }
        return text;
    }

    /// <summary>Every single value: the path to it, and the text that stands there.</summary>
    public static IReadOnlyList<(string Path, string Value)> Values(string text)
    {
        var values = new List<(string, string)>();
        Walk(Root(text), "", values);
        return values;
    }

    /// <summary>The text with the single values that a rule rewrites replaced; null from the rule = it stays.</summary>
    public static string Rewritten(string text, Func<string, string?> rule)
    {
        var scalars = new List<YamlScalarNode>();
        Gather(Root(text), scalars);
        foreach (YamlScalarNode scalar in scalars.OrderByDescending(s => s.Start.Index))
            if (rule(scalar.Value ?? "") is string value) text = Replace(text, scalar, Quoted(value));
        return text;
    }

    /// <summary>A value as it must be written where its letters could mean something else.</summary>
    public static string Quoted(string value) =>
        value.Length > 0 && value.All(c => char.IsAsciiLetterOrDigit(c) || c is '_' or '-' or '.' or '/' or ' ') && value.Trim() == value && value[0] is not ('-' or '.' or ' ') ? value
            : "\"" + value.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal).Replace("\r", "\\r", StringComparison.Ordinal).Replace("\t", "\\t", StringComparison.Ordinal) + "\"";

    private static YamlMappingNode Root(string text)
    {
        var stream = new YamlStream();
        try
        {
            if (YamlMap.IsTooDeep(text)) throw new ArgumentException($"Mappings and lists lie more than {YamlMap.MostNesting} deep in each other.");
            stream.Load(new StringReader(text));
        }
        catch (Exception fault) when (fault is YamlException or InvalidOperationException)
        {
            throw new ArgumentException($"The text is not YAML: {fault.Message}", fault);
        }
        return stream.Documents.Count == 1 && stream.Documents[0].RootNode is YamlMappingNode root ? root : throw new ArgumentException("The file is not one mapping of keys to values.");
    }

    private static string Set(string text, IReadOnlyList<string> path, string value)
    {
        YamlNode node = Root(text);
        for (int i = 0; i < path.Count; i++)
        {
            if (path[i].StartsWith('#'))
            {
                node = (node as YamlSequenceNode)?.Children.OfType<YamlMappingNode>().FirstOrDefault(m => m.Children.Any(c => c.Value is YamlScalarNode s && s.Value == path[i][1..]))
                    ?? throw new ArgumentException($"{string.Join('.', path.Take(i))}: there is no entry called \"{path[i][1..]}\".");
                continue;
            }
            if (node is not YamlMappingNode map) throw new ArgumentException($"{string.Join('.', path.Take(i))}: it is no mapping, so that {path[i]} can not be set in it.");
            KeyValuePair<YamlNode, YamlNode> entry = map.Children.FirstOrDefault(c => c.Key is YamlScalarNode k && k.Value == path[i]);
            if (entry.Value is null) return Insert(text, map, path.Skip(i), value);
            node = entry.Value;
        }
        return node is YamlScalarNode scalar ? Replace(text, scalar, value) : throw new ArgumentException($"{string.Join('.', path)}: it is no single value.");
    }

    private static string Replace(string text, YamlScalarNode scalar, string value)
    {
        (int from, int to) = ((int)scalar.Start.Index, (int)scalar.End.Index);
        // An empty value stands behind its colon without a space of its own.
        return text[..from] + (from == to ? " " : "") + value + text[to..];
    }

    private static string Insert(string text, YamlMappingNode map, IEnumerable<string> keys, string value)
    {
        string[] path = [.. keys];
        string entry = value;
        for (int i = path.Length - 1; i > 0; i--) entry = $"{{{path[i]}: {entry}}}";
        entry = $"{path[0]}: {entry}";
        if (map.Style == MappingStyle.Flow)
        {
            int close = text.LastIndexOf('}', (int)map.End.Index - 1), behind = close;
            while (char.IsWhiteSpace(text[behind - 1])) behind--;
            return text[..behind] + (map.Children.Count > 0 ? ", " : "") + entry + text[behind..];
        }
        int column = (int)map.Children.First().Key.Start.Column - 1, last = (int)Leaf(map).End.Index;
        while (last < text.Length && text[last] != '\n') last++;
        string head = text[..last], tail = text[last..];
        return head + (head.EndsWith('\n') ? "" : "\n") + new string(' ', column) + entry + (tail.Length == 0 ? "\n" : tail);
    }

    // The end of a block mapping lies behind the comments that follow it; the end of its last value does not.
    private static YamlNode Leaf(YamlNode node) => node switch
    {
        YamlMappingNode { Style: not MappingStyle.Flow, Children.Count: > 0 } map => Leaf(map.Children[map.Children.Count - 1].Value),
        YamlSequenceNode { Style: not SequenceStyle.Flow, Children.Count: > 0 } list => Leaf(list.Children[^1]),
        _ => node,
    };

    private static void CheckOnlyThat(string before, string after, IReadOnlyList<string> path, string value)
    {
        var old = new HashSet<(string, string)>(Values(before));
        (string Path, string Value)[] more = [.. Values(after).Where(v => !old.Contains(v))];
        bool isSound = Values(after).Count - old.Count is 0 or 1 && more.Length <= 1 && more.All(v => v.Path.EndsWith("." + path[^1], StringComparison.Ordinal));
        if (!isSound) throw new ArgumentException($"{string.Join('.', path)}: it can not be set to {value} without touching more of the file; change it by hand.");
    }

    private static void Walk(YamlNode node, string path, List<(string, string)> values)
    {
        switch (node)
        {
            case YamlMappingNode map:
                foreach ((YamlNode key, YamlNode value) in map.Children) Walk(value, $"{path}.{(key as YamlScalarNode)?.Value}", values);
                break;
            case YamlSequenceNode list:
                for (int i = 0; i < list.Children.Count; i++) Walk(list.Children[i], string.Create(CultureInfo.InvariantCulture, $"{path}[{i}]"), values);
                break;
            case YamlScalarNode scalar:
                values.Add((path, scalar.Value ?? ""));
                break;
        }
    }

    private static void Gather(YamlNode node, List<YamlScalarNode> scalars)
    {
        if (node is YamlMappingNode map) foreach (YamlNode value in map.Children.Values) Gather(value, scalars);
        else if (node is YamlSequenceNode list) foreach (YamlNode value in list.Children) Gather(value, scalars);
        else if (node is YamlScalarNode scalar) scalars.Add(scalar);
    }
}
