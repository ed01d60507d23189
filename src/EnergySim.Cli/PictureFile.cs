using EnergySim.Files;

namespace EnergySim.Cli;

/// <summary>A picture that the user asked for by a file's name; its ending says which kind.</summary>
internal static class PictureFile
{
    /// <summary>Refuses a name that is no picture's, before the work begins.</summary>
    /// <param name="option">The option that names it.</param>
    /// <param name="file">The file; null = no picture is asked for.</param>
    /// <exception cref="ArgumentException">Neither .png nor .svg.</exception>
    public static void Check(string option, string? file)
    {
        if (file is not null && !IsPng(file) && !Ends(file, ".svg")) throw new ArgumentException($"{option}: \"{file}\" is neither .png nor .svg.");
    }

    /// <summary>Writes the picture whole.</summary>
    public static void Write(string file, Action<Stream> writePng, Action<Stream> writeSvg) => WholeFile.Write(file, IsPng(file) ? writePng : writeSvg);

    private static bool IsPng(string file) => Ends(file, ".png");

    private static bool Ends(string file, string ending) => Path.GetExtension(file).Equals(ending, StringComparison.OrdinalIgnoreCase);
}
