using System.Text.Json;
using EnergySim.TestData;

namespace EnergySim.Cli.Tests;

public sealed class WiringCommandTests : IDisposable
{
    private static readonly Lazy<(int Code, string Output, string Errors)> s_json = new(() => CommandTests.Run("wiring", SmallPanel, "--json", "--offer", "One battery in place of the inverter"));
    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-wiring-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static string SmallPanel => Path.Combine(SharedData.RepositoryRoot, "profiles", "demo-small-panel.yaml");

    [Fact]
    public void Wiring_Json_IsOneDocumentWithUnitsInItsNames()
    {
        (int code, string output, string errors) = s_json.Value;
        Assert.Equal((0, ""), (code, errors));
        JsonElement root = JsonDocument.Parse(output).RootElement;
        JsonElement offer = root.GetProperty("offers")[0];
        Assert.Equal("Breaker by the busbar rule", offer.GetProperty("cheapestWay").GetString());
        JsonElement way = offer.GetProperty("ways")[0];
        foreach (string key in new[] { "breakerAmps", "outputAmps", "mainAmps", "settingAmps", "wiringPrice", "annualBill", "yearsCost", "limitsKw", "limitLosses", "backup", "verdicts" })
            Assert.True(way.TryGetProperty(key, out _), key);
        Assert.Equal(3.84, way.GetProperty("limitsKw").GetProperty("OUT").GetDouble(), 9);
        JsonElement loss = way.GetProperty("limitLosses")[0];
        Assert.Equal("OUT", loss.GetProperty("limit").GetString());
        Assert.True(loss.GetProperty("billCost").GetDecimal() > 0 && loss.GetProperty("hours").GetDouble() > 0);
        Assert.Equal("705.12(B)(3)(2)", way.GetProperty("verdicts")[1].GetProperty("section").GetString());
        Assert.DoesNotContain("compliant", output, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(3, offer.GetProperty("inverters").GetArrayLength());
    }

    [Fact]
    public void Wiring_TextWithRulesAndPicture_SaysWhoDecides()
    {
        string picture = Path.Combine(_folder, "ways.svg");
        (int code, string output, _) = CommandTests.Run("wiring", SmallPanel, "--offer", "One battery in place of the inverter", "--rules", "--chart", picture);
        Assert.Equal(0, code);
        Assert.Contains("100 A main + 1.25 × 16 A = 120 A ≤ 1.2 × 100 A busbar = 120 A, sources opposite the main [705.12(B)(3)(2)]", output, StringComparison.Ordinal);
        Assert.Contains("To be confirmed by a licensed electrician and the local authority.", output, StringComparison.Ordinal);
        Assert.Contains("the inverters' breaker: ", output, StringComparison.Ordinal);
        Assert.DoesNotContain("compliant", output, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain('\u001b', output);
        Assert.Contains("Ways to connect: One battery", File.ReadAllText(picture), StringComparison.Ordinal);
    }

    [Fact]
    public void Wiring_Sheet_HasLimitsInAmpsAndKw()
    {
        (int code, string output, _) = CommandTests.Run("wiring", SmallPanel, "--offer", "One battery in place of the inverter", "--sheet", "--way", "Guarded busbar, low setting");
        Assert.Equal(0, code);
        Assert.Contains("[ ] Guarded busbar: 24 A · 5.76 kW", output, StringComparison.Ordinal);
        Assert.Contains("[ ] Import from the grid, most: 80 A · 19.2 kW", output, StringComparison.Ordinal);
        Assert.Contains("[ ] Agreement's rule: charges only from solar", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--offer: there is no offer called \"Three\"; there are One battery in place of the inverter, Two batteries in place of the inverter.", "--offer", "Three")]
    [InlineData("--way: only --sheet asks for one way.", "--way", "Supply side")]
    [InlineData("--chart: \"ways.gif\" is neither .png nor .svg.", "--chart", "ways.gif")]
    public void Wiring_CallThatDoesNotFit_SaysSo(string sentence, params string[] words)
    {
        (int code, _, string errors) = CommandTests.Run(["wiring", SmallPanel, .. words]);
        Assert.Equal((2, sentence), (code, errors.Trim()));
    }
}
