using System.Text.RegularExpressions;
using EnergySim.TestData;

namespace EnergySim.Cli.Tests;

/// <summary>Counts what is checked against something outside the project, so that DEVELOPERS.md may say how many; no table goes unasked.</summary>
public partial class SourcedChecksTests(ITestOutputHelper told)
{
    [Fact]
    public void Checks_FromOutside_AreThreeHundredAtLeast()
    {
        string tests = Path.Combine(SharedData.RepositoryRoot, "tests");
        HashSet<string> named = [.. Directory.GetFiles(tests, "*.cs", SearchOption.AllDirectories).Where(f => Path.GetFileName(f) != "SourcedChecksTests.cs")
            .SelectMany(f => Named().Matches(File.ReadAllText(f)).Select(m => m.Groups[1].Value))];
        string[] tables = [.. Directory.GetFiles(Path.GetDirectoryName(SharedData.Reference("sun_positions.csv"))!, "*.csv").Order(StringComparer.Ordinal)];
        Assert.DoesNotContain(tables, t => !named.Contains(Path.GetFileName(t)));
        int rows = tables.Sum(t => File.ReadLines(t).Count(l => l.Length > 0 && l[0] != '#') - 1);
        int homes = Directory.GetDirectories(SharedData.DataPath("homes")).Length;
        int bills = Directory.GetFiles(Path.Combine(SharedData.RepositoryRoot, "tariffs"), "*.yaml").Length;
        told.WriteLine($"{rows} rows of published tables, {homes} homes of an independent implementation, {bills} bills worked by hand");
        Assert.InRange(rows + homes + bills, 300, 100_000);
    }

    // A table of its own name as a test opens it, not one of a sample.
    [GeneratedRegex("(?:Reference|Rows)\\(\"([a-z0-9_]+\\.csv)\"")]
    private static partial Regex Named();
}
