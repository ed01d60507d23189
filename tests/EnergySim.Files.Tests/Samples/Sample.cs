using EnergySim.TestData;

namespace EnergySim.Files.Tests;

/// <summary>The sample files beside this one.</summary>
internal static class Sample
{
    public static string PathOf(string name) => Path.Combine(SharedData.RepositoryRoot, "tests", "EnergySim.Files.Tests", "Samples", name);

    public static string Text(string name) => File.ReadAllText(PathOf(name));
}
