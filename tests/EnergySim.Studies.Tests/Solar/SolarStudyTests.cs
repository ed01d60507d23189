using EnergySim.Engine;
using EnergySim.Files;
using EnergySim.Studies.Outages;
using EnergySim.Studies.Solar;
using EnergySim.TestData;

namespace EnergySim.Studies.Tests.Solar;

public class SolarStudyTests(ITestOutputHelper output)
{
    private static readonly Lazy<Home> s_roof = new(() => HomeFile.Read(Path.Combine(SharedData.RepositoryRoot, "profiles", "demo-roof-home.yaml")).Home);
    private static readonly Lazy<Home> s_profile = new(() => HomeFile.Read(Path.Combine(SharedData.RepositoryRoot, "profiles", "demo-home.yaml")).Home);

    // The demo's solar profile comes from a program that does not know this engine, under the same invented sky: even sky, no incidence or snow loss, losses of 14 %.
    [Fact]
    public void DemoRoof_UnderTheDemosSky_IsNearTheSecondProgramsYear()
    {
        SolarYield roof = SolarStudy.Of(s_roof.Value), profile = SolarStudy.Of(s_profile.Value);
        output.WriteLine($"roof {roof.Kwh:0} kWh, profile {profile.Kwh:0} kWh, ratio {roof.Kwh / profile.Kwh:0.000}; months {string.Join(' ', roof.KwhByMonth.Zip(profile.KwhByMonth, (a, b) => $"{a / b:0.00}"))}");
        Assert.InRange(roof.Kwh / profile.Kwh, 0.93, 1.12);
        for (int m = 3; m < 10; m++) Assert.InRange(roof.KwhByMonth[m] / profile.KwhByMonth[m], 0.93, 1.12);
    }

    [Fact]
    public void Yield_OfPlanesMonthsAndHours_AddsUp()
    {
        SolarYield solar = SolarStudy.Of(s_roof.Value);
        Assert.Equal(solar.Kwh, solar.Planes.Sum(p => p.Kwh), 1e-6);
        Assert.Equal(solar.Kwh, s_roof.Value.Solar!.Profile.EnergyKwh, 1e-6);
        Assert.Equal(solar.Kwh / 8.2, solar.Planes.Average(p => p.KwhPerKw!.Value), 1e-6);
        Assert.Equal(12, solar.KwByMonthAndHour.Count(m => m is not null));
        Assert.All(solar.Planes, p => Assert.InRange(p.IncidentKwhPerM2ByMonth.Sum(), 1500, 2500));
        Assert.NotNull(solar.DarkSpells);
    }

    [Fact]
    public void Uses_OfPanelsOnSmallInputs_CountsWhatTheyClip()
    {
        SolarUse[] uses = [.. SolarStudy.Of(s_roof.Value).Uses];
        Assert.Equal(4, uses.Length);
        Assert.Equal("Two batteries, the panels on their own inputs", uses[3].Name);
        double past = s_roof.Value.Solar!.Modelled!.Output.PastInputs(s_roof.Value.Solar.Profile, 3.2, out double clipped).EnergyKwh;
        Assert.True(clipped > 10);
        Assert.Equal(clipped, uses[3].ClippedKwh, 1e-6);
        Assert.Equal(s_roof.Value.Solar.Profile.EnergyKwh, past + clipped, 1e-6);
    }

    [Fact]
    public void ComparisonAndOutage_OfARoof_UseItsModelledSolar()
    {
        Comparison comparison = ComparisonStudy.Of(s_roof.Value);
        Assert.Equal(s_roof.Value.Solar!.Profile.EnergyKwh, comparison.Columns[0].SolarKwh, 1e-6);
        Assert.True(comparison.Columns[1].AnnualSaving > 100);
        OutageResult outage = OutageStudy.Of(s_roof.Value, new OutageTerms { HorizonHours = 48, NamedHours = 24 });
        Assert.Equal(3, outage.Offers.Count);
    }

    // Clouds take the same share wherever the panels lead: behind today's inverter, or on a battery's own inputs.
    [Fact]
    public void CloudyOutage_OfPanelsOnABatterysInputs_HasLessSun()
    {
        Home home = s_roof.Value with { Offers = [s_roof.Value.Offers[2]] };
        Assert.True(home.Offers[0].ReplacesSolarInverter && !double.IsInfinity(home.Offers[0].Battery.SolarInputEachKw));
        var terms = new OutageTerms { HorizonHours = 48, NamedHours = 24, StartCharge = StartCharge.Full, NamedStart = new(2025, 7, 1, 6, 0) };
        NamedOutage Under(double cloud) => OutageStudy.Of(home, terms with { CloudFactor = cloud }).Offers[0].Named;
        double clear = Under(1).Ledger.Sums.Kwh(LedgerColumn.SolarDcKw), clouded = Under(0.3).Ledger.Sums.Kwh(LedgerColumn.SolarDcKw);
        Assert.InRange(clouded / clear, 0.3, 0.35);
        Assert.Equal(0, Under(0).Ledger.Sums.Kwh(LedgerColumn.SolarDcKw));
    }

    [Fact]
    public void HomeWithoutSolar_IsTold() =>
        Assert.Contains("has no solar", Assert.Throws<ArgumentException>(() => SolarStudy.Of(s_profile.Value with { Solar = null })).Message, StringComparison.Ordinal);
}
