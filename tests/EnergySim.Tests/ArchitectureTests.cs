using System.Reflection;
using System.Text.RegularExpressions;
using EnergySim.Engine;
using EnergySim.TestData;

namespace EnergySim.Tests;

/// <summary>House rules that a compiler does not hold: what the engine may know.</summary>
public partial class ArchitectureTests
{
    [Fact]
    public void Engine_Source_TouchesNoFileConsoleClockCultureOrRandomSource()
    {
        string folder = Path.Combine(SharedData.RepositoryRoot, "src", "EnergySim");
        string[] files = [.. Directory.GetFiles(folder, "*.cs", SearchOption.AllDirectories).Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))];
        Assert.True(files.Length > 30);
        foreach (string file in files)
            Assert.False(Forbidden().IsMatch(File.ReadAllText(file)), $"{Path.GetRelativePath(folder, file)}: {Forbidden().Match(File.ReadAllText(file)).Value}");
    }

    [Fact]
    public void Engine_Assembly_KnowsNoOtherLayer()
    {
        string[] names = [.. typeof(Run).Assembly.GetReferencedAssemblies().Select(a => a.Name!)];
        Assert.DoesNotContain(names, n => n.StartsWith("EnergySim", StringComparison.Ordinal) || n is "System.Console" or "System.Net.Http");
        Assert.Contains("NodaTime", names);
    }

    [Fact]
    public void Engine_Types_HoldNoStaticMutableState()
    {
        foreach (Type type in typeof(Run).Assembly.GetTypes().Where(t => t.Namespace?.StartsWith("EnergySim", StringComparison.Ordinal) == true))
            foreach (FieldInfo field in type.GetFields(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly))
                // The compiler caches lambdas in fields of its own, marked by their names.
                Assert.True(field.IsInitOnly || field.IsLiteral || field.Name.Contains('<', StringComparison.Ordinal), $"{type}.{field.Name}");
    }

    [Fact]
    public void Billing_Source_NeverSeesABattery_NorTheStepAPrice()
    {
        string Text(string room) => string.Concat(Directory.GetFiles(Path.Combine(SharedData.RepositoryRoot, "src", "EnergySim", room), "*.cs").Select(File.ReadAllText));
        Assert.DoesNotContain("using EnergySim.Equipment", Text("Billing"), StringComparison.Ordinal);
        Assert.DoesNotContain("using EnergySim.Strategies", Text("Billing"), StringComparison.Ordinal);
        Assert.DoesNotContain("using EnergySim.Tariffs", Text("Engine"), StringComparison.Ordinal);
        Assert.DoesNotContain("using EnergySim.Billing", Text("Engine"), StringComparison.Ordinal);
        Assert.DoesNotContain("using EnergySim.Engine", Text("Tariffs"), StringComparison.Ordinal);
    }

    [Fact]
    public void Version_OfTheProgram_IsTheLastOfTheChangeList()
    {
        Match last = Change().Matches(File.ReadAllText(Path.Combine(SharedData.RepositoryRoot, "DEVELOPERS.md")))[^1];
        Assert.Equal(last.Groups[1].Value, typeof(Run).Assembly.GetName().Version!.ToString(3));
    }

    [Theory]
    [InlineData("EnergySim")]
    [InlineData("EnergySim.Studies")]
    [InlineData("EnergySim.Files")]
    [InlineData("EnergySim.Reports")]
    [InlineData("EnergySim.Bound")]
    [InlineData("EnergySim.Web")]
    public void Rooms_OfAProject_NeverLeadBackToThemselves(string project)
    {
        var rooms = new RoomGraph(project);
        Assert.True(rooms.Files > 5);
        Assert.Empty(rooms.Cycle());
    }

    [GeneratedRegex(@"System\.IO\b|\bFile\.|\bDirectory\.|\bConsole\.|DateTime\.(Now|UtcNow|Today)|SystemClock|CurrentCulture|CultureInfo\.(?!InvariantCulture)|\bRandom\b|Environment\.|Stopwatch|\basync\b|\bThread\b")]
    private static partial Regex Forbidden();

    [GeneratedRegex(@"^- \d{4}-\d\d-\d\d (\d+\.\d+\.\d+):", RegexOptions.Multiline)]
    private static partial Regex Change();
}
