namespace EnergySim.Files;

/// <summary>Writes files whole or not at all.</summary>
public static class WholeFile
{
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
        finally
        {
            File.Delete(part);
        }
    }
}
