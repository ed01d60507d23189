using System.Reflection;
using EnergySim.Bound;
using EnergySim.Engine;
using EnergySim.Files;
using EnergySim.Reports.Drawing;
using EnergySim.Studies;
using EnergySim.TestData;
using PublicApiGenerator;

namespace EnergySim.Cli.Tests;

/// <summary>
/// What each library shows to the outside, as text in <c>PublicApi</c>. Who changes it sees the change in the same commit: run these tests once
/// with <c>ENERGYSIM_ACCEPT_API=1</c>, and look at the difference.
/// </summary>
public class PublicApiTests
{
    private static readonly ApiGeneratorOptions s_options = new()
    {
        IncludeAssemblyAttributes = false,
        ExcludeAttributes = ["System.Runtime.CompilerServices.CompilerGeneratedAttribute", "System.Runtime.CompilerServices.RequiredMemberAttribute"],
    };

    public static TheoryData<Type> Libraries => [typeof(Run), typeof(ComparisonStudy), typeof(HomeFile), typeof(Palette), typeof(BoundStudy)];

    [Theory]
    [MemberData(nameof(Libraries))]
    public void Library_ShowsWhatItsSnapshotSays(Type member)
    {
        Assembly library = member.Assembly;
        string path = Path.Combine(SharedData.RepositoryRoot, "tests", "EnergySim.Cli.Tests", "PublicApi", library.GetName().Name + ".txt");
        string now = library.GeneratePublicApi(s_options).ReplaceLineEndings("\n") + "\n";
        if (Environment.GetEnvironmentVariable("ENERGYSIM_ACCEPT_API") == "1") File.WriteAllText(path, now);
        Assert.True(File.Exists(path), $"{path} is missing: run once with ENERGYSIM_ACCEPT_API=1.");
        string[] before = File.ReadAllText(path).Split('\n'), after = now.Split('\n');
        string[] gone = [.. before.Except(after)], added = [.. after.Except(before)];
        Assert.True(
            before.SequenceEqual(after),
            $"The public API of {library.GetName().Name} changed; if that is meant, run once with ENERGYSIM_ACCEPT_API=1.\nGone:\n{string.Join('\n', gone)}\nAdded:\n{string.Join('\n', added)}");
    }

    // The compiler asks for the text of every public member already (CS1591); a summary that says nothing it lets pass.
    [Theory]
    [MemberData(nameof(Libraries))]
    public void Library_Summaries_SaySomething(Type member)
    {
        string path = Path.ChangeExtension(member.Assembly.Location, ".xml");
        var members = System.Xml.Linq.XDocument.Load(path).Descendants("member").Where(m => m.Element("summary") is not null).ToList();
        Assert.True(members.Count > 5);
        foreach (System.Xml.Linq.XElement one in members)
            Assert.True(one.Element("summary")!.Value.Trim().Length >= 3, $"{one.Attribute("name")!.Value} has an empty summary.");
    }
}
