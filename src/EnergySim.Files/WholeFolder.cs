namespace EnergySim.Files;

/// <summary>Writes a folder of files whole or not at all.</summary>
public static class WholeFolder
{
    /// <summary>
    /// Writes files beside the folder's place, then moves them there: a new folder at once, into one that stands file by file, in the order given. When a
    /// writing throws, nothing is moved and what stood there stays. The last file marks the folder as whole: an older one is taken away before the first is
    /// moved, so that a program killed in the midst leaves no mark.
    /// </summary>
    /// <param name="folder">The folder; it is made if it does not stand. The folder that it lies in must exist.</param>
    /// <param name="files">Each file: its path inside the folder, with / between parts, and what writes it. They are written side by side.</param>
    /// <exception cref="IOException">A place is missing, full or closed to us.</exception>
    public static void Write(string folder, IReadOnlyList<(string Path, Action<Stream> Write)> files)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        ArgumentNullException.ThrowIfNull(files);
        string full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        string parent = Path.GetDirectoryName(full) ?? full;
        if (!Directory.Exists(parent)) throw new DirectoryNotFoundException($"There is no folder \"{parent}\".");
        if (File.Exists(full)) throw new IOException($"\"{folder}\" is a file, not a folder.");
        string part = Path.Combine(parent, $".{Path.GetFileName(full)}.{Guid.NewGuid():N}.part");
        try
        {
            foreach ((string path, _) in files) Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(part, path))!);
            WriteAll(part, files);
            if (Directory.Exists(full)) MoveInto(part, full, files);
            else Directory.Move(part, full);
        }
        catch (Exception fault) when (WholeFile.IsOf(part, fault))
        {
            throw WholeFile.Named(part, folder, fault);
        }
        finally
        {
            if (Directory.Exists(part)) Directory.Delete(part, recursive: true);
        }
    }

    private static void WriteAll(string folder, IReadOnlyList<(string Path, Action<Stream> Write)> files)
    {
        try
        {
            Parallel.ForEach(files, file =>
            {
                using var stream = new FileStream(Path.Combine(folder, file.Path), FileMode.CreateNew, FileAccess.Write, FileShare.None);
                file.Write(stream);
            });
        }
        catch (AggregateException faults)
        {
            // One fault tells enough, and callers know its kind.
            System.Runtime.ExceptionServices.ExceptionDispatchInfo.Throw(faults.InnerExceptions[0]);
        }
    }

    private static void MoveInto(string part, string full, IReadOnlyList<(string Path, Action<Stream> Write)> files)
    {
        if (files.Count > 0) File.Delete(Path.Combine(full, files[^1].Path));
        foreach ((string path, _) in files)
        {
            string to = Path.Combine(full, path);
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Move(Path.Combine(part, path), to, overwrite: true);
        }
    }
}
