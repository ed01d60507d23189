using EnergySim.Studies.Findings;

namespace EnergySim.Files;

/// <summary>The files that a home was read from, with names that hold on any machine: their paths below the folder that holds them all.</summary>
public sealed class InputSet
{
    private readonly (string Path, InputDigest Digest)[] _files;

    /// <param name="inputs">The files, the home file first.</param>
    /// <exception cref="ArgumentException">There is no file.</exception>
    public InputSet(IReadOnlyList<InputFile> inputs)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        if (inputs.Count == 0) throw new ArgumentException("There is no input file.", nameof(inputs));
        string[] full = [.. inputs.Select(i => Path.GetFullPath(i.Path))];
        string root = Path.GetDirectoryName(full[0])!;
        while (!full.All(f => f.StartsWith(Below(root), StringComparison.Ordinal)) && Path.GetDirectoryName(root) is string above) root = above;
        _files = [.. full.Select((f, i) => (f, new InputDigest(Path.GetRelativePath(root, f).Replace('\\', '/'), inputs[i].Sha256)))];
    }

    /// <summary>Names and digests, the home file first.</summary>
    public IReadOnlyList<InputDigest> Digests => [.. _files.Select(f => f.Digest)];

    /// <summary>Each file's path and its name.</summary>
    public IReadOnlyList<(string Path, string Name)> Files => [.. _files.Select(f => (f.Path, f.Digest.Name))];

    private static string Below(string root) => Path.EndsInDirectorySeparator(root) ? root : root + Path.DirectorySeparatorChar;
}
