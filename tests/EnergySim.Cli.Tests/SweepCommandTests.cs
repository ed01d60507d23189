using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using EnergySim.TestData;

namespace EnergySim.Cli.Tests;

public sealed class SweepCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-sweep-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static string Shipped(string name) => Path.Combine(SharedData.RepositoryRoot, "profiles", "sweeps", name);

    private string Table(string name) => Path.Combine(_folder, name);

    [Fact]
    public void Sweep_ReserveAndSize_HasTheDemosFigures()
    {
        (int code, string output, string errors) = CommandTests.Run("sweep", Shipped("reserve-and-size.yaml"), "--out", Table("r.csv"));
        Assert.Equal((0, ""), (code, errors));
        Assert.Contains("21 variants", output, StringComparison.Ordinal);
        // The bills of the demo home at its own reserve and size, as its comparison tells them.
        Assert.Contains("8,demo-home,,0.2,10,1278.45,820.85,753.63,457.6,524.82,457.6,67.22,", File.ReadAllLines(Table("r.csv")));
    }

    [Fact]
    public void Sweep_WithMatters_TellsThemInJsonAndPictures()
    {
        (int code, string output, _) = CommandTests.Run("sweep", Shipped("what-moves-it.yaml"), "--out", Table("m.csv"), "--charts", Table("charts"), "--json");
        Assert.Equal(0, code);
        JsonElement first = JsonDocument.Parse(output).RootElement.GetProperty("matters")[0];
        Assert.Equal(457.6, first.GetProperty("likely").GetDouble());
        Assert.Equal("energy prices", first.GetProperty("tornado")[0].GetProperty("input").GetString());
        Assert.Equal(4, Directory.GetFiles(Table("charts")).Length);
        Assert.Contains("energy prices: 350", File.ReadAllText(Path.Combine(Table("charts"), "tornado-one-battery-annualsaving.svg")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--part", "0/3", "--part 0/3: a share is written k/n, such as 3/8.")]
    [InlineData("--cores", "0", "--cores 0: at least one core is needed.")]
    public void Sweep_ACallThatDoesNotFit_SaysSo(string option, string value, string message)
    {
        (int code, _, string errors) = CommandTests.Run("sweep", Shipped("reserve-and-size.yaml"), "--out", Table("x.csv"), option, value);
        Assert.Equal((2, message), (code, errors.Trim()));
    }

    /// <summary>The program itself, ended by the system in the midst of its work; by hand this was done with 100,000 variants.</summary>
    [Fact]
    public async Task Sweep_KilledAgainAndAgain_GivesTheSameBytes()
    {
        string samples = Path.Combine(SharedData.RepositoryRoot, "tests", "EnergySim.Files.Tests", "Samples");
        foreach (string file in (string[])["two-days.csv", "evening-peak.yaml", "home.yaml"]) File.Copy(Path.Combine(samples, file), Table(file));
        await File.WriteAllTextAsync(Table("s.yaml"), """
            sweep: killed
            homes: home.yaml
            design: latin-hypercube
            points: 20000
            inputs: [{input: offers.*.strategy.reserve, name: reserve, uniform: {from: 0, to: 1}}]
            outputs: annualBill
            """, TestContext.Current.CancellationToken);
        await End(Started("whole.csv"));
        int parts = 0;
        for (int kills = 0; kills < 3; kills++)
        {
            using Process process = Started("cut.csv");
            // Ended as soon as it has written one part more, at whatever it is doing then.
            while (!process.HasExited && Parts() <= parts) await Task.Delay(1, TestContext.Current.CancellationToken);
            process.Kill();
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
            Assert.NotEqual(0, process.ExitCode);
            parts = Parts();
        }
        await End(Started("cut.csv"));
        Assert.Equal(await File.ReadAllBytesAsync(Table("whole.csv"), TestContext.Current.CancellationToken), await File.ReadAllBytesAsync(Table("cut.csv"), TestContext.Current.CancellationToken));
        Assert.False(Directory.Exists(Table("cut.csv.parts")));

        int Parts() => Directory.Exists(Table("cut.csv.parts")) ? Directory.GetFiles(Table("cut.csv.parts"), "part-*.csv").Length : 0;
    }

    private Process Started(string table)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (string word in (string[])[Path.Combine(AppContext.BaseDirectory, "EnergySim.Cli.dll"), "sweep", Table("s.yaml"), "--out", Table(table)]) start.ArgumentList.Add(word);
        return Process.Start(start)!;
    }

    private static async Task End(Process process)
    {
        using (process)
        {
            string errors = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
            Assert.Equal("0", string.Create(CultureInfo.InvariantCulture, $"{process.ExitCode}{errors}"));
        }
    }
}
