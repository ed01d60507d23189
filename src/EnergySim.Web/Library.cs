using System.Globalization;
using EnergySim.Files;

namespace EnergySim.Web;

/// <summary>
/// The files that the page may read and write: the library's folder, the bundled demo, and what was dropped on the page. A file is called
/// <c>area/path</c>; no path leads out of its area, links followed.
/// </summary>
internal sealed class Library : IDisposable
{
    /// <summary>The area that is written to.</summary>
    public const string Own = "library";

    private const string Demo = "demo", Dropped = "drop-";
    private const int MostListed = 500;

    private readonly string _own, _demo, _drops;

    public Library(ServeOptions options)
    {
        (_own, _demo) = (Path.GetFullPath(options.Folder), Path.GetFullPath(options.DemoFolder));
        _drops = Directory.CreateTempSubdirectory("energysim-").FullName;
    }

    /// <summary>The folders that may be read.</summary>
    public IReadOnlyList<string> Folders => [_own, _demo, _drops];

    /// <summary>The path of a named file.</summary>
    /// <param name="name">Its area and path.</param>
    /// <param name="forWriting">True when it is to be written: then only the library will do.</param>
    /// <exception cref="ArgumentException">The name leads nowhere in its area.</exception>
    public string PathOf(string name, bool forWriting = false)
    {
        string[] parts = name.Split('/');
        bool isSound = parts.Length >= 2 && parts.All(p => p.Length is > 0 and < 200 && p[0] != '.' && !p.Any(c => c is '\\' or ':' || char.IsControl(c)));
        string? area = isSound ? AreaOf(parts[0]) : null;
        if (area is null || (forWriting && parts[0] != Own)) throw new ArgumentException($"\"{name}\" names no file of the {(forWriting ? "library" : "library, the demo or what was dropped")}.");
        string path = Path.Combine([area, .. parts[1..]]);
        return WholeFile.IsWithin(area, path) ? path : throw new ArgumentException($"\"{name}\" lies outside its folder.");
    }

    /// <summary>The files with an ending in the library and the demo whose text begins a line with a key.</summary>
    public IEnumerable<(string Name, string Title)> With(string key)
    {
        foreach ((string area, string root) in new[] { (Own, _own), (Demo, _demo) })
            foreach (string path in Directory.EnumerateFiles(root, "*.yaml", new EnumerationOptions { RecurseSubdirectories = true, MaxRecursionDepth = 3, AttributesToSkip = FileAttributes.Hidden | FileAttributes.ReparsePoint })
                .Order(StringComparer.Ordinal).Take(MostListed))
            {
                string? line = File.ReadLines(path).Take(200).FirstOrDefault(l => l.StartsWith(key + ":", StringComparison.Ordinal));
                if (line is not null) yield return ($"{area}/{Path.GetRelativePath(root, path).Replace('\\', '/')}", line[(key.Length + 1)..].Trim().Trim('"', '\''));
            }
    }

    /// <summary>True for a path in the library.</summary>
    public bool IsOwn(string path) => WholeFile.IsWithin(_own, path);

    /// <summary>Path of a catalogue plan by its file name; null = there is none.</summary>
    public string? InCatalogue(string name)
    {
        string path = Path.Combine(_demo, "tariffs", name);
        return WholeFile.IsWithin(_demo, path) && File.Exists(path) ? path : null;
    }

    /// <summary>An empty folder for files that are dropped, and the name of its area.</summary>
    public (string Area, string Folder) NewDrop()
    {
        string id = Guid.NewGuid().ToString("N", CultureInfo.InvariantCulture)[..12];
        return (Dropped + id, Directory.CreateDirectory(Path.Combine(_drops, id)).FullName);
    }

    /// <summary>The sentences of problems, with files as the page names them.</summary>
    public IReadOnlyList<string> Told(ProblemsException problems)
    {
        string[] told = [.. problems.Problems.Select(p => (p with { File = NameOf(p.File) }).ToString())];
        return problems.More == 0 ? told : [.. told, string.Create(CultureInfo.InvariantCulture, $"and {problems.More} more.")];
    }

    /// <summary>What the page calls a file: its path within its area.</summary>
    public string NameOf(string path)
    {
        string full = Path.GetFullPath(path);
        foreach (string root in Folders)
        {
            if (!full.StartsWith(root + Path.DirectorySeparatorChar, StringComparison.Ordinal)) continue;
            string within = Path.GetRelativePath(root, full).Replace('\\', '/');
            return root == _drops ? within[(within.IndexOf('/', StringComparison.Ordinal) + 1)..] : within;
        }
        return Path.GetFileName(path);
    }

    public void Dispose()
    {
        if (Directory.Exists(_drops)) Directory.Delete(_drops, recursive: true);
    }

    private string? AreaOf(string area)
    {
        if (area == Own) return _own;
        if (area == Demo) return _demo;
        if (!area.StartsWith(Dropped, StringComparison.Ordinal) || !area[Dropped.Length..].All(char.IsAsciiHexDigitLower)) return null;
        string folder = Path.Combine(_drops, area[Dropped.Length..]);
        return area.Length > Dropped.Length && Directory.Exists(folder) ? folder : null;
    }
}
