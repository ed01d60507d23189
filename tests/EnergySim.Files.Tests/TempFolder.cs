namespace EnergySim.Files.Tests;

/// <summary>A folder that goes away with the test.</summary>
public sealed class TempFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("energysim-files-").FullName;

    public string Write(string name, string text)
    {
        string path = System.IO.Path.Combine(Path, name);
        File.WriteAllText(path, text);
        return path;
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);

    /// <summary>The message of what the act throws, with the folder's path left out.</summary>
    public string ProblemsOf(Action act) =>
        Assert.Throws<ProblemsException>(act).Message.Replace(Path + System.IO.Path.DirectorySeparatorChar, "", StringComparison.Ordinal);
}
