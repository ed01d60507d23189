using System.Text.Json;
using EnergySim.TestData;

namespace EnergySim.Files.Tests.Schemas;

public class FileSchemasTests
{
    [Fact]
    public void Home_Keys_AreThoseOfTheReader() => AssertSameKeys(FileSchemas.Home, HomeSections.All);

    [Fact]
    public void Tariff_Keys_AreThoseOfTheReader() => AssertSameKeys(FileSchemas.Tariff, TariffSections.All);

    [Fact]
    public void Sweep_Keys_AreThoseOfTheReader() => AssertSameKeys(FileSchemas.Sweep, SweepSections.All);

    [Fact]
    public void Sweep_ShippedFiles_Fit()
    {
        string[] files = Directory.GetFiles(Path.Combine(SharedData.RepositoryRoot, "profiles", "sweeps"), "*.yaml");
        Assert.NotEmpty(files);
        foreach (string file in files)
        {
            Assert.Empty(SchemaCheck.FaultsOf(FileSchemas.Sweep, File.ReadAllText(file)));
            Assert.NotEmpty(SweepFile.Read(file).Plan.Outputs);
        }
    }

    [Theory]
    [InlineData("evening-peak.yaml")]
    [InlineData("every-mechanic.yaml")]
    [InlineData("export-table.yaml")]
    public void Tariff_SampleFile_Fits(string file) => Assert.Empty(SchemaCheck.FaultsOf(FileSchemas.Tariff, Sample.Text(file)));

    [Theory]
    [InlineData("home.yaml")]
    [InlineData("every-home-key.yaml")]
    [InlineData("every-outage-key.yaml")]
    public void Home_SampleFile_Fits(string file) => Assert.Empty(SchemaCheck.FaultsOf(FileSchemas.Home, Sample.Text(file)));

    [Fact]
    public void Tariff_ShippedFiles_Fit()
    {
        string[] files = Directory.GetFiles(Path.Combine(SharedData.RepositoryRoot, "tariffs"), "*.yaml");
        Assert.NotEmpty(files);
        foreach (string file in files) Assert.Empty(SchemaCheck.FaultsOf(FileSchemas.Tariff, File.ReadAllText(file)));
    }

    [Fact]
    public void Home_ShippedFiles_Fit()
    {
        string[] files = Directory.GetFiles(Path.Combine(SharedData.RepositoryRoot, "profiles"), "*.yaml");
        Assert.NotEmpty(files);
        foreach (string file in files) Assert.Empty(SchemaCheck.FaultsOf(FileSchemas.Home, File.ReadAllText(file)));
    }

    [Theory]
    [InlineData("mainAmps: 200", "mainAmp: 200", ".service.mainAmp is not known")]
    [InlineData("mainAmps: 200", "mainAmps: -200", ".service.mainAmps is not above 0")]
    [InlineData("kind: dc", "kind: roof", ".solar.kind is none of dc, ac")]
    [InlineData("reserve: 20 %", "reserve: 1.2", ".offers[0].strategy.reserve fits none of its forms")]
    [InlineData("tariff: evening-peak.yaml", "", ".tariff is missing")]
    public void Home_FileThatDoesNotFit_IsTold(string sound, string bad, string fault)
    {
        string text = Sample.Text("home.yaml").Replace(sound, bad, StringComparison.Ordinal);
        Assert.Equal(fault, Assert.Single(SchemaCheck.FaultsOf(FileSchemas.Home, text)));
    }

    private static void AssertSameKeys(string schema, IReadOnlyList<Section> sections)
    {
        JsonElement root = JsonDocument.Parse(schema).RootElement;
        foreach (Section section in sections)
        {
            JsonElement at = section.Name.Length == 0 ? root : root.GetProperty("$defs").GetProperty(section.Name);
            Assert.Equal(section.Keys.Order(StringComparer.Ordinal), at.GetProperty("properties").EnumerateObject().Select(p => p.Name).Order(StringComparer.Ordinal));
            string[] required = at.TryGetProperty("required", out JsonElement list) ? [.. list.EnumerateArray().Select(k => k.GetString()!)] : [];
            foreach (string key in section.Required) Assert.Contains(key, required);
            Assert.False(at.GetProperty("additionalProperties").GetBoolean());
        }
    }
}
