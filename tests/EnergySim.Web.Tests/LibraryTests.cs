using System.Net;
using System.Text;
using System.Text.Json;

namespace EnergySim.Web.Tests;

/// <summary>Saving: the same bytes but for what was chosen, whole files, nothing outside the folder.</summary>
public class LibraryTests
{
    private static readonly string s_demo = Path.Combine(AppContext.BaseDirectory, "demo");

    [Fact]
    public async Task Save_WithoutAChoice_KeepsEveryByte()
    {
        await using Served served = await Served.Start();
        byte[] before = Own(served, "mine.yaml");
        await served.Answer("save", """{"home": "library/mine.yaml", "to": "mine.yaml", "replaces": true}""");
        Assert.Equal(before, File.ReadAllBytes(Path.Combine(served.Folder, "mine.yaml")));
    }

    [Fact]
    public async Task Save_WithAByteOrderMarkAndWindowsLines_KeepsBoth()
    {
        await using Served served = await Served.Start();
        string path = Path.Combine(served.Folder, "mine.yaml");
        Own(served, "mine.yaml");
        string text = File.ReadAllText(path).Replace("\n", "\r\n", StringComparison.Ordinal);
        File.WriteAllText(path, text, new UTF8Encoding(true));
        await served.Answer("save", """{"home": "library/mine.yaml", "to": "mine.yaml", "replaces": true, "choices": {"reserveFraction": 0.35}}""");
        byte[] after = File.ReadAllBytes(path);
        Assert.Equal(Encoding.UTF8.GetPreamble(), after[..3]);
        Assert.Equal(text.Replace("reserve: 0.2", "reserve: 0.35", StringComparison.Ordinal), Encoding.UTF8.GetString(after[3..]));
    }

    [Fact]
    public async Task Save_WithEveryChoice_ChangesThoseLinesAndNoOther()
    {
        await using Served served = await Served.Start();
        Own(served, "mine.yaml");
        string path = Path.Combine(served.Folder, "mine.yaml");
        string[] before = File.ReadAllLines(path);
        await served.Answer("save", """
            {"home": "library/mine.yaml", "to": "mine.yaml", "replaces": true,
             "choices": {"reserveFraction": 0.4, "units": {"Two batteries": 3}, "prices": {"Two batteries": 26500}, "sunFraction": 0.25, "outageHours": 48,
                         "outageStart": "2025-01-15T18:00", "keptFraction": 0.6, "charge": "reserve", "energyGrowthFraction": 0.035}}
            """);
        string[] after = File.ReadAllLines(path);
        string[] gone = [.. before.Except(after)], come = [.. after.Except(before)];
        Assert.All(gone, line => Assert.True(line.Contains("strategy", StringComparison.Ordinal) || line.Contains("units", StringComparison.Ordinal) || line.Contains("price", StringComparison.Ordinal), line));
        Assert.Equal(before.Count(l => l.TrimStart().StartsWith('#')), after.Count(l => l.TrimStart().StartsWith('#')));
        foreach (string wanted in (string[])["reserve: 0.4", "units: 3", "price: 26500", "sun: 0.25", "hours: 48", "kept: 0.6", "charge: reserve", "start: 2025-01-15T18:00", "energy: 0.035"])
            Assert.Contains(come, line => line.Contains(wanted, StringComparison.Ordinal));
        // What the page shows of the choices is what the command line says of the file.
        using JsonDocument outage = JsonDocument.Parse(AnswerApiTests.Cli("outage", path, "--json"));
        Assert.Equal(0.25, outage.RootElement.GetProperty("cloudFactor").GetDouble());
    }

    [Fact]
    public async Task Save_OfTheDemo_CopiesTheFilesItNames()
    {
        await using Served served = await Served.Start();
        await served.Answer("save", $$"""{"home": "{{Served.Demo}}", "to": "homes/copy.yaml"}""");
        string copy = Path.Combine(served.Folder, "homes", "copy.yaml");
        Assert.Equal(AnswerApiTests.Cli("compare", Path.Combine(s_demo, "profiles", "demo-home.yaml"), "--json"), AnswerApiTests.Cli("compare", copy, "--json"));
        // It stands alone: every file that it names lies in the library.
        Assert.True(File.Exists(Path.Combine(served.Folder, "homes", "copy-files", "demo-load.csv")));
    }

    [Fact]
    public async Task Save_OverAFileThatIsThere_IsRefusedUnlessSaid()
    {
        await using Served served = await Served.Start();
        byte[] before = Own(served, "mine.yaml");
        Assert.Contains("is there already", await served.Problem("save", $$"""{"home": "{{Served.Demo}}", "to": "mine.yaml"}"""), StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(Path.Combine(served.Folder, "mine.yaml")));
    }

    [Theory]
    [InlineData("../out.yaml")]
    [InlineData("/tmp/out.yaml")]
    [InlineData(".hidden.yaml")]
    [InlineData("a/../../out.yaml")]
    [InlineData("")]
    public async Task Save_OutsideTheLibrary_IsRefused(string to)
    {
        await using Served served = await Served.Start();
        await served.Problem("save", $$"""{"home": "{{Served.Demo}}", "to": "{{to}}"}""");
        Assert.Empty(Directory.GetFiles(served.Folder, "*", SearchOption.AllDirectories));
    }

