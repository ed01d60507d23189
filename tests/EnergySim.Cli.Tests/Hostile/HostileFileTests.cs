using System.Diagnostics;
using CsCheck;
using EnergySim.TestData;

namespace EnergySim.Cli.Tests.Hostile;

/// <summary>
/// Files spoiled at random: the program gives its answer or one clear problem, never a fault of its own, and in bounded time and memory.
/// ENERGYSIM_LONG=100 makes about 10⁵ of them.
/// </summary>
public sealed class HostileFileTests : IDisposable
{
    /// <summary>A case that takes as long hangs. Generous: the machine may be busy.</summary>
    private static readonly TimeSpan s_hang = TimeSpan.FromSeconds(20);

    private const long MostBytesAllocated = 2L << 30;

    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-hostile-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static string Sample(string name) => Path.Combine(SharedData.RepositoryRoot, "tests", "EnergySim.Files.Tests", "Samples", name);

    [Theory]
    [InlineData("home.yaml", "compare")]
    [InlineData("home.yaml", "bill --month 2025-07 --difference")]
    [InlineData("home.yaml", "strategies --week 2025-07-01")]
    [InlineData("every-home-key.yaml", "compare")]
    [InlineData("every-home-key.yaml", "wiring --sheet")]
    [InlineData("every-outage-key.yaml", "outage")]
    public void Home_Spoiled_IsAnsweredOrRefusedClearly(string file, string verb) =>
        Check(Sample(file), 60, path => [.. verb.Split(' ').Take(1), path, .. verb.Split(' ').Skip(1)], [Sample("two-days.csv"), Sample("foreign.csv"), Sample("evening-peak.yaml")]);

    [Theory]
    [InlineData("two-days.csv", "home.yaml")]
    [InlineData("foreign.csv", "every-home-key.yaml")]
    [InlineData("evening-peak.yaml", "every-home-key.yaml")]
    public void FileOfAHome_Spoiled_IsAnsweredOrRefusedClearly(string file, string home)
    {
        foreach (string beside in new[] { home, "evening-peak.yaml", "two-days.csv", "foreign.csv" }) File.Copy(Sample(beside), Path.Combine(_folder, beside), overwrite: true);
        Check(Sample(file), 100, _ => ["compare", Path.Combine(_folder, home)], []);
    }

    [Theory]
    [InlineData("every-mechanic.yaml")]
    [InlineData("export-table.yaml")]
    [InlineData("evening-peak.yaml")]
    public void Tariff_Spoiled_IsCheckedOrRefusedClearly(string file) => Check(Sample(file), 60, path => ["check", path], []);

    [Fact]
    public void CataloguePlans_Spoiled_AreCheckedOrRefusedClearly()
    {
        foreach (string plan in Directory.GetFiles(Path.Combine(SharedData.RepositoryRoot, "tariffs"), "*.yaml").Order(StringComparer.Ordinal))
            Check(plan, 10, path => ["check", path, "--json"], Directory.GetFiles(Path.Combine(SharedData.RepositoryRoot, "tariffs"), "*.csv"));
    }

    [Fact]
    public void MeterTables_Spoiled_AreReadOrRefusedClearly()
    {
        foreach (string table in Directory.GetFiles(SharedData.DataPath("layouts")).Where(f => !f.Contains("expected", StringComparison.Ordinal) && !f.EndsWith(".md", StringComparison.Ordinal)).Order(StringComparer.Ordinal))
            Check(table, 10, path => ["import", path, "--zone", "America/Denver"], []);
    }

    [Fact]
    public void MeterXml_Spoiled_IsReadOrRefusedClearly()
    {
        foreach (string feed in Directory.GetFiles(SharedData.DataPath("espi", "synthetic"), "*.xml").Order(StringComparer.Ordinal))
            Check(feed, 15, path => ["import", path, "--zone", "America/New_York", "--json"], []);
    }

    [Fact]
    public void Bills_Spoiled_AreReadOrRefusedClearly() =>
        Check(Path.Combine(SharedData.RepositoryRoot, "profiles", "demo-bills.csv"), 60, path => ["import", "--bills", path, "--zone", "America/Denver"], []);

