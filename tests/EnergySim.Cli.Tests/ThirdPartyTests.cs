using System.Text.Json;
using EnergySim.TestData;

namespace EnergySim.Cli.Tests;

public sealed class ThirdPartyTests
{
    [Fact]
    public void Notices_NameEveryPackageOfTheBuildWithItsVersion()
    {
        string project = Path.Combine(SharedData.RepositoryRoot, "src", "EnergySim.Cli");
        string[] rows = File.ReadAllLines(Path.Combine(project, "THIRD-PARTY.md"));
        using JsonDocument locked = JsonDocument.Parse(File.ReadAllText(Path.Combine(project, "packages.lock.json")));
        string[] missing =
        [
            .. locked.RootElement.GetProperty("dependencies").GetProperty("net10.0").EnumerateObject()
                // An analyzer is of the build, not of the program.
                .Where(p => p.Value.GetProperty("type").GetString() != "Project" && !p.Name.EndsWith("Analyzers", StringComparison.Ordinal))
                .Select(p => $"| {p.Name} | {p.Value.GetProperty("resolved").GetString()} |")
                .Where(start => !rows.Any(r => r.StartsWith(start, StringComparison.OrdinalIgnoreCase))),
        ];
        Assert.Empty(missing);
    }
}
