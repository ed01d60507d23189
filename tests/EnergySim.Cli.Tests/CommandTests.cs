using System.Text.Json;
using EnergySim.TestData;

namespace EnergySim.Cli.Tests;

public sealed class CommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-cli-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    internal static (int Code, string Output, string Errors) Run(params string[] args)
    {
        var output = new StringWriter();
        var errors = new StringWriter();
        return (Commands.Invoke(args, output, errors), output.ToString(), errors.ToString());
    }

    internal static string Demo => Path.Combine(SharedData.RepositoryRoot, "profiles", "demo-home.yaml");

    [Fact]
    public void NoArguments_RunTheDemoAndSayWhatIsNext()
    {
        (int code, string output, string errors) = Run();
        Assert.Equal(0, code);
        Assert.Empty(errors);
        Assert.Contains("1,278.45", output, StringComparison.Ordinal);
        Assert.Contains("Next: energysim compare", output, StringComparison.Ordinal);
        Assert.DoesNotContain('\u001b', output);
    }

    [Fact]
    public void Compare_Json_IsOneDocumentWithTheAgreedKeys()
    {
        (int code, string output, _) = Run("compare", Demo, "--json");
        Assert.Equal(0, code);
        JsonElement root = JsonDocument.Parse(output).RootElement;
        foreach (string key in new[] { "home", "tariff", "stepMinutes", "from", "to", "columns" }) Assert.True(root.TryGetProperty(key, out _), key);
        JsonElement column = root.GetProperty("columns")[2];
        foreach (string key in new[]
        {
            "name", "batteryUnits", "price", "annualBill", "annualSaving", "addedSaving", "importKwh", "exportKwh", "loadKwh", "solarKwh",
            "curtailedKwh", "ownSupplyFraction", "equivalentFullCycles", "limitHours", "months",
        })
            Assert.True(column.TryGetProperty(key, out _), key);
        JsonElement month = column.GetProperty("months")[0];
        Assert.Equal("2025-01-01", month.GetProperty("from").GetString());
        Assert.Equal("2025-01-31", month.GetProperty("to").GetString());
        Assert.Equal(month.GetProperty("bill").GetDecimal(), month.GetProperty("lines").EnumerateArray().Sum(l => l.GetProperty("amount").GetDecimal()));
        foreach (string key in new[] { "name", "quantity", "unit", "unitPrice", "amount" }) Assert.True(month.GetProperty("lines")[0].TryGetProperty(key, out _), key);
    }

    [Fact]
    public void Compare_OtherTariff_UsesIt()
    {
        (int code, string output, _) = Run("compare", Demo, "--tariff", Path.Combine(SharedData.RepositoryRoot, "tariffs", "marrow-creek-flat.yaml"));
        Assert.Equal(0, code);
        Assert.Contains("· Flat, prices of 2025-01-01", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Compare_Ledger_WritesAFileAColumn()
    {
        (int code, _, _) = Run("compare", Demo, "--ledger", Path.Combine(_folder, "l.csv"));
        Assert.Equal(0, code);
        Assert.Equal(["l-as-it-is.csv", "l-one-battery.csv", "l-two-batteries.csv"], Directory.GetFiles(_folder).Select(Path.GetFileName).Order());
        string[] lines = File.ReadAllLines(Path.Combine(_folder, "l-one-battery.csv"));
        Assert.Equal(35041, lines.Length);
        // The header of ENGINE §5.
        Assert.Equal(
            "start_utc,start_local,load_kw,standby_kw,solar_dc_kw,solar_ac_kw,clipped_input_kw,solar_dc_to_load_kw,solar_ac_to_load_kw,solar_dc_to_cells_kw,"
            + "solar_ac_to_cells_kw,grid_to_cells_kw,inverter_in_kw,inverter_out_kw,cells_to_load_kw,cells_to_grid_kw,solar_to_grid_kw,curtailed_dc_kw,curtailed_ac_kw,"
            + "import_kw,export_kw,unserved_kw,overload_kw,stored_kwh,dark,limits", lines[0]);
        Assert.StartsWith("2025-01-01T07:00:00Z,2025-01-01T00:00:00-07:00,", lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Compare_LedgersOfOffersThatDifferOnlyInSigns_AreFilesOfTheirOwn()
    {
        string text = File.ReadAllText(Demo).Replace("Two batteries", "One battery!", StringComparison.Ordinal);
        string home = Path.Combine(_folder, "home.yaml");
        File.WriteAllText(home, text.Replace("file: demo-", $"file: {Path.GetDirectoryName(Demo)}/demo-", StringComparison.Ordinal)
            .Replace("../tariffs", Path.Combine(SharedData.RepositoryRoot, "tariffs"), StringComparison.Ordinal));
        Assert.Equal(0, Run("compare", home, "--ledger", Path.Combine(_folder, "l.csv")).Code);
        Assert.Equal(["l-as-it-is.csv", "l-one-battery-2.csv", "l-one-battery.csv"], Directory.GetFiles(_folder, "*.csv").Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Chart_WritesTheTwoKinds()
    {
        string png = Path.Combine(_folder, "s.png"), svg = Path.Combine(_folder, "s.svg");
        Assert.Equal(0, Run("chart", Demo, "--out", png).Code);
        Assert.Equal(0, Run("chart", Demo, "--out", svg).Code);
        Assert.Equal<byte>([0x89, (byte)'P', (byte)'N', (byte)'G'], File.ReadAllBytes(png)[..4]);
        Assert.Contains("<title", File.ReadAllText(svg), StringComparison.Ordinal);
    }

    [Fact]
    public void Chart_OtherEnding_IsRefusedAndNothingWritten()
    {
        (int code, _, string errors) = Run("chart", Demo, "--out", Path.Combine(_folder, "s.gif"));
        Assert.Equal(2, code);
        Assert.Contains("neither .png nor .svg", errors, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(_folder));
    }

    [Theory]
    [InlineData("load_kw\n2025-01-01T00:00:00Z", "load_kw")]
    [InlineData("start,load_kw\n2025-01-01T00:00:00-07:00,1\n2025-01-01T00:15:00-07:00,-0.3", "is below 0")]
    [InlineData("start,load_kw\n2025-01-01T00:00:00-07:00,1\n2025-01-01T00:15:00-07:00,NaN", "NaN")]
    [InlineData("start,load_kw\n2025-01-01T00:00:00-07:00,1\n2025-01-01T00:15:00-07:00,1\n2025-01-01T00:45:00-07:00,1", "line 4")]
    [InlineData("start,load_kw\n2025-01-01T00:00:00-07:00,1\n2025-01-01T00:15:00-07:00,1\n2025-01-01T00:15:00-07:00,1", "line 4")]
    public void Compare_BadProfile_SaysWhereAndWritesNothing(string csv, string part)
    {
        File.WriteAllText(Path.Combine(_folder, "load.csv"), csv + "\n");
        string home = WriteHome("load: {file: load.csv, column: load_kw, unit: kW, stamp: start}");
        (int code, string output, string errors) = Run("compare", home, "--ledger", Path.Combine(_folder, "out.csv"));
        Assert.Equal(2, code);
        Assert.Empty(output);
        Assert.Contains("load.csv", errors, StringComparison.Ordinal);
        Assert.Contains(part, errors, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(_folder, "out*"));
    }

    [Theory]
    [InlineData("reserve: 0.2", "reserve: 1.2", "\"1.2\" is above 1")]
    [InlineData("dischargeLimitKw: 5", "dischargeLimitKw: 0", "\"0\" is not above 0")]
    [InlineData("dischargeLimitKw: 5", "dischrgeLimitKw: 5", "dischargeLimitKw")]
    [InlineData("battery: tenfold\n    units: 1", "battery: tenfld\n    units: 1", "the nearest is tenfold")]
    [InlineData("mainAmps: 200", "mainAmps: -200", "\"-200\" is not above 0")]
    [InlineData("zone: America/Denver", "zone: America/Chicago", "is read on the clock of America/Denver, the home is in America/Chicago")]
    public void Compare_BadHome_SaysFileLineFieldValueRule(string right, string wrong, string part)
    {
        string text = File.ReadAllText(Demo);
        Assert.Contains(right, text, StringComparison.Ordinal);
        string profiles = Path.GetDirectoryName(Demo)!;
        string home = Path.Combine(_folder, "home.yaml");
        File.WriteAllText(home, text.Replace(right, wrong, StringComparison.Ordinal)
            .Replace("file: demo-", $"file: {profiles}/demo-", StringComparison.Ordinal).Replace("../tariffs", Path.Combine(SharedData.RepositoryRoot, "tariffs"), StringComparison.Ordinal));
        (int code, string output, string errors) = Run("compare", home);
        Assert.Equal(2, code);
        Assert.Empty(output);
        Assert.Contains("home.yaml line ", errors, StringComparison.Ordinal);
        Assert.Contains(part, errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Compare_TariffWithAGap_NamesTheMinute()
    {
        string tariff = Path.Combine(_folder, "gap.yaml");
        File.WriteAllText(tariff, File.ReadAllText(Path.Combine(SharedData.RepositoryRoot, "tariffs", "marrow-creek-evening-peak.yaml"))
            .Replace("from: \"21:00\", to: \"06:00\"", "from: \"21:30\", to: \"06:00\"", StringComparison.Ordinal));
        (int code, _, string errors) = Run("compare", Demo, "--tariff", tariff);
        Assert.Equal(2, code);
        Assert.Contains("21:00 is in no period", errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("compare", "--nonsense")]
    [InlineData("nonsense")]
    public void WrongCall_IsRefused(params string[] args) => Assert.Equal(2, Run(args).Code);

    [Fact]
    public void Compare_HomeThatIsNotThere_SaysSo()
    {
        (int code, _, string errors) = Run("compare", Path.Combine(_folder, "none.yaml"));
        Assert.Equal(2, code);
        Assert.Contains("none.yaml", errors, StringComparison.Ordinal);
    }

    private string WriteHome(string series)
    {
        string home = Path.Combine(_folder, "home.yaml");
        string[] lines =
        [
            "home: test",
            "zone: America/Denver",
            $"tariff: {SharedData.RepositoryRoot}/tariffs/marrow-creek-flat.yaml",
            series,
            "batteries:",
            "  b: {capacityKwh: 10, chargeLimitKw: 5, dischargeLimitKw: 5, inverterKw: 5}",
            "offers: [{offer: one, battery: b, units: 1, strategy: {base: self-use}}]",
        ];
        File.WriteAllLines(home, lines);
        return home;
    }

    [Fact]
    public void Outage_Json_TellsEveryStartAndOneOutage()
    {
        (int code, string output, _) = Run("outage", Demo, "--start", "2025-01-15T18:00", "--hours", "24", "--horizon", "48", "--kept", "0.5", "--json");
        Assert.Equal(0, code);
        JsonElement root = JsonDocument.Parse(output).RootElement;
        JsonElement offer = root.GetProperty("offers")[1];
        Assert.Equal(35040, offer.GetProperty("lasting").GetProperty("starts").GetInt32());
        Assert.Equal(JsonValueKind.Null, offer.GetProperty("lasting").GetProperty("atLeastFraction").GetProperty("72").ValueKind);
        Assert.Equal("2025-01-15T18:00", offer.GetProperty("named").GetProperty("start").GetString());
        Assert.Equal(96, offer.GetProperty("named").GetProperty("hoursLeftWithoutSun").GetArrayLength());
    }

    [Fact]
    public void Outage_Text_TellsTheStoryAndTheCautions()
    {
        (int code, string output, _) = Run("outage", Demo, "--horizon", "24", "--charge", "full");
        Assert.Equal(0, code);
        foreach (string words in new[] { "starts that last 24 h", "nine starts in ten last", "on the same starts", "the grid fails on", "change", "medical equipment", "local codes" })
            Assert.Contains(words, output, StringComparison.Ordinal);
        Assert.DoesNotContain("starts that last 72 h", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Outage_FrontierAndCharts_AreToldAndWritten()
    {
        (int code, string output, string errors) = Run("outage", ShortHome(), "--horizon", "48", "--hours", "24", "--storm-lead", "6", "--wish-hours", "4", "--wish-share", "0.5", "--frontier", "--charts", _folder);
        Assert.True(code == 0, errors);
        foreach (string words in new[] { "One battery, reserve by reserve", "For 50 % of outages of 4 h", "after 6 h with all of it as reserve", "starting current: no; cooling draws 79 A", "Can Two batteries carry what is kept?" })
            Assert.Contains(words, output, StringComparison.Ordinal);
        foreach (string name in new[] { "stored-energy", "lasting", "starts-offer-1", "starts-offer-2", "reserve-offer-1", "reserve-offer-2" })
        {
            Assert.True(new FileInfo(Path.Combine(_folder, name + ".png")).Length > 10_000, name);
            Assert.StartsWith("<svg", File.ReadAllText(Path.Combine(_folder, name + ".svg")), StringComparison.Ordinal);
        }
        (code, _, errors) = Run("outage", ShortHome(), "--charts", Path.Combine(_folder, "absent"));
        Assert.Equal(2, code);
        Assert.Contains("there is no folder", errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Outage_JsonWithFrontier_TellsVerdictsChangesAndPoints()
    {
        (int code, string output, string errors) = Run("outage", ShortHome(), "--horizon", "48", "--frontier", "--json");
        Assert.True(code == 0, errors);
        JsonElement root = JsonDocument.Parse(output).RootElement;
        JsonElement offer = root.GetProperty("offers")[0];
        Assert.Equal("no", offer.GetProperty("verdicts").GetProperty("starting").GetProperty("acrossTheLine").GetString());
        Assert.NotEqual(0, offer.GetProperty("changes").GetArrayLength());
        Assert.Equal(12, offer.GetProperty("halfLastHoursByMonthAndStartHour").GetArrayLength());
        JsonElement points = root.GetProperty("frontier").GetProperty("offers")[1].GetProperty("points");
        Assert.Equal(11, points.GetArrayLength());
        foreach (string key in new[] { "reserveFraction", "annualSaving", "lasting", "wishLastedFraction" }) Assert.True(points[3].TryGetProperty(key, out _), key);
    }

    // The demo home of the first ten days by the hour, with a motor to start.
    private string ShortHome()
    {
        string profiles = Path.GetDirectoryName(Demo)!, text = File.ReadAllText(Demo);
        foreach (string file in new[] { "demo-load.csv", "demo-solar.csv" })
            File.WriteAllLines(Path.Combine(_folder, file), File.ReadLines(Path.Combine(profiles, file)).Take(1 + (96 * 10)));
        text = text[..text.IndexOf("\noutage:", StringComparison.Ordinal)].Replace("../tariffs/", Path.Combine(SharedData.RepositoryRoot, "tariffs") + "/", StringComparison.Ordinal)
            .Replace("surgeAmps: 60", "surgeAmps: 35", StringComparison.Ordinal);
        string path = Path.Combine(_folder, "short.yaml");
        File.WriteAllText(path, text + "\nstepMinutes: 60\noutage:\n  motors: [{motor: cooling, tons: 3}]\n");
        return path;
    }

    [Fact]
    public void Outage_StartThatIsNoDate_IsBadInput()
    {
        (int code, _, string errors) = Run("outage", Demo, "--start", "yesterday");
        Assert.Equal(2, code);
        Assert.Contains("--start \"yesterday\" is not a local date", errors, StringComparison.Ordinal);
    }
}
