using EnergySim.TestData;

namespace EnergySim.Cli.Tests;

/// <summary>The pictures that README shows are those that its commands draw today.</summary>
public sealed class ReadmePictureTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-readme-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("savings.svg", "chart")]
    [InlineData("day.svg", "chart --kind day --date 2025-07-15 --offer 1")]
    [InlineData("ways.svg", "chart --kind ways")]
    public void Picture_OfReadme_IsWhatItsCommandDraws(string picture, string command)
    {
        string drawn = Path.Combine(_folder, picture), readme = File.ReadAllText(Path.Combine(SharedData.RepositoryRoot, "README.md"));
        Assert.Contains($"(profiles/pictures/{picture})", readme, StringComparison.Ordinal);
        Assert.Contains($"`energysim {command} --out {picture}`", readme, StringComparison.Ordinal);
        Assert.Equal(0, CommandTests.Run([.. command.Split(' '), "--out", drawn]).Code);
        Assert.Equal(File.ReadAllText(Path.Combine(SharedData.RepositoryRoot, "profiles", "pictures", picture)), File.ReadAllText(drawn));
    }
}
