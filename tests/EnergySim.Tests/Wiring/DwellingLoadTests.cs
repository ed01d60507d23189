using EnergySim.Wiring;

namespace EnergySim.Tests.Wiring;

/// <summary>Load calculations and backup by hand, by the methods of REFERENCE §4.5 and TRADE §3.3.</summary>
public class DwellingLoadTests
{
    private static readonly CodeEdition s_2020 = CodeEdition.Of(2020)!;

    private static Appliance[] Fixed(params double[] va) => [.. va.Select((v, i) => new Appliance($"a{i}", v))];

    // Lighting and small-appliance load of 1,500 sq ft: 3 × 1,500 + 3 × 1,500 = 9,000 VA.
    private static DwellingLoads Loads(params Appliance[] appliances) => new() { AreaSquareFeet = 1500, Appliances = appliances };

    // 9,000 + 12,000 + 5,000 cooling + 900 added = 26,900; 8,000 + 0.4 × 18,900 = 15,560 VA.
    [Fact]
    public void Existing_CountsClimateThatIsThere()
    {
        DwellingLoads loads = Loads(Fixed(12_000)) with { Climate = [new ClimateLoad(ClimateKind.Cooling, 5_000)], AddedVa = 900 };
        CalculatedLoad load = LoadCalculations.Existing(loads, s_2020);
        Assert.Equal(15_560, load.Va, 9);
        Assert.Equal("26,900 VA in all → 8,000 + 40 % × 18,900 = 15,560 VA", load.Arithmetic);
    }

    // Standard method: 9,000 VA → 3,000 + 0.35 × 6,000 = 5,100. Range 8,000 (Table 220.55), dryer at least 5,000 (220.54). Four fixed
    // appliances at 75 % (220.53): 0.75 × 5,000 = 3,750; three in full: 4,000. Heating 9,000 before cooling 5,000, then the other way round.
    [Fact]
    public void Standard_AddsItsParts()
    {
        Appliance range = new("range", 12_000, ApplianceKind.Range), dryer = new("dryer", 4_000, ApplianceKind.Dryer);
        ClimateLoad cooling = new(ClimateKind.Cooling, 5_000), heating = new(ClimateKind.CentralHeat, 9_000);
        CalculatedLoad four = LoadCalculations.Standard(Loads([range, dryer, .. Fixed(1_000, 1_000, 1_000, 2_000)]) with { Climate = [cooling, heating] },
            s_2020);
        Assert.Equal("5,100 lighting + 8,000 range + 5,000 dryer + 3,750 fixed + 9,000 heating or cooling = 30,850 VA", four.Arithmetic);
        Assert.Equal(30_850, four.Va, 9);
        CalculatedLoad three = LoadCalculations.Standard(Loads(Fixed(1_000, 1_000, 2_000)) with { Climate = [cooling, heating with { Va = 3_000 }] }, s_2020);
        Assert.Equal("5,100 lighting + 0 range + 0 dryer + 4,000 fixed + 5,000 heating or cooling = 14,100 VA", three.Arithmetic);
        Assert.Equal(14_100, three.Va, 9);
    }

    // 50,000 sq ft: 150,000 + 4,500 = 154,500 VA → 3,000 + 0.35 × 117,000 + 0.25 × 34,500 = 52,575 VA.
    [Fact]
    public void Standard_AboveAHundredAndTwentyKva_CountsAQuarter() =>
        Assert.Equal(52_575, LoadCalculations.Standard(new DwellingLoads { AreaSquareFeet = 50_000 }, s_2020).Va, 9);

    [Fact]
    public void Standard_OfWhatItsTablesDoNotHold_IsRefused()
    {
        Appliance range = new("range", 12_000, ApplianceKind.Range), dryer = new("dryer", 5_000, ApplianceKind.Dryer);
        Assert.Throws<ArgumentException>(() => LoadCalculations.Standard(Loads(range, range), s_2020));
        Assert.Throws<ArgumentException>(() => LoadCalculations.Standard(Loads(dryer, dryer), s_2020));
        Assert.Throws<ArgumentException>(() => LoadCalculations.Standard(Loads(range with { Va = 12_001 }), s_2020));
    }

    // 36,000 VA ÷ 240 V = 150 A: on the main's rating it is within.
    [Theory]
    [InlineData(150, "36,000 VA ÷ 240 V = 150 A ≤ 150 A main", Standing.Within)]
    [InlineData(125, "36,000 VA ÷ 240 V = 150 A > 125 A main", Standing.Beyond)]
    public void Against_SaysTheSignThatItMeans(double main, string arithmetic, Standing standing)
    {
        Verdict verdict = LoadCalculations.Against(new CalculatedLoad(WiringRule.MeasuredLoad, 36_000, "36,000 VA"), main, 240, s_2020);
        Assert.Equal((arithmetic, standing), (verdict.Arithmetic, verdict.Standing));
    }

