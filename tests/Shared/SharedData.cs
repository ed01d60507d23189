namespace EnergySim.TestData;

/// <summary>
/// The open data and reference answers that lie beside the repository and are never committed: <c>../shared</c>, or the folder that
/// ENERGYSIM_DATA names for its <c>data</c>. Tests that need a file are reported skipped where it is absent.
/// </summary>
public static class SharedData
{
    public static string RepositoryRoot { get; } = FindRoot();

    private static readonly string s_data =
        Environment.GetEnvironmentVariable("ENERGYSIM_DATA") is { Length: > 0 } folder
            ? folder
            : Path.Combine(RepositoryRoot, "..", "shared", "data");

    /// <summary>Path of a file or folder below the data folder; skips the running test where it is absent.</summary>
    public static string DataPath(params string[] parts)
    {
        string path = Path.GetFullPath(Path.Combine([s_data, .. parts]));
        Assert.SkipUnless(File.Exists(path) || Directory.Exists(path), $"{string.Join('/', parts)} is not among the data on this machine.");
        return path;
    }

    /// <summary>Path of a file of reference values; skips the running test where it is absent.</summary>
    public static string Reference(string file)
    {
        string path = Path.GetFullPath(Path.Combine(s_data, "..", "reference", file));
        Assert.SkipUnless(File.Exists(path), $"{file} is not among the reference values on this machine.");
        return path;
    }

    private static string FindRoot()
    {
        string? at = AppContext.BaseDirectory;
        while (at is not null && !File.Exists(Path.Combine(at, "EnergySim.sln"))) at = Path.GetDirectoryName(at);
        return at ?? throw new InvalidOperationException("EnergySim.sln is in no folder above the tests.");
    }
}
