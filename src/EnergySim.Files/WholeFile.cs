namespace EnergySim.Files;

/// <summary>Writes files whole or not at all.</summary>
public static class WholeFile
{
    /// <summary>True when a path, its <c>..</c> and links followed, lies in a folder or below it.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="path">The path; what it names need not exist.</param>
    public static bool IsWithin(string folder, string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        ArgumentException.ThrowIfNullOrEmpty(path);
        return Real(path).StartsWith(Real(folder).TrimEnd(Path.DirectorySeparatorChar) + Path.DirectorySeparatorChar, StringComparison.Ordinal);
    }

    // Links are followed part by part from the root: a folder on the way may be one.
    private static string Real(string path)
    {
        string full = Path.GetFullPath(path), real = Path.GetPathRoot(full)!;
        foreach (string part in full[real.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries))
        {
            string next = Path.Combine(real, part);
            FileSystemInfo info = Directory.Exists(next) ? new DirectoryInfo(next) : new FileInfo(next);
            real = info.LinkTarget is null ? next : info.ResolveLinkTarget(returnFinalTarget: true)?.FullName ?? next;
        }
        return real;
    }

    /// <summary>Writes a file beside its place, flushes it to the disk and moves it there; when the writing throws, what stood there stays.</summary>
    /// <param name="path">Where it goes; the folder must exist.</param>
    /// <param name="write">Writes the content.</param>
    /// <exception cref="IOException">The folder is missing, full or closed to us.</exception>
    public static void Write(string path, Action<Stream> write)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(write);
        string full = Path.GetFullPath(path);
        string part = Path.Combine(Path.GetDirectoryName(full) ?? "", $".{Path.GetFileName(full)}.{Guid.NewGuid():N}.part");
        try
        {
            using (var stream = new FileStream(part, FileMode.CreateNew, FileAccess.Write, FileShare.None))
            {
                write(stream);
                stream.Flush(flushToDisk: true);
            }
            File.Move(part, full, overwrite: true);
        }
        catch (Exception fault) when (IsOf(part, fault))
        {
            throw Named(part, path, fault);
        }
        finally
        {
            File.Delete(part);
        }
    }

    /// <summary>True for a fault of the system that names what is written before the file itself, of which nobody asked.</summary>
    internal static bool IsOf(string part, Exception fault) =>
        fault is IOException or UnauthorizedAccessException && fault.Message.Contains(part, StringComparison.Ordinal);

    /// <summary>The same fault with the name that was asked for.</summary>
    internal static IOException Named(string part, string asked, Exception fault) => new(fault.Message.Replace(part, asked, StringComparison.Ordinal), fault);
}
