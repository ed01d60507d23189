using System.Text.Json;
using EnergySim.Cli;

namespace EnergySim.Web.Tests;

/// <summary>The API against the command line: the same home asked both ways gives the same document.</summary>
public class AnswerApiTests
{
    private static readonly string s_demo = Path.Combine(AppContext.BaseDirectory, "demo", "profiles", "demo-home.yaml");

    [Theory]
    [InlineData("compare", "compare")]
    [InlineData("wiring", "wiring", Traits = ["needs", "speed"])]
    [InlineData("lifetime", "lifetime", Traits = ["needs", "speed"])]
    public async Task Document_OfTheHomeAsItsFilesSay_IsTheCommandLines(string path, string verb)
    {
        await using Served served = await Served.Start();
        Assert.Equal(Cli(verb, s_demo, "--json"), await served.Answer(path, Asked("{}")));
    }

    [Fact]
    public async Task Outage_WithChoices_IsTheCommandLinesWithOptions()
    {
        await using Served served = await Served.Start();
        string answer = await served.Answer("outage", Asked("""{"sunFraction": 0.3, "outageHours": 48, "keptFraction": 0.5, "outageStart": "2025-01-15T18:00"}"""));
        Assert.Equal(Cli("outage", s_demo, "--cloud", "0.3", "--hours", "48", "--kept", "0.5", "--start", "2025-01-15T18:00", "--json"), answer);
    }

    [Fact]
    public async Task Compare_WithAPlan_IsTheCommandLinesWithThatTariff()
    {
        await using Served served = await Served.Start();
        string tariff = Path.Combine(AppContext.BaseDirectory, "demo", "tariffs", "marrow-creek-flat.yaml");
        string answer = await served.Answer("compare", $$"""{"home": "{{Served.Demo}}", "plan": "demo/tariffs/marrow-creek-flat.yaml"}""");
        Assert.Equal(Cli("compare", s_demo, "--tariff", tariff, "--json"), answer);
    }

    // What the slider says must be what a file with the same number says.
    [Fact]
    public async Task Compare_WithAReserve_IsTheCommandLinesOfAFileThatSaysSo()
    {
        await using Served served = await Served.Start();
        string answer = await served.Answer("compare", Asked("""{"reserveFraction": 0.55}"""));
        string changed = Path.Combine(served.Folder, "demo-home.yaml");
        string text = File.ReadAllText(s_demo).Replace("reserve: 0.2", "reserve: 0.55", StringComparison.Ordinal).Replace("../tariffs", Path.Combine(AppContext.BaseDirectory, "demo", "tariffs"), StringComparison.Ordinal);
        File.WriteAllText(changed, text);
        foreach (string csv in (string[])["demo-load.csv", "demo-solar.csv"]) File.Copy(Path.Combine(Path.GetDirectoryName(s_demo)!, csv), Path.Combine(served.Folder, csv));
        Assert.Equal(Cli("compare", changed, "--json"), answer);
    }

    [Fact]
    public async Task Answer_HoldsTheComparisonAndTheNamedOutage()
    {
        await using Served served = await Served.Start();
        using JsonDocument answer = JsonDocument.Parse(await served.Answer("answer", Asked("""{"outageStart": "2025-01-15T18:00", "outageHours": 24, "keptFraction": 0.4}""")));
        using JsonDocument compare = JsonDocument.Parse(await served.Answer("compare", Asked("{}")));
        Assert.Equal(compare.RootElement.GetProperty("columns").GetRawText().Replace(" ", "", StringComparison.Ordinal), answer.RootElement.GetProperty("comparison").GetProperty("columns").GetRawText().Replace(" ", "", StringComparison.Ordinal));
        using JsonDocument outage = JsonDocument.Parse(Cli("outage", s_demo, "--start", "2025-01-15T18:00", "--hours", "24", "--kept", "0.4", "--json"));
        for (int i = 0; i < 2; i++)
            Assert.Equal(Flat(outage.RootElement.GetProperty("offers")[i].GetProperty("named")), Flat(answer.RootElement.GetProperty("outage").GetProperty("offers")[i].GetProperty("named")));
    }

    [Fact]
    public async Task Answer_WithUnitsThatNoOfferPrices_LeavesThePriceOpen()
    {
        await using Served served = await Served.Start();
        using JsonDocument answer = JsonDocument.Parse(await served.Answer("answer", Asked("""{"units": {"Two batteries": 3}}""")));
        JsonElement third = answer.RootElement.GetProperty("comparison").GetProperty("columns")[2];
        Assert.Equal("Three batteries", third.GetProperty("name").GetString());
        Assert.Equal(JsonValueKind.Null, third.GetProperty("price").ValueKind);
        Assert.Contains("No price is stated", answer.RootElement.GetProperty("notes")[0].GetString(), StringComparison.Ordinal);
    }

