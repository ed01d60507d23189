using System.Text.RegularExpressions;
using EnergySim.TestData;

namespace EnergySim.Tests;

/// <summary>Which rooms (namespaces) of a project name types of which others, read from the source: comments do not count.</summary>
internal sealed partial class RoomGraph
{
    private readonly Dictionary<string, HashSet<string>> _knows = new(StringComparer.Ordinal);

    /// <param name="project">The project's folder below <c>src</c>.</param>
    public RoomGraph(string project)
    {
        string folder = Path.Combine(SharedData.RepositoryRoot, "src", project), objects = $"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}";
        var files = Directory.GetFiles(folder, "*.cs", SearchOption.AllDirectories).Where(f => !f.Contains(objects, StringComparison.Ordinal))
            .Select(f => Comment().Replace(File.ReadAllText(f), "")).Select(text => (Room: Room().Match(text).Groups[1].Value, Text: text)).Where(f => f.Room.Length > 0).ToList();
        Files = files.Count;
        var homes = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        foreach ((string room, string text) in files)
            foreach (Match type in Type().Matches(text))
                (homes.TryGetValue(type.Groups[1].Value, out List<string>? rooms) ? rooms : homes[type.Groups[1].Value] = []).Add(room);
        foreach ((string room, string text) in files)
        {
            if (!_knows.TryGetValue(room, out HashSet<string>? known)) _knows[room] = known = new HashSet<string>(StringComparer.Ordinal);
            var opened = Using().Matches(text).Select(u => u.Groups[1].Value).ToHashSet(StringComparer.Ordinal);
            foreach (string word in Word().Matches(text).Select(w => w.Value).Distinct())
                if (homes.TryGetValue(word, out List<string>? rooms))
                    known.UnionWith(rooms.Where(other => other != room && (opened.Contains(other) || room.StartsWith(other + ".", StringComparison.Ordinal))));
        }
    }

    /// <summary>Number of source files read.</summary>
    public int Files { get; }

    /// <summary>A way that leads from a room back to itself; empty = there is none.</summary>
    public IReadOnlyList<string> Cycle()
    {
        var done = new HashSet<string>(StringComparer.Ordinal);
        foreach (string room in _knows.Keys.Order(StringComparer.Ordinal))
            if (Back(room, [], done) is { } way) return way;
        return [];
    }

    private List<string>? Back(string room, List<string> way, HashSet<string> done)
    {
        if (way.IndexOf(room) is >= 0 and var at) return [.. way[at..], room];
        if (done.Contains(room) || !_knows.TryGetValue(room, out HashSet<string>? known)) return null;
        way.Add(room);
        foreach (string other in known.Order(StringComparer.Ordinal))
            if (Back(other, way, done) is { } found) return found;
        way.RemoveAt(way.Count - 1);
        done.Add(room);
        return null;
    }

    [GeneratedRegex(@"//.*")]
    private static partial Regex Comment();

    [GeneratedRegex(@"^namespace ([\w.]+);", RegexOptions.Multiline)]
    private static partial Regex Room();

    [GeneratedRegex(@"^using ([\w.]+);", RegexOptions.Multiline)]
    private static partial Regex Using();

    [GeneratedRegex(@"^(?:public|internal)[\w ]*? (?:class|struct|record|enum|interface|delegate \w+) (\w+)", RegexOptions.Multiline)]
    private static partial Regex Type();

    [GeneratedRegex(@"\b[A-Z]\w+\b")]
    private static partial Regex Word();
}
