using System.Text.Json;
using EnergySim.TestData;

namespace EnergySim.Cli.Tests;

/// <summary>The verb, on the demo home by the hour and for three years, so that it is quick.</summary>
public sealed class LifetimeCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-cli-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Lifetime_Home_TellsNoSavingWithoutBandAndAssumptions()
    {
        (int code, string output, string errors) = CommandTests.Run("lifetime", QuickHome());
        Assert.Equal((0, ""), (code, errors));
        Assert.Matches(@"One battery: saves [\d,]+ \([\d,]+ to [\d,]+\) USD in the first year and [\d,]+ \([\d,]+ to [\d,]+\) in 3 years", output);
        string told = output[..output.IndexOf("bought for cash", StringComparison.Ordinal)];
        foreach (string assumption in (string[])["tariff: Evening peak, prices of 2025-01-01", "data: 2025-01-01 to 2025-12-31", "growth: energy 2 % a year", "exports: credited", "charge when an outage starts: what the everyday run holds", "band: low to high of"])
            Assert.Contains(assumption, told, StringComparison.Ordinal);
        foreach (string part in (string[])["One battery, loan", "Two batteries, lease", "Two batteries over One battery", "not within 3", "Not in any band", "Not stated, so at the default: discount rate 5 % a year"])
            Assert.Contains(part, output, StringComparison.Ordinal);
        Assert.DoesNotContain('\u001b', output);
    }

    [Fact]
    public void Lifetime_Json_IsOneDocumentWithItsAssumptionsAndUnits()
    {
        (int code, string output, _) = CommandTests.Run("lifetime", QuickHome(), "--json");
        Assert.Equal(0, code);
        JsonElement root = JsonDocument.Parse(output).RootElement;
        foreach (string key in (string[])["tariff", "data", "growth", "exports", "charge when an outage starts", "band"])
            Assert.NotEmpty(root.GetProperty("assumptions").GetProperty(key).GetString()!);
        JsonElement one = root.GetProperty("offers")[0];
        Assert.Equal(3, one.GetProperty("yearTable").GetArrayLength());
        JsonElement first = one.GetProperty("yearTable")[0];
        Assert.Equal(root.GetProperty("asItIs")[0].GetProperty("bill").GetDecimal() - first.GetProperty("bill").GetDecimal(), first.GetProperty("saving").GetDecimal());
        Assert.Equal(3, one.GetProperty("ways").GetArrayLength());
        Assert.Equal(JsonValueKind.Null, one.GetProperty("indicators").GetProperty("simplePaybackYears").ValueKind);
        Assert.Equal(JsonValueKind.Null, one.GetProperty("backupValueApart").ValueKind);
        JsonElement band = one.GetProperty("bands").GetProperty("netPresentValue");
        Assert.Equal(1, band.GetProperty("causes").EnumerateArray().Sum(c => c.GetProperty("shareFraction").GetDouble()), 1e-4);
        Assert.Equal("Two batteries", root.GetProperty("breakEvens")[0].GetProperty("second").GetString());
    }

    [Fact]
    public void Lifetime_Charts_AreWritten()
    {
        string charts = Path.Combine(_folder, "charts");
        (int code, string output, _) = CommandTests.Run("lifetime", QuickHome(), "--charts", charts);
        Assert.Equal(0, code);
        foreach (string name in (string[])["lifetime-cash.png", "lifetime-band.png"]) Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], File.ReadAllBytes(Path.Combine(charts, name))[..4]);
        foreach (string name in (string[])["lifetime-cash.svg", "lifetime-band.svg"])
        {
            Assert.Contains("prices of 2025-01-01", File.ReadAllText(Path.Combine(charts, name)), StringComparison.Ordinal);
            Assert.Contains(name, output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Lifetime_BoundBelowTheSaving_IsBadInput()
    {
        string home = QuickHome("  bands: {boundSavings: {One battery: 1}}\n");
        (int code, _, string errors) = CommandTests.Run("lifetime", home);
        Assert.Equal(2, code);
        Assert.Contains("One battery: the bound of 1.00 a year is below the saving", errors, StringComparison.Ordinal);
    }

    private string QuickHome(string more = "")
    {
        string profiles = Path.Combine(SharedData.RepositoryRoot, "profiles");
        string text = File.ReadAllText(Path.Combine(profiles, "demo-home.yaml"))
            .Replace("file: demo-", $"file: {profiles}/demo-", StringComparison.Ordinal)
            .Replace("../tariffs", $"{SharedData.RepositoryRoot}/tariffs", StringComparison.Ordinal)
            .Replace("  years: 20\n", "  years: 3\n", StringComparison.Ordinal);
        string path = Path.Combine(_folder, "home.yaml");
        File.WriteAllText(path, text + more + "stepMinutes: 60\n");
        return path;
    }
}
