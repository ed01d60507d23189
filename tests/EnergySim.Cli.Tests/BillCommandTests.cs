using System.Text.Json;
using EnergySim.TestData;

namespace EnergySim.Cli.Tests;

public sealed class BillCommandTests : IDisposable
{
    private static readonly string s_evening = TariffOf("marrow-creek-evening-peak.yaml"), s_flat = TariffOf("marrow-creek-flat.yaml");
    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-cli-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static string TariffOf(string name) => Path.Combine(SharedData.RepositoryRoot, "tariffs", name);

    private static (int Code, string Output, string Errors) Run(params string[] args) => CommandTests.Run(args);

    [Fact]
    public void Bill_TheYear_StandsLineByLineAndBillByBill()
    {
        (int code, string output, _) = Run("bill", CommandTests.Demo);
        Assert.Equal(0, code);
        foreach (string words in new[] { "summer peak, supply", "service, a day", "1,278.45", "820.85", "753.63", "2025-07-01 to 2025-07-31", "no read dates are given" })
            Assert.Contains(words, output, StringComparison.Ordinal);
    }

    [Fact]
    public void Bill_OneMonthOfOneOffer_HasPricesAndSubtotals()
    {
        (int code, string output, _) = Run("bill", CommandTests.Demo, "--month", "2025-07", "--offer", "One battery");
        Assert.Equal(0, code);
        foreach (string words in new[] { "bills from 2025-07-01 to 2025-07-31", "delivery, together", "before rounding", "64.71" }) Assert.Contains(words, output, StringComparison.Ordinal);
        Assert.DoesNotContain("winter", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Bill_Difference_SumsToTheSaving()
    {
        (_, string output, _) = Run("bill", CommandTests.Demo, "--difference");
        Assert.Contains("457.60", output, StringComparison.Ordinal);
        Assert.Contains("524.82", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Bill_Json_AgreesWithItself()
    {
        (int code, string output, _) = Run("bill", CommandTests.Demo, "--tariff", s_evening, "--tariff", s_flat, "--json");
        Assert.Equal(0, code);
        JsonElement root = JsonDocument.Parse(output).RootElement;
        Assert.Equal(2, root.GetProperty("plans").GetArrayLength());
        foreach (JsonElement column in root.GetProperty("plans")[0].GetProperty("columns").EnumerateArray())
        {
            decimal bill = column.GetProperty("bill").GetDecimal();
            Assert.Equal(bill, column.GetProperty("lines").EnumerateArray().Sum(l => l.GetProperty("amount").GetDecimal()));
            Assert.Equal(bill, column.GetProperty("bills").EnumerateArray().Sum(b => b.GetProperty("bill").GetDecimal()));
            Assert.Equal(column.GetProperty("saved").GetDecimal(), column.GetProperty("savedByLine").EnumerateArray().Sum(l => l.GetProperty("saved").GetDecimal()));
        }
        Assert.StartsWith("Flat", root.GetProperty("cheapest")[0].GetProperty("tariff").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Bill_SeveralPlans_NamesTheCheapestForEach()
    {
        (_, string output, _) = Run("bill", CommandTests.Demo, "--tariff", s_evening, "--tariff", s_flat);
        Assert.Contains("as it is: cheapest on Flat, prices of 2025-01-01, 1,152.64, 125.81 less than on Evening peak", output, StringComparison.Ordinal);
        Assert.Contains("Two batteries: cheapest on Evening peak", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Bill_AgainstItsOwnCsv_AgreesAndAgainstAnother_SaysWhichLine()
    {
        string csv = Path.Combine(_folder, "bills.csv");
        Assert.Equal(0, Run("bill", CommandTests.Demo, "--csv", csv).Code);
        (int code, string output, _) = Run("bill", CommandTests.Demo, "--against", csv);
        Assert.Equal(0, code);
        Assert.Contains("the same to the cent", output, StringComparison.Ordinal);
        File.WriteAllText(csv, File.ReadAllText(csv).Replace(",0.3,48.78", ",0.32,52.03", StringComparison.Ordinal));
        (code, output, _) = Run("bill", CommandTests.Demo, "--against", csv);
        Assert.Equal(1, code);
        Assert.Contains("price -0.02", output, StringComparison.Ordinal);
        (code, output, _) = Run("bill", CommandTests.Demo, "--against", csv, "--json");
        Assert.Equal(1, code);
        Assert.False(JsonDocument.Parse(output).RootElement.GetProperty("agrees").GetBoolean());
    }

    [Theory]
    [InlineData("--month 2025-13", "--month \"2025-13\" is no month such as 2025-07")]
    [InlineData("--month 2024-01", "--month 2024-01: no bill has a day in it")]
    [InlineData("--offer Three", "--offer \"Three\" is none of \"as it is\"")]
    public void Bill_WrongWord_IsBadInput(string option, string message)
    {
        (int code, _, string errors) = Run(["bill", CommandTests.Demo, .. option.Split(' ')]);
        Assert.Equal(2, code);
        Assert.Contains(message, errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Bill_OneBillOfSeveralPlans_IsRefused()
    {
        (int code, _, string errors) = Run("bill", CommandTests.Demo, "--tariff", s_evening, "--tariff", s_flat, "--month", "2025-07");
        Assert.Equal(2, code);
        Assert.Contains("--month speaks of one plan", errors, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_SoundPlan_ShowsWhatWasUnderstood()
    {
        (int code, string output, _) = Run("check", s_evening);
        Assert.Equal(0, code);
        foreach (string words in new[] { "  Jul        oooooooooooommmmmmmmmmmmmmmmmmmmPPPPPPPPPPoooooo  summer", "P peak   m mid   o off-peak", "117.31", "Nothing found wrong" })
            Assert.Contains(words, output, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_PlanWithAGap_FindsTheMinute()
    {
        string plan = Path.Combine(_folder, "gap.yaml");
        File.WriteAllText(plan, File.ReadAllText(s_evening).Replace("from: \"21:00\", to: \"06:00\"", "from: \"21:30\", to: \"06:00\"", StringComparison.Ordinal));
        (int code, string output, string errors) = Run("check", plan, "--json");
        Assert.Equal(1, code);
        Assert.Empty(errors);
        Assert.Contains(JsonDocument.Parse(output).RootElement.GetProperty("findings").EnumerateArray(), f => f.GetString()!.Contains("the minute 21:00 is in no period", StringComparison.Ordinal));
    }

    [Fact]
    public void Check_NoSuchFile_IsBadInput() => Assert.Equal(2, Run("check", Path.Combine(_folder, "none.yaml")).Code);

    [Fact]
    public void Strategies_Json_TellsStrategiesAndCausesThatSumToTheSaving()
    {
        (int code, string output, _) = Run("strategies", CommandTests.Demo, "--json");
        Assert.Equal(0, code);
        JsonElement offer = JsonDocument.Parse(output).RootElement.GetProperty("offers")[0];
        JsonElement own = offer.GetProperty("strategies")[0];
        Assert.True(own.GetProperty("isTheOffers").GetBoolean());
        Assert.Equal(457.60m, own.GetProperty("saved").GetDecimal());
        Assert.Equal(457.60m, offer.GetProperty("causes").EnumerateObject().Sum(c => c.Value.GetDecimal()));
        Assert.False(offer.TryGetProperty("bound", out _));
        string[] told = [.. offer.GetProperty("strategies").EnumerateArray().Select(s => s.GetProperty("description").GetString()!)];
        Assert.Equal(told.Length, told.Distinct().Count());
        Assert.Contains("peak-window; reserve 20 %; keepsForDearest; overnight 00:00–05:00 to 100 %, as 5 like days lead one to expect", told);
    }

    [Fact]
    public void Strategies_Text_ExplainsEachAndShowsAWeek()
    {
        (int code, string output, _) = Run("strategies", CommandTests.Demo, "--week", "2025-07-14");
        Assert.Equal(0, code);
        foreach (string words in new[] { "hold            The battery stays full", "planned         Each day", "why One battery saves", "Mon Jul 14 ································DDDDDDDDDD······", "D serves the house" })
            Assert.Contains(words, output, StringComparison.Ordinal);
    }

    [Fact]
    public void Strategies_Out_DrawsTheWeekOfAnOffer()
    {
        string picture = Path.Combine(_folder, "week.svg");
        (int code, string output, _) = Run("strategies", CommandTests.Demo, "--week", "2025-07-14", "--out", picture, "--offer", "Two batteries", "--phone");
        Assert.Equal((0, true), (code, output.Contains($"Written: {picture}", StringComparison.Ordinal)));
        Assert.Contains("Two batteries: a week of set-points", File.ReadAllText(picture), StringComparison.Ordinal);
        (code, _, string errors) = Run("strategies", CommandTests.Demo, "--out", picture, "--offer", "Three");
        Assert.Equal(2, code);
        Assert.Contains("--offer: there is no offer called \"Three\"; there are One battery, Two batteries", errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("soon", "--week \"soon\" is no date")]
    [InlineData("2024-07-14", "--week 2024-07-14: the data run from 2025-01-01 to 2025-12-31")]
    public void Strategies_WeekThatIsNone_IsBadInput(string week, string message)
    {
        (int code, _, string errors) = Run("strategies", CommandTests.Demo, "--week", week);
        Assert.Equal(2, code);
        Assert.Contains(message, errors, StringComparison.Ordinal);
    }
}
