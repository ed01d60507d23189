using System.Text.Json;
using EnergySim.Files;
using EnergySim.TestData;
using NodaTime;

namespace EnergySim.Cli.Tests;

public sealed class ImportVerbTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-cli-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static (int Code, string Output, string Errors) Run(params string[] args)
    {
        var output = new StringWriter();
        var errors = new StringWriter();
        return (Commands.Invoke(args, output, errors), output.ToString(), errors.ToString());
    }

    private static string Demo(string file) => Path.Combine(SharedData.RepositoryRoot, "profiles", file);

    private string Write(string name, string text)
    {
        string path = Path.Combine(_folder, name);
        File.WriteAllText(path, text);
        return path;
    }

    [Fact]
    public void Import_DemoMeter_SaysWhatItUnderstood()
    {
        (int code, string output, string errors) = Run("import", Demo("demo-meter.csv"), "--zone", "America/Denver");
        Assert.Empty(errors);
        Assert.Equal(0, code);
        Assert.Contains("local America/Denver, start-stamped, kWh per 15 min, 2025-03-03 to 2025-03-16, 1,340 intervals, 2 missing, import ", output, StringComparison.Ordinal);
        Assert.Contains("the stamps skip or repeat the hour that its clock does", output, StringComparison.Ordinal);
        Assert.Contains("Missing: 2025-03-06 04:00 to 2025-03-06 04:30 (2 intervals).", output, StringComparison.Ordinal);
        Assert.DoesNotContain('\u001b', output);
    }

    [Fact]
    public void Import_WithoutAZone_AsksAndIsBadInput()
    {
        (int code, string output, string errors) = Run("import", Demo("demo-meter.csv"));
        Assert.Equal(2, code);
        Assert.Empty(output);
        Assert.Contains("can be read in more than one way", errors, StringComparison.Ordinal);
        Assert.Contains("Say --zone America/Denver or --zone Europe/Berlin.", errors, StringComparison.Ordinal);
        (code, output, _) = Run("import", Demo("demo-meter.csv"), "--json");
        Assert.Equal(2, code);
        Assert.Equal("--zone", JsonDocument.Parse(output).RootElement.GetProperty("questions")[0].GetProperty("option").GetString());
    }

    [Fact]
    public void Import_Out_WritesAProfileThatAHomeFileReads()
    {
        string meter = Write("m.csv", "Start,Usage (kWh)\n2025-06-01 00:00,0.5\n2025-06-01 00:30,0.25\n2025-06-01 01:00,1\n"), to = Path.Combine(_folder, "load.csv");
        (int code, string output, _) = Run("import", meter, "--zone", "America/Denver", "--out", to, "--json");
        Assert.Equal(0, code);
        JsonElement root = JsonDocument.Parse(output).RootElement;
        foreach (string key in new[] { "file", "zone", "from", "to", "stepMinutes", "intervals", "missing", "estimated", "importKwh", "exportKwh", "confidence", "findings", "notes", "warnings", "loadKwh", "written", "resolution" })
            Assert.True(root.TryGetProperty(key, out _), key);
        ProfileReading back = ProfileFile.Read(to, ProfileColumn.Ours("load_kw"), DateTimeZoneProviders.Tzdb["America/Denver"]);
        Assert.Equal([1, 0.5, 2], back.Profile.Kw.ToArray());
    }

    [Fact]
    public void Import_ExportsWithoutSolar_WritesNothing()
    {
        string to = Path.Combine(_folder, "load.csv");
        (int code, _, string errors) = Run("import", Demo("demo-meter.csv"), "--zone", "America/Denver", "--fill", "--out", to);
        Assert.Equal(2, code);
        Assert.Contains("the load can not be known without a record of the solar", errors, StringComparison.Ordinal);
        Assert.False(File.Exists(to));
    }

    [Fact]
    public void Import_Bills_KeepEachBillAndGiveABand()
    {
        string to = Path.Combine(_folder, "load.csv");
        (int code, string output, string errors) = Run("import", "--bills", Demo("demo-bills.csv"), "--zone", "America/Denver", "--home", Demo("demo-home.yaml"), "--add-vehicle", "63,21:00-06:00,7.2", "--out", to, "--json");
        Assert.Empty(errors);
        Assert.Equal(0, code);
        JsonElement root = JsonDocument.Parse(output).RootElement;
        Assert.Equal(8510, root.GetProperty("billKwh").GetDouble(), 6);
        Assert.Equal(8510 + (9 * 366), root.GetProperty("loadKwh").GetDouble(), 3);
        Assert.Equal(6, root.GetProperty("shapes").GetArrayLength());
        Assert.True(root.GetProperty("shapes")[0].GetProperty("annualSaving").GetProperty("One battery").GetDecimal() > 0);
        Assert.Equal(35040, ProfileFile.Read(to, ProfileColumn.Ours("load_kw"), DateTimeZoneProviders.Tzdb["America/Denver"]).Profile.Axis.Count);
    }

    [Fact]
    public void Import_WrongOptions_AreBadInput()
    {
        Assert.Contains("is no IANA zone", Run("import", Demo("demo-meter.csv"), "--zone", "Denver").Errors, StringComparison.Ordinal);
        Assert.Contains("is not written \"HEADER=import\"", Run("import", Demo("demo-meter.csv"), "--role", "x").Errors, StringComparison.Ordinal);
        Assert.Contains("say the house's zone", Run("import", "--bills", Demo("demo-bills.csv")).Errors, StringComparison.Ordinal);
        Assert.Contains("name a file", Run("import").Errors, StringComparison.Ordinal);
    }
}