    [Fact]
    public async Task Save_OfAChoiceThatWouldNotBeRead_LeavesWhatStoodThere()
    {
        await using Served served = await Served.Start();
        byte[] before = Own(served, "mine.yaml");
        string path = Path.Combine(served.Folder, "mine.yaml");
        // A list of what is kept and a share of it exclude each other.
        File.AppendAllText(path, "\n");
        File.WriteAllText(path, File.ReadAllText(path).Replace("outage:", "outage:\n  keptAppliances: [{appliance: lamp, watts: 60}]", StringComparison.Ordinal));
        before = File.ReadAllBytes(path);
        Assert.Contains("Change it by hand", await served.Problem("save", """{"home": "library/mine.yaml", "to": "mine.yaml", "replaces": true, "choices": {"keptFraction": 0.5}}"""), StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllBytes(path));
        Assert.Empty(Directory.GetFiles(served.Folder, ".*"));
    }

    [Fact]
    public async Task Drop_OfMoreBytesThanAllowed_IsRefused()
    {
        await using Served served = await Served.Start(o => o with { MostUploadBytes = 100_000 });
        using var form = new MultipartFormDataContent { { new ByteArrayContent(new byte[300_000]), "files", "big.csv" } };
        using HttpResponseMessage response = await served.Client.PostAsync("/api/v1/drops", form);
        Assert.True(response.StatusCode is HttpStatusCode.RequestEntityTooLarge or HttpStatusCode.BadRequest, response.StatusCode.ToString());
    }

    [Fact]
    public async Task Drop_OfAHomeOfBracketsAlone_LeavesTheServerAlive()
    {
        await using Served served = await Served.Start();
        using var form = new MultipartFormDataContent { { new ByteArrayContent(Encoding.UTF8.GetBytes("home: " + new string('[', 200_000))), "files", "deep.yaml" } };
        using HttpResponseMessage response = await served.Client.PostAsync("/api/v1/drops", form);
        using JsonDocument dropped = JsonDocument.Parse(await response.Content.ReadAsStringAsync());
        string home = dropped.RootElement.GetProperty("home").GetString()!;
        Assert.Contains("deep in each other", await served.Problem("answer", $$"""{"home": "{{home}}"}"""), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Meter_OfTheDemoFile_IsTheLoadOfTheCommandLine()
    {
        await using Served served = await Served.Start();
        using var form = new MultipartFormDataContent { { new ByteArrayContent(File.ReadAllBytes(Path.Combine(s_demo, "profiles", "demo-meter.csv"))), "files", "demo-meter.csv" } };
        using HttpResponseMessage response = await served.Client.PostAsync("/api/v1/drops", form);
        using JsonDocument dropped = JsonDocument.Parse(await response.Content.ReadAsStringAsync());
        string file = dropped.RootElement.GetProperty("files")[0].GetString()!;
        const string Zone = """{"key": "zone", "value": "America/Denver"}""";
        // It sold, and no record of the roof is there: the same refusal as on the command line.
        Assert.Contains("149.5 kWh were sold", await served.Problem("meter", $$"""{"files": ["{{file}}"], "said": [{{Zone}}]}"""), StringComparison.Ordinal);
        string said = $$"""[{{Zone}}, {"key": "role", "value": "Export (kWh)=ignore"}, {"key": "fill", "value": "yes"}]""";
        using JsonDocument meter = JsonDocument.Parse(await served.Answer("meter", $$"""{"files": ["{{file}}"], "said": {{said}}}"""));
        string path = Path.Combine(served.Folder, "load.csv");
        AnswerApiTests.Cli("import", Path.Combine(s_demo, "profiles", "demo-meter.csv"), "--zone", "America/Denver", "--role", "Export (kWh)=ignore", "--fill", "--out", path);
        double kwh = File.ReadLines(path).Skip(1).Sum(l => double.Parse(l.Split(',')[1], System.Globalization.CultureInfo.InvariantCulture)) / 4;
        Assert.Equal(kwh, meter.RootElement.GetProperty("loadKwh").GetDouble(), 0.001);
    }

    [Fact]
    [Trait("needs", "speed")]
    public async Task Job_OfEveryStart_EndsWithTheDocumentOfTheCommandLine()
    {
        await using Served served = await Served.Start();
        using HttpResponseMessage begun = await served.Post("jobs", $$"""{"home": "{{Served.Demo}}", "kind": "starts", "choices": {"outageStart": "2025-01-15T18:00", "outageHours": 24} }""");
        Assert.Equal(HttpStatusCode.Accepted, begun.StatusCode);
        using JsonDocument job = JsonDocument.Parse(await begun.Content.ReadAsStringAsync());
        string id = job.RootElement.GetProperty("id").GetString()!, state = "waiting";
        for (int i = 0; i < 600 && state is "waiting" or "running"; i++)
        {
            await Task.Delay(200);
            using JsonDocument now = JsonDocument.Parse(await served.Client.GetStringAsync($"/api/v1/jobs/{id}"));
            state = now.RootElement.GetProperty("state").GetString()!;
        }
        Assert.Equal("done", state);
        Assert.Equal(
            AnswerApiTests.Cli("outage", Path.Combine(s_demo, "profiles", "demo-home.yaml"), "--start", "2025-01-15T18:00", "--hours", "24", "--frontier", "--json"),
            await served.Client.GetStringAsync($"/api/v1/jobs/{id}/result"));
    }

    private static byte[] Own(Served served, string name)
    {
        string text = File.ReadAllText(Path.Combine(s_demo, "profiles", "demo-home.yaml")).Replace("../tariffs/", "", StringComparison.Ordinal);
        foreach (string csv in (string[])["demo-load.csv", "demo-solar.csv"]) File.Copy(Path.Combine(s_demo, "profiles", csv), Path.Combine(served.Folder, csv));
        foreach (string plan in (string[])["marrow-creek-evening-peak.yaml", "marrow-creek-evening-peak-new.yaml"]) File.Copy(Path.Combine(s_demo, "tariffs", plan), Path.Combine(served.Folder, plan));
        string path = Path.Combine(served.Folder, name);
        File.WriteAllText(path, text);
        return File.ReadAllBytes(path);
    }
}
