using System.Globalization;
using EnergySim.Studies.Sweeps;
using YamlDotNet.RepresentationModel;

namespace EnergySim.Files;

/// <summary>A place for one value in parsed YAML: a value that stands there, or a key that a mapping does not have yet.</summary>
internal sealed record YamlPlace(YamlScalarNode? Value, YamlMappingNode? Map, string Key)
{
    /// <summary>Puts a text there. A value that stands keeps its line.</summary>
    public void Put(string text)
    {
        if (Value is not null) Value.Value = text;
        else Map!.Children[new YamlScalarNode(Key)] = new YamlScalarNode(text);
    }
}

/// <summary>
/// Paths of keys through parsed YAML: <c>offers.two-batteries.strategy.reserve</c>. An item of a list is named by its number from 1, by its
/// first value, or by its first values joined (<c>summer-peak</c>), each as <see cref="PathName"/> writes it; <c>*</c> is every item or key.
/// </summary>
internal static class YamlPath
{
    /// <summary>The places that a path leads to; none, with the sentence's end that says why, when it leads nowhere.</summary>
    public static IReadOnlyList<YamlPlace> Find(YamlMappingNode root, IReadOnlyList<string> path, out string? fault)
    {
        fault = null;
        var at = new List<YamlNode> { root };
        for (int i = 0; i < path.Count - 1; i++)
        {
            var next = new List<YamlNode>();
            foreach (YamlNode node in at)
            {
                if (Children(node, path[i], out fault) is not { } children) return [];
                if (children.Count == 0 && node is YamlMappingNode map && path[i] != "*") children = [AddedMap(map, path[i])];
                next.AddRange(children);
            }
            at = next;
        }
        var places = new List<YamlPlace>();
        foreach (YamlNode node in at)
        {
            if (Children(node, path[^1], out fault) is not { } last) return [];
            if (last.Count == 0 && node is YamlMappingNode map && path[^1] != "*") places.Add(new YamlPlace(null, map, path[^1]));
            foreach (YamlNode child in last)
            {
                if (child is YamlScalarNode value)
                {
                    places.Add(new YamlPlace(value, null, path[^1]));
                    continue;
                }
                fault = child is YamlMappingNode several ? $"holds several values; name one of {string.Join(", ", several.Children.Keys)}" : "holds a list; name one item";
                return [];
            }
        }
        if (places.Count == 0) fault = "leads to no value";
        return places;
    }

    private static YamlMappingNode AddedMap(YamlMappingNode map, string key)
    {
        var added = new YamlMappingNode();
        map.Children[new YamlScalarNode(key)] = added;
        return added;
    }

    // Null, with a fault, where the path can not go on; none where a mapping lacks the key.
    private static List<YamlNode>? Children(YamlNode node, string segment, out string? fault)
    {
        fault = null;
        switch (node)
        {
            case YamlMappingNode map when segment == "*":
                return [.. map.Children.Values];
            case YamlMappingNode map:
                YamlNode? value = map.Children.TryGetValue(new YamlScalarNode(segment), out YamlNode? exact) ? exact
                    : map.Children.FirstOrDefault(c => PathName.Of(TextOf(c.Key)) == PathName.Of(segment)).Value;
                return value is null ? [] : [value];
            case YamlSequenceNode list when segment == "*":
                return [.. list.Children];
            case YamlSequenceNode list:
                return Items(list, segment, out fault);
            case YamlScalarNode { Value: null or "" } when segment == "*":
                return [];
            default:
                fault = $"ends before {segment}: a single value stands there";
                return null;
        }
    }

    private static List<YamlNode>? Items(YamlSequenceNode list, string segment, out string? fault)
    {
        fault = null;
        if (int.TryParse(segment, NumberStyles.None, CultureInfo.InvariantCulture, out int number) && number >= 1 && number <= list.Children.Count) return [list.Children[number - 1]];
        string name = PathName.Of(segment);
        YamlNode[] named = [.. list.Children.Where(n => NamesOf(n).Contains(name))];
        if (named.Length == 1) return [named[0]];
        string[] known = [.. list.Children.Select(n => NamesOf(n).LastOrDefault("")).Where(n => n.Length > 0)];
        fault = named.Length > 1
            ? string.Create(CultureInfo.InvariantCulture, $"names {named.Length} items with {segment}; give the item's number")
            : $"names no item with {segment}{(Nearest.Hint(name, known) is { Length: > 0 } hint ? hint : $"; there are {string.Join(", ", known)}")}";
        return null;
    }

    // The first value, and the values that come first joined, as far as they are single.
    private static IEnumerable<string> NamesOf(YamlNode item)
    {
        if (item is YamlScalarNode alone) return [PathName.Of(alone.Value ?? "")];
        if (item is not YamlMappingNode map) return [];
        string[] first = [.. map.Children.Values.TakeWhile(v => v is YamlScalarNode).Select(TextOf)];
        return first.Length switch
        {
            0 => [],
            1 => [PathName.Of(first[0])],
            _ => [PathName.Of(string.Join(' ', first.Take(2))), PathName.Of(first[0])],
        };
    }

    private static string TextOf(YamlNode node) => (node as YamlScalarNode)?.Value ?? "";
}