    // The bill by a way must be the one that the ways compared give it.
    [Fact]
    public async Task Answer_ByAWay_HasTheBillOfThatWay()
    {
        await using Served served = await Served.Start();
        using JsonDocument ways = JsonDocument.Parse(await served.Answer("wiring", Asked("{}")));
        JsonElement way = ways.RootElement.GetProperty("offers")[1].GetProperty("ways").EnumerateArray().First(w => w.GetProperty("way").GetString() == "Whole home at the entrance");
        using JsonDocument answer = JsonDocument.Parse(await served.Answer("answer", Asked("""{"way": "Whole home at the entrance"}""")));
        Assert.Equal(way.GetProperty("annualBill").GetDecimal(), answer.RootElement.GetProperty("comparison").GetProperty("columns")[2].GetProperty("annualBill").GetDecimal());
    }

    [Fact]
    public async Task Causes_SumToTheSaving()
    {
        await using Served served = await Served.Start();
        using JsonDocument causes = JsonDocument.Parse(await served.Answer("causes", Asked("{}")));
        foreach (JsonElement offer in causes.RootElement.GetProperty("offers").EnumerateArray())
            Assert.Equal(offer.GetProperty("annualSaving").GetDecimal(), offer.GetProperty("causes").EnumerateObject().Sum(c => c.Value.GetDecimal()));
    }

    // The hours of every day are those of the ledger: their bought energy sums to the column's.
    [Fact]
    public async Task Day_OverAWeek_SumsToTheLedgersRows()
    {
        await using Served served = await Served.Start();
        string[] ledger = (await served.Answer("ledger", $$"""{"home": "{{Served.Demo}}", "column": 2}""")).Split('\n');
        int import = Array.IndexOf(ledger[0].Split(','), "import_kw");
        // The day on which the clock springs forward has 23 hours.
        foreach ((string date, int hours) in new[] { ("2025-03-09", 23), ("2025-07-15", 24), ("2025-11-02", 25) })
        {
            using JsonDocument day = JsonDocument.Parse(await served.Answer("day", $$"""{"home": "{{Served.Demo}}", "column": 2, "date": "{{date}}"}"""));
            JsonElement told = day.RootElement.GetProperty("hours");
            Assert.Equal(hours, told.GetArrayLength());
            double rows = ledger.Where(l => l.Contains($",{date}T", StringComparison.Ordinal)).Sum(l => double.Parse(l.Split(',')[import], System.Globalization.CultureInfo.InvariantCulture)) / 4;
            Assert.Equal(rows, told.EnumerateArray().Sum(h => h.GetProperty("boughtKwh").GetDouble()), 1e-4);
        }
    }

    [Theory]
    [InlineData("""{"reserveFraction": 1.5}""", "reserve: 1.5 does not lie between 0 and 1.")]
    [InlineData("""{"outageHours": 0}""", "hours: 0 does not lie")]
    [InlineData("""{"units": {"No such": 2}}""", "There is no offer called")]
    [InlineData("""{"way": "By magic"}""", "There is no way called")]
    [InlineData("""{"outageStart": "tomorrow"}""", "is no local date and time")]
    [InlineData("""{"outageStart": "2031-01-01T00:00"}""", "the data go from 2025-01-01 to 2025-12-31")]
    [InlineData("""{"parts": {"well pump": true}}""", "There is no part of the house called")]
    public async Task Answer_OfAChoiceThatDoesNotFit_SaysWhich(string choices, string sentence)
    {
        await using Served served = await Served.Start();
        Assert.Contains(sentence, await served.Problem("answer", Asked(choices)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Answer_WithAWordThatIsNotKnown_IsRefused()
    {
        await using Served served = await Served.Start();
        using HttpResponseMessage response = await served.Post("answer", Asked("""{"reserv": 0.2}"""));
        Assert.Equal(System.Net.HttpStatusCode.BadRequest, response.StatusCode);
        Assert.Contains("reserv", await response.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task OpenApi_NamesEveryPath()
    {
        await using Served served = await Served.Start();
        using JsonDocument document = JsonDocument.Parse(await served.Client.GetStringAsync("/api/v1/openapi.json"));
        string[] paths = [.. document.RootElement.GetProperty("paths").EnumerateObject().Select(p => p.Name)];
        foreach (string path in (string[])["answer", "compare", "outage", "wiring", "lifetime", "causes", "day", "chart", "ledger", "sheet", "homes", "home", "plans", "jobs", "session"])
            Assert.Contains($"/api/v1/{path}", paths);
    }

    private static string Asked(string choices) => $$"""{"home": "{{Served.Demo}}", "choices": {{choices}}}""";

    private static string Flat(JsonElement element) => JsonSerializer.Serialize(element);

    internal static string Cli(params string[] args)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var errors = new StringWriter();
        Assert.True(Commands.Invoke(args, output, errors) == 0, errors.ToString());
        return output.ToString().TrimEnd('\n');
    }
}
