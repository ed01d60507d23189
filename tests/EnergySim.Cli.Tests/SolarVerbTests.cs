using System.Text.Json;
using EnergySim.TestData;

namespace EnergySim.Cli.Tests;

public sealed class SolarVerbTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-cli-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Solar_NoHome_TellsTheDemoRoof()
    {
        (int code, string output, string errors) = Run("solar");
        Assert.Equal(0, code);
        Assert.Empty(errors);
        foreach (string words in (string[])["south-east", "kWh a kW", "clipped (DC)", "Dark days", "in a row  least clear", "one made-up year in ten"]) Assert.Contains(words, output, StringComparison.Ordinal);
        Assert.DoesNotContain('\u001b', output);
    }

    [Fact]
    public void Solar_JsonAndPicture_AreWritten()
    {
        string picture = Path.Combine(_folder, "sun.svg");
        (int code, string output, _) = Run("solar", Path.Combine(SharedData.RepositoryRoot, "profiles", "demo-roof-home.yaml"), "--json", "--out", picture);
        Assert.Equal(0, code);
        JsonElement root = JsonDocument.Parse(output).RootElement;
        Assert.Equal(12, root.GetProperty("kwhByMonth").GetArrayLength());
        Assert.Equal(24, root.GetProperty("meanKwByMonthAndHour")[0].GetArrayLength());
        Assert.Equal(135, root.GetProperty("planes")[0].GetProperty("azimuthDegrees").GetDouble());
        Assert.True(root.GetProperty("darkSpells").GetProperty("leastClear").GetArrayLength() > 4);
        Assert.Contains("<svg", File.ReadAllText(picture), StringComparison.Ordinal);
    }

    [Fact]
    public void Solar_PictureOfAnotherKind_IsBadInput()
    {
        (int code, _, string errors) = Run("solar", "--out", "sun.gif");
        Assert.Equal(2, code);
        Assert.Contains("neither .png nor .svg", errors, StringComparison.Ordinal);
    }

    private static (int Code, string Output, string Errors) Run(params string[] args)
    {
        var output = new StringWriter();
        var errors = new StringWriter();
        return (Commands.Invoke(args, output, errors), output.ToString(), errors.ToString());
    }
}
