using EnergySim.Wiring;

namespace EnergySim.Tests.Wiring;

/// <summary>Worked examples to the VA: REFERENCE §4.5.</summary>
public class LoadCalculationsTests
{
    private static readonly CodeEdition s_2020 = CodeEdition.Of(2020)!;

    private static DwellingLoads Loads(double area, double[] appliances, params ClimateLoad[] climate) =>
        new() { AreaSquareFeet = area, Appliances = [.. appliances.Select((va, i) => new Appliance($"a{i}", va))], Climate = climate };

    // NEC Annex D2(a), 2005 edition: 29 700 VA general → 17 880; 9 kW heat in five rooms; cooling 6 A × 230 V is less.
    [Fact]
    public void Optional_AnnexD2a_Is21480()
    {
        CalculatedLoad load = LoadCalculations.Optional(
            Loads(1500, [12_000, 2_500, 1_200, 5_000], new ClimateLoad(ClimateKind.ManyHeaters, 9_000), new ClimateLoad(ClimateKind.Cooling, 1_380)), s_2020);
        Assert.Equal(21_480, load.Va, 9);
        Assert.Equal(89.5, load.Amps(240), 9);
        Assert.Equal("29,700 VA general → 10,000 + 40 % × 19,700 = 17,880; + 3,600 heating or cooling = 21,480 VA", load.Arithmetic);
    }

    // NEC Annex D2(b), 2005 edition: six room coolers of 7 A at 240 V; the bath heater of 1.5 kW is less.
    [Fact]
    public void Optional_AnnexD2b_Is29200()
    {
        ClimateLoad[] climate = [.. Enumerable.Repeat(new ClimateLoad(ClimateKind.Cooling, 7 * 240), 6), new ClimateLoad(ClimateKind.FewHeaters, 1_500)];
        CalculatedLoad load = LoadCalculations.Optional(Loads(1500, [8_000, 5_100, 4_500, 1_200, 5_000], climate), s_2020);
        Assert.Equal(29_200, load.Va, 9);
        Assert.Equal(121.67, load.Amps(240), 2);
    }

    // JADE Learning, 2016 (2014 NEC): 15 kW central heat at 65 %, cooling 29 A × 240 V.
    [Fact]
    public void Optional_PublishedExampleWithCentralHeat_Is30310() => Assert.Equal(
        30_310,
        LoadCalculations.Optional(
            Loads(2800, [14_000, 3_000, 5_000, 1_500], new ClimateLoad(ClimateKind.CentralHeat, 15_000), new ClimateLoad(ClimateKind.Cooling, 29 * 240)), s_2020).Va,
        9);

    // NEC Annex D1(a), 2005 edition, standard method: 18 600 VA, 77.5 A; neutral 14 550 VA.
    [Fact]
    public void Standard_AnnexD1a_Is18600AndItsNeutral14550()
    {
        var loads = new DwellingLoads
        {
            AreaSquareFeet = 1500,
            Appliances = [new Appliance("range", 12_000, ApplianceKind.Range), new Appliance("dryer", 5_500, ApplianceKind.Dryer)],
        };
        CalculatedLoad load = LoadCalculations.Standard(loads, s_2020);
        Assert.Equal(18_600, load.Va, 9);
        Assert.Equal(77.5, load.Amps(240), 9);
        Assert.Equal(14_550, LoadCalculations.StandardNeutralVa(loads, s_2020), 9);
        var large = loads with { Appliances = [new Appliance("range", 15_000, ApplianceKind.Range)] };
        Assert.Throws<ArgumentException>(() => LoadCalculations.Standard(large, s_2020));
    }

    // 220.83(A), arithmetic of REFERENCE [C]: 39 800 VA → 20 720 VA = 86.33 A.
    [Fact]
    public void Existing_WithAnAddedLoad_Is20720()
    {
        CalculatedLoad load = LoadCalculations.Existing(Loads(1800, [12_000, 4_500, 1_200, 5_000]) with { AddedVa = 7_200 }, s_2020);
        Assert.Equal(20_720, load.Va, 9);
        Assert.Equal(86.33, load.Amps(240), 2);
    }

    // 220.87, arithmetic of REFERENCE [C]: 22.0 kW × 1.25 + 9.6 kW = 37.1 kVA → 154.58 A ≤ 200 A.
    [Fact]
    public void Measured_YearsRecord_Is37100()
    {
        DwellingLoads loads = Loads(1800, []) with { AddedVa = 9_600, Measured = new MeasuredDemand(22, IsWholeYear: true) };
        CalculatedLoad load = LoadCalculations.Measured(loads, hasSolarOrShaving: true)!;
        Assert.Equal(37_100, load.Va, 9);
        Assert.Equal(154.58, load.Amps(240), 2);
        Assert.Equal(Standing.Within, LoadCalculations.Against(load, 200, 240, s_2020).Standing);
        Assert.Equal(Standing.Beyond, LoadCalculations.Against(load, 150, 240, s_2020).Standing);
    }

    // 220.87 [V]: the 30-day record is barred where there is renewable generation or peak shaving.
    [Fact]
    public void Measured_ThirtyDays_IsBarredWithSolar()
    {
        DwellingLoads loads = Loads(1800, []) with { Measured = new MeasuredDemand(10, IsWholeYear: false) };
        Assert.NotNull(LoadCalculations.Measured(loads, hasSolarOrShaving: false));
        Assert.Null(LoadCalculations.Measured(loads, hasSolarOrShaving: true));
        Verdict verdict = LoadCalculations.Ask(loads, 100, 240, true, s_2020).Single(v => v.Rule == WiringRule.MeasuredLoad);
        Assert.Equal(Standing.Unknown, verdict.Standing);
    }

    [Fact]
    public void Ask_WithoutLoads_SaysWhatIsMissing() =>
        Assert.Equal(Standing.Unknown, Assert.Single(LoadCalculations.Ask(null, 150, 240, false, s_2020)).Standing);

    // TRADE §3.3: both answers, the largest single load and the full load; TRADE §6.2 case 37: 4 kW on one leg of a 5 kW unit does not fit.
    [Fact]
    public void Backup_LargestLoadFitsFullLoadDoesNot_GivesBothAnswers()
    {
        var plan = new WiringPlan
        {
            Panel = BusbarRulesTests.Panel(200, 200),
            Edition = s_2020,
            Ways = [],
            Loads = Loads(1500, [4_500, 1_200]),
            LargestLegKw = 4,
        };
        IReadOnlyList<Verdict> verdicts = BackupRules.Ask(5, plan);
        Assert.Equal([Standing.Within, Standing.Beyond, Standing.Beyond], verdicts.Select(v => v.Standing));
        Assert.Equal("heavier leg 4 kW > 5 kW ÷ 2 = 2.5 kW", verdicts[2].Arithmetic);
    }
}
