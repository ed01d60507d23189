using EnergySim.Wiring;

namespace EnergySim.Files.Tests.Homes;

/// <summary>One bad wiring section a rule.</summary>
public sealed class WiringProblemTests : IDisposable
{
    private const string Sound = """
        home: Plain
        zone: America/New_York
        load: { file: two-days.csv, column: load_kw, unit: kW, stamp: start }
        tariff: evening-peak.yaml
        batteries:
          ten: { capacityKwh: 10, chargeLimitKw: 5, dischargeLimitKw: 5, inverterKw: 5 }
        offers: [{ offer: One, battery: ten, units: 1, breakerAmps: 30, strategy: { base: self-use } }]
        service: { volts: 240, mainAmps: 200 }
        wiring: { busbarAmps: 200, feeders: [{ feeder: barn, breakerAmps: 60, conductorAmps: 65 }], ways: [{ way: W, connects: guarded-busbar }] }

        """;

    private readonly TempFolder _folder = new();

    public WiringProblemTests()
    {
        foreach (string file in (string[])["two-days.csv", "evening-peak.yaml"]) _folder.Write(file, Sample.Text(file));
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Read_SoundFile_FillsThePlan()
    {
        Home home = HomeFile.Read(_folder.Write("h.yaml", Sound)).Home;
        Assert.Equal((200, 200, false, 2020), (home.Wiring!.Panel.BusbarAmps, home.Wiring.Panel.MainAmps, home.Wiring.EditionIsStated, home.Wiring.Edition.Year));
        Assert.Equal((ConnectionKind.GuardedBusbar, KeptRunning.Nothing), (home.Wiring.Ways[0].Connects, home.Wiring.Ways[0].Keeps));
        Assert.All(home.Wiring.Ways[0].CostsOrPlaceholders, c => Assert.True(c.IsPlaceholder));
    }

    [Fact]
    public void Read_EveryKey_FillsEveryRecord()
    {
        Home home = HomeFile.Read(Sample.PathOf("every-home-key.yaml")).Home;
        WiringPlan plan = home.Wiring!;
        Assert.Equal((2023, true, 0.6, 2.5, 12, 900m, 700m), (plan.Edition.Year, plan.EditionIsStated, plan.KeptFraction, plan.LargestLegKw, plan.Years, plan.ReplaceWorkPrice, plan.SplitWorkPrice));
        ServicePanel panel = plan.Panel;
        Assert.Equal((208, 125, 125, 150, SourceEnd.CentreFed, 3, 180d, 25d), (panel.Volts, panel.MainAmps, panel.BusbarAmps, panel.ServiceAmps, panel.SourceEnd, panel.FreeSpaces, panel.LoadBreakersAmps, panel.SolarBreakerAmps));
        Assert.Equal(new Feeder { Name = "barn", BreakerAmps = 60, ConductorAmps = 65, DownstreamBreakerAmps = 50, TapAmps = 40, TapFeet = 12, LoadFraction = 0.25 }, panel.Feeders[0]);
        DwellingLoads loads = plan.Loads!;
        Assert.Equal((1500, 3, 2, 500d), (loads.AreaSquareFeet, loads.SmallApplianceCircuits, loads.LaundryCircuits, loads.AddedVa));
        Assert.Equal([new Appliance("range", 9000, ApplianceKind.Range), new Appliance("pump", 1200)], loads.Appliances);
        Assert.Equal([new ClimateLoad(ClimateKind.ManyHeaters, 6000)], loads.Climate);
        Assert.Equal(new MeasuredDemand(7.5, false), loads.Measured);
        Assert.Equal((100d, KeptRunning.KeptCircuits), (plan.Ways[0].MainAmps, plan.Ways[0].Keeps));
        Assert.Equal((45d, "barn"), (plan.Ways[1].SettingAmps, plan.Ways[1].Feeder));
        Assert.Equal([new CostItem("guard", 400, 350.5m, 1.5)], plan.Ways[1].Costs);
        Assert.Equal((4, 0.15, 0.5, GrowthRule.Greater, true), (home.Agreement!.AuthorisedKw, home.Agreement.GrowthFraction, home.Agreement.GrowthKw, home.Agreement.GrowthRule, home.Agreement.CountsStorage));
        Assert.Equal((Strategies.IntegrityRule.NeverExports, "Evening Peak"), (home.Agreement.StorageRule, home.Agreement.NewTariff!.Name));
    }

    [Theory]
    [InlineData("mainAmps: 200", "mainAmps: 225", "line 9 column 23, wiring.busbarAmps: \"200\" is below the main of 225 A, which then does not protect the busbar")]
    [InlineData("mainAmps: 200", "mainAmps: 190", "line 8 column 34, service.mainAmps: \"190\" is no standard breaker size (240.6(A)); the nearest are 175 and 200 A")]
    [InlineData(", mainAmps: 200", "", "line 9 column 9, wiring: the wiring needs service.mainAmps, the rating of the main breaker")]
    [InlineData("breakerAmps: 30", "breakerAmps: 33", "line 7 column 61, offers[1].breakerAmps: \"33\" is no standard breaker size (240.6(A)); the nearest are 30 and 35 A")]
    [InlineData("breakerAmps: 60", "breakerAmps: 65", "line 9 column 67, wiring.feeders[1].breakerAmps: \"65\" is no standard breaker size (240.6(A)); the nearest are 60 and 70 A")]
    [InlineData("volts: 240", "volts: 208", "line 9 column 9, wiring: the service has 208 V and the equipment 240 V; state equipmentVolts as its data sheet allows")]
    [InlineData("guarded-busbar }", "guarded-busbar, settingAmps: -5 }", "line 9 column 149, wiring.ways[1].settingAmps: \"-5\" is not above 0")]
    [InlineData("guarded-busbar }", "guarded-busbar, settingAmps: 210 }", "line 9 column 149, wiring.ways[1].settingAmps: \"210\" is above the rating of 200 A that it is to guard")]
    [InlineData("guarded-busbar }", "guarded-feeder, feeder: barn, settingAmps: 61 }", "line 9 column 163, wiring.ways[1].settingAmps: \"61\" is above the rating of 60 A that it is to guard")]
    [InlineData("guarded-busbar }", "guarded-feeder, feeder: bern }", "line 9 column 144, wiring.ways[1].feeder: \"bern\" is no feeder of this panel; the nearest is barn")]
    [InlineData("guarded-busbar }", "guarded-feeder }", "line 9 column 100, wiring.ways[1]: a connection in a sub-panel names its feeder")]
    [InlineData("guarded-busbar }", "supply-side, settingAmps: 50 }", "line 9 column 133, wiring.ways[1].settingAmps: only a guarded busbar or feeder has a setting")]
    [InlineData("guarded-busbar }", "smaller-main, mainAmps: 200 }", "line 9 column 144, wiring.ways[1].mainAmps: \"200\" is not smaller than the main of 200 A")]
    [InlineData("guarded-busbar }", "meter }", "line 9 column 120, wiring.ways[1].connects: \"meter\" is not one of breaker, smaller-main, guarded-busbar, feeder, guarded-feeder, supply-side")]
    [InlineData("busbarAmps: 200,", "busbarAmps: 200, edition: 2011,", "line 9 column 37, wiring.edition: \"2011\" is no edition held here; they are 2017, 2020, 2023, 2026")]
    [InlineData("busbarAmps: 200,", "busbarAmps: 200, serviceAmps: 150,", "line 9 column 41, wiring.serviceAmps: \"150\" is below the main of 200 A, which then does not protect the service")]
    [InlineData("busbarAmps: 200,", "busbarAmps: 200, loads: { areaSquareFeet: 900, measured: { maxKw: 5, record: month } },", "line 9 column 88, wiring.loads.measured.record: \"month\" is not one of year, 30-days")]
    public void Read_OneThingWrong_SaysIt(string sound, string bad, string sentence)
    {
        Assert.Contains(sound, Sound, StringComparison.Ordinal);
        int at = Sound.IndexOf(sound, StringComparison.Ordinal);
        string text = Sound[..at] + bad + Sound[(at + sound.Length)..];
        Assert.Equal($"h.yaml {sentence}.", _folder.ProblemsOf(() => HomeFile.Read(_folder.Write("h.yaml", text))));
    }

    [Fact]
    public void Read_TwoHundredAndEightVoltsWithEquipmentForIt_HasNoProblem() => Assert.NotNull(HomeFile.Read(_folder.Write(
        "h.yaml", Sound.Replace("volts: 240", "volts: 208", StringComparison.Ordinal).Replace("busbarAmps: 200,", "busbarAmps: 200, equipmentVolts: 208,", StringComparison.Ordinal))));

    [Fact]
    public void Read_AgreementThatIsNone_SaysSo() => Assert.Equal(
        "h.yaml line 10 column 28, agreement.authorisedKw: \"0\" is not above 0.",
        _folder.ProblemsOf(() => HomeFile.Read(_folder.Write("h.yaml", Sound + "agreement: { authorisedKw: 0 }\n"))));
}