    /// <summary>Lists of values, no number of points: many points are much work, not a fault.</summary>
    [Fact]
    public void Sweep_Spoiled_IsRunOrRefusedClearly()
    {
        string plan = Path.Combine(_folder, "plan-seed.yaml");
        File.WriteAllText(plan, """
            sweep: two inputs
            homes: home.yaml
            inputs:
              - {input: offers.*.strategy.reserve, name: reserve, list: [0, 0.2, 0.5]}
              - {input: batteries.ten.capacityKwh, name: "capacity, kWh", list: [5, 10]}
            outputs: [annualBill, annualSaving]
            """);
        foreach (string file in (string[])["home.yaml", "two-days.csv", "evening-peak.yaml"]) File.Copy(Sample(file), Path.Combine(_folder, file));
        Assert.Equal(Commands.Done, CommandTests.Run("sweep", plan, "--out", Path.Combine(_folder, "t.csv")).Code);
        Check(plan, 80, path => ["sweep", path, "--cores", "1", "--out", Path.Combine(_folder, "t.csv")], []);
    }

    [Fact]
    public void Weather_Spoiled_IsReadOrRefusedClearly()
    {
        foreach (string folder in (string[])["profiles", "tariffs"])
        {
            Directory.CreateDirectory(Path.Combine(_folder, "files", folder));
            foreach (string file in Directory.GetFiles(Path.Combine(SharedData.RepositoryRoot, folder))) File.Copy(file, Path.Combine(_folder, "files", folder, Path.GetFileName(file)));
        }
        string weather = Path.Combine(_folder, "demo-weather.csv"), home = Path.Combine(_folder, "files", "profiles", "demo-roof-home.yaml");
        File.Copy(Path.Combine(SharedData.RepositoryRoot, "profiles", "demo-weather.csv"), weather);
        File.WriteAllText(home, File.ReadAllText(home).Replace("demo-weather.csv", "../../demo-weather.csv", StringComparison.Ordinal));
        Check(weather, 12, _ => ["solar", home], []);
    }

    /// <summary>Spoils a file so many times and runs the program on each.</summary>
    private void Check(string seed, int cases, Func<string, string[]> args, string[] beside)
    {
        foreach (string file in beside) File.Copy(file, Path.Combine(_folder, Path.GetFileName(file)), overwrite: true);
        string path = Path.Combine(_folder, Path.GetFileName(seed));
        byte[] whole = File.ReadAllBytes(seed);
        FixedSeed.Check(Spoiling.Of(whole), cases, bytes =>
        {
            File.WriteAllBytes(path, bytes);
            Directory.EnumerateDirectories(_folder, "*.parts").ToList().ForEach(parts => Directory.Delete(parts, recursive: true));
            if (Fault(args(path)) is not string fault) return;
            Keep(path, bytes);
            Assert.Fail(fault);
        });
        File.WriteAllBytes(path, whole);
    }

    /// <summary>What is wrong with the program's answer; null where nothing is.</summary>
    private static string? Fault(string[] args)
    {
        var output = new StringWriter();
        var errors = new StringWriter();
        long before = GC.GetAllocatedBytesForCurrentThread(), started = Stopwatch.GetTimestamp();
        int code = Commands.Invoke(args, output, errors);
        string said = errors.ToString();
        if (Stopwatch.GetElapsedTime(started) is var taken && taken > s_hang) return $"{string.Join(' ', args)} took {taken.TotalSeconds:0} s";
        if (GC.GetAllocatedBytesForCurrentThread() - before is var bytes && bytes > MostBytesAllocated) return $"{string.Join(' ', args)} allocated {bytes >> 20} MB";
        if (code == Commands.InternalFault) return said;
        if (code != Commands.BadInput) return null;
        if (said.Contains("(Parameter '", StringComparison.Ordinal) || said.Contains("   at ", StringComparison.Ordinal)) return "not a plain sentence: " + said;
        return said.Length == 0 && output.ToString().Length == 0 ? "refused without a word" : null;
    }

    /// <summary>Keeps the file that was found out, where ENERGYSIM_KEEP names a folder.</summary>
    private static void Keep(string path, byte[] bytes)
    {
        if (Environment.GetEnvironmentVariable("ENERGYSIM_KEEP") is { Length: > 0 } folder) File.WriteAllBytes(Path.Combine(folder, Path.GetFileName(path)), bytes);
    }
}
