using System.Text;
using EnergySim.Files;
using EnergySim.Studies.Visit;

namespace EnergySim.Web;

/// <summary>What is to be saved, and where.</summary>
internal sealed record SaveRequest : VisitRequest
{
    /// <summary>File name in the library, such as <c>larkspur.yaml</c>; below it in folders of the library.</summary>
    public required string To { get; init; }

    /// <summary>True where a file that stands there may be replaced.</summary>
    public bool Replaces { get; init; }
}

/// <summary>What was saved.</summary>
/// <param name="File">The home's name in the library.</param>
/// <param name="Notes">What was not taken into the file, a sentence each.</param>
internal sealed record SavedAnswer(string File, IReadOnlyList<string> Notes);

/// <summary>
/// Saves a home with what was chosen: into the library, whole or not at all, comments and bytes kept. The files that it names are copied beside it
/// where they lie outside the library.
/// </summary>
internal sealed class Saving(Library library, OpenHomes homes)
{
    private static readonly byte[] s_mark = Encoding.UTF8.GetPreamble();

    /// <exception cref="ArgumentException">The name is none, something stands there, or a choice can not be put into the text.</exception>
    /// <exception cref="ProblemsException">What came out would not be read.</exception>
    public SavedAnswer Save(SaveRequest request)
    {
        string name = $"{Library.Own}/{(request.To.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase) ? request.To : request.To + ".yaml")}";
        string target = library.PathOf(name, forWriting: true), source = library.PathOf(request.Home);
        if (File.Exists(target) && !request.Replaces) throw new ArgumentException($"\"{name[(Library.Own.Length + 1)..]}\" is there already; give another name, or say that it may be replaced.");
        OpenHome open = homes.Of(request.Home, request.Plan);
        byte[] bytes = File.ReadAllBytes(source);
        bool hasMark = bytes.AsSpan().StartsWith(s_mark);
        string text = Encoding.UTF8.GetString(bytes, hasMark ? s_mark.Length : 0, bytes.Length - (hasMark ? s_mark.Length : 0));
        VisitChoices choices = request.Choices.ToChoices();
        Directory.CreateDirectory(Path.GetDirectoryName(target)!);
        var copies = new FileCopies(Path.GetDirectoryName(source)!, target, library);
        string moved = HomeEdit.WithFiles(text, copies.Renamed([.. open.Reading.Inputs.Skip(1).Select(i => i.Path)]));
        string? plan = request.Plan is null ? null : copies.NameFor(library.PathOf(request.Plan));
        string saved = HomeEdit.With(moved, choices, plan);
        copies.Write();
        WriteChecked(target, saved, hasMark);
        return new SavedAnswer(name, choices.Way is null ? [] : ["The way to connect is no part of a home's file: it stands on the set-point sheet."]);
    }

    // What could not be read again is not put in the place of what could.
    private void WriteChecked(string target, string text, bool hasMark)
    {
        string trial = Path.Combine(Path.GetDirectoryName(target)!, $".{Path.GetFileName(target)}.trial");
        byte[] bytes = [.. hasMark ? s_mark : [], .. Encoding.UTF8.GetBytes(text)];
        try
        {
            WholeFile.Write(trial, stream => stream.Write(bytes));
            HomeFile.Read(trial, null, library.Folders);
            WholeFile.Write(target, stream => stream.Write(bytes));
        }
        finally
        {
            File.Delete(trial);
        }
    }
}

/// <summary>The files that a home names, as they are to be named from its new place.</summary>
/// <param name="from">Folder of the home as it was.</param>
/// <param name="target">Path of the home as it will be.</param>
/// <param name="library">Where files may stay.</param>
internal sealed class FileCopies(string from, string target, Library library)
{
    private readonly Dictionary<string, string> _copies = [];

    private string Folder => Path.GetDirectoryName(target)!;

    /// <summary>Renames values that name one of these files.</summary>
    public Func<string, string?> Renamed(IReadOnlyList<string> files)
    {
        var known = files.Select(Path.GetFullPath).ToHashSet(StringComparer.Ordinal);
        // A file that another file names, and not the home, goes along under its own name.
        foreach (string file in known) NameFor(file);
        return value =>
        {
            if (value.Length is 0 or > 300 || value.AsSpan().IndexOfAny('\n', '\0') >= 0) return null;
            string full = Path.GetFullPath(Path.Combine(from, value));
            if (!known.Contains(full)) return null;
            string name = NameFor(full);
            return name == value ? null : name;
        };
    }

    /// <summary>What a file is called from the home's new place; it is copied beside it where it lies outside the library.</summary>
    public string NameFor(string file)
    {
        string full = Path.GetFullPath(file);
        if (library.IsOwn(full)) return Path.GetRelativePath(Folder, full).Replace('\\', '/');
        string name = $"{Path.GetFileNameWithoutExtension(target)}-files/{Path.GetFileName(full)}";
        _copies[full] = Path.Combine(Folder, name);
        return name;
    }

    /// <summary>Copies them, each whole.</summary>
    public void Write()
    {
        foreach ((string file, string to) in _copies)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            byte[] bytes = File.ReadAllBytes(file);
            if (File.Exists(to) && File.ReadAllBytes(to).AsSpan().SequenceEqual(bytes)) continue;
            WholeFile.Write(to, stream => stream.Write(bytes));
        }
    }
}
