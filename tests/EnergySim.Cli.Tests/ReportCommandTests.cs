using System.Security.Cryptography;
using System.Text.Json;
using EnergySim.TestData;

namespace EnergySim.Cli.Tests;

/// <summary>The verbs <c>report</c> and <c>recompute</c>, on the demo home by the hour and for three years.</summary>
public sealed class ReportCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-cli-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Report_Home_WritesAllThatARivalNeedsAndRecomputeSaysEqualUntilAFigureOrAnInputIsChanged()
    {
        string report = Path.Combine(_folder, "out"), home = QuickHome();
        (int code, string output, string errors) = CommandTests.Run("report", home, "--out", report);
        Assert.Equal((0, ""), (code, errors));
        Assert.Contains("report-letter.pdf", output, StringComparison.Ordinal);
        foreach (string name in (string[])["report-letter.pdf", "report-a4.pdf", "report.html", "report.json", "set-points-1.txt", "charts/bills.png", "charts/bills.svg", "charts/cash.png", "charts/band.svg", "charts/ways-offer-1.png", "charts/reserve-offer-1.png"])
            Assert.True(new FileInfo(Path.Combine(report, name)).Length > 500, name);
        string document = Path.Combine(report, "report.json"), text = File.ReadAllText(document);
        using (JsonDocument json = JsonDocument.Parse(text))
        {
            foreach (JsonElement input in json.RootElement.GetProperty("manifest").GetProperty("inputs").EnumerateArray())
            {
                // The digest is that of the copied file, by the system library.
                string path = Path.Combine(report, "inputs", input.GetProperty("path").GetString()!);
                Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(path))), input.GetProperty("sha256").GetString());
            }
        }
        (code, output, errors) = CommandTests.Run("recompute", document);
        Assert.Equal((0, ""), (code, errors));
        Assert.StartsWith("Equal: ", output, StringComparison.Ordinal);

        string bill = JsonDocument.Parse(text).RootElement.GetProperty("comparison").GetProperty("columns")[1].GetProperty("annualBill").GetRawText();
        // The first such bill only: the same figure may stand in other parts.
        int at = text.IndexOf($"\"annualBill\": {bill}", StringComparison.Ordinal);
        File.WriteAllText(document, text[..at] + "\"annualBill\": 1.23" + text[(at + $"\"annualBill\": {bill}".Length)..]);
        (code, output, _) = CommandTests.Run("recompute", document);
        Assert.Equal(1, code);
        Assert.Contains($"Differs: comparison.columns[1].annualBill: 1.23 in the report, {bill} now.", output, StringComparison.Ordinal);
        Assert.Contains("compared, 1 differ", output, StringComparison.Ordinal);

        File.WriteAllText(document, text);
        string load = Directory.GetFiles(Path.Combine(report, "inputs"), "demo-load.csv", SearchOption.AllDirectories).Single();
        string[] lines = File.ReadAllLines(load);
        lines[^1] = lines[^1][..(lines[^1].LastIndexOf(',') + 1)] + "9.5";
        File.WriteAllLines(load, lines);
        (code, output, _) = CommandTests.Run("recompute", document, "--json");
        Assert.Equal(1, code);
        JsonElement result = JsonDocument.Parse(output).RootElement;
        Assert.False(result.GetProperty("equal").GetBoolean());
        Assert.EndsWith("demo-load.csv", result.GetProperty("changedInputs")[0].GetString(), StringComparison.Ordinal);
        Assert.True(result.GetProperty("differences").GetArrayLength() > 0);
    }

    [Fact]
    public void Report_BadHome_WritesNothing()
    {
        string report = Path.Combine(_folder, "out");
        (int code, _, string errors) = CommandTests.Run("report", Path.Combine(_folder, "none.yaml"), "--out", report);
        Assert.Equal(2, code);
        Assert.Contains("there is no such file", errors, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_folder));
        Assert.Equal(2, CommandTests.Run("report", "--dated", "tomorrow").Code);
    }

    // Copies, so that inputs lie together and may be spoiled.
    private string QuickHome()
    {
        foreach (string part in (string[])["profiles", "tariffs"])
        {
            Directory.CreateDirectory(Path.Combine(_folder, "files", part));
            foreach (string file in Directory.GetFiles(Path.Combine(SharedData.RepositoryRoot, part))) File.Copy(file, Path.Combine(_folder, "files", part, Path.GetFileName(file)));
        }
        string home = Path.Combine(_folder, "files", "profiles", "demo-home.yaml");
        File.WriteAllText(home, File.ReadAllText(home).Replace("  years: 20\n", "  years: 3\n", StringComparison.Ordinal) + "stepMinutes: 60\n");
        return home;
    }
}