    // Existing 9,000 + 6,000 + 4,000 added = 19,000 → 8,000 + 0.4 × 11,000 = 12,400; optional 10,000 + 0.4 × 9,000 = 13,600; measured 12,500 + 4,000 =
    // 16,500 VA.
    [Fact]
    public void Ask_AsksEveryMethodThatTheFactsAllow()
    {
        DwellingLoads loads = Loads(Fixed(6_000)) with { AddedVa = 4_000, Measured = new MeasuredDemand(10, IsWholeYear: true) };
        IReadOnlyList<Verdict> verdicts = LoadCalculations.Ask(loads, 60, 240, true, s_2020);
        Assert.Equal([WiringRule.ExistingLoad, WiringRule.OptionalLoad, WiringRule.MeasuredLoad], verdicts.Select(v => v.Rule));
        Assert.Equal([Standing.Within, Standing.Within, Standing.Beyond], verdicts.Select(v => v.Standing));
        Assert.Contains("= 12,400 VA", verdicts[0].Arithmetic, StringComparison.Ordinal);
        Assert.Contains("= 13,600 VA", verdicts[1].Arithmetic, StringComparison.Ordinal);
        Assert.Contains("= 16,500 VA", verdicts[2].Arithmetic, StringComparison.Ordinal);
        Assert.Equal(2, LoadCalculations.Ask(loads with { Measured = null }, 60, 240, true, s_2020).Count);
        Verdict barred = LoadCalculations.Ask(loads with { Measured = new MeasuredDemand(10, IsWholeYear: false) }, 60, 240, true, s_2020)[2];
        Assert.Contains("30 days", barred.Arithmetic, StringComparison.Ordinal);
        Assert.Contains("not stated", LoadCalculations.Ask(null, 60, 240, true, s_2020)[0].Arithmetic, StringComparison.Ordinal);
    }

    [Fact]
    public void LargestVa_IsOfAppliancesAndClimate()
    {
        Assert.Equal(4_500, Loads(Fixed(1_200, 4_500)).LargestVa);
        Assert.Equal(9_000, (Loads(Fixed(1_200, 4_500)) with { Climate = [new ClimateLoad(ClimateKind.CentralHeat, 9_000)] }).LargestVa);
        Assert.Equal(0, Loads().LargestVa);
    }

    private static WiringPlan Plan(DwellingLoads? loads, double? legKw) =>
        new() { Panel = BusbarRulesTests.Panel(200, 200), Edition = s_2020, Ways = [], Loads = loads, LargestLegKw = legKw };

    // 9,000 + 5,700 = 14,700 VA → 10,000 + 0.4 × 4,700 = 11,880 VA: above 10 kVA, below 12. A leg of 5 or 6 kW is just half.
    [Fact]
    public void Backup_BeyondTheFullLoad_AsksForManagedLoads()
    {
        IReadOnlyList<Verdict> ten = BackupRules.Ask(10, Plan(Loads(Fixed(4_500, 1_200)), 5));
        Assert.Equal("largest single load 4,500 VA ≤ 10,000 VA supply", ten[0].Arithmetic);
        Assert.Equal("calculated load 11,880 VA > 10,000 VA supply; automatic transfer then asks for managed loads", ten[1].Arithmetic);
        Assert.Equal(("heavier leg 5 kW ≤ 10 kW ÷ 2 = 5 kW", Standing.Within), (ten[2].Arithmetic, ten[2].Standing));
        Verdict twelve = BackupRules.Ask(12, Plan(Loads(Fixed(4_500, 1_200)), 5))[1];
        Assert.Equal(("calculated load 11,880 VA ≤ 12,000 VA supply", Standing.Within), (twelve.Arithmetic, twelve.Standing));
    }

    [Fact]
    public void Backup_WithoutFacts_SaysWhichAreMissing()
    {
        IReadOnlyList<Verdict> verdicts = BackupRules.Ask(10, Plan(null, null));
        Assert.Equal([WiringRule.LargestLoad, WiringRule.FullLoad, WiringRule.Leg], verdicts.Select(v => v.Rule));
        Assert.All(verdicts, v => Assert.Equal(Standing.Unknown, v.Standing));
        Assert.All(verdicts, v => Assert.Contains("not stated", v.Arithmetic, StringComparison.Ordinal));
    }
}
