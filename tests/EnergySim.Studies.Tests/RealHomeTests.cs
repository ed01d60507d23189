using EnergySim.Engine;
using EnergySim.Files;
using EnergySim.TestData;

namespace EnergySim.Studies.Tests;

/// <summary>The comparison on real meter files (shared/data/load/PROVENANCE.md states their sums and oddities).</summary>
public sealed class RealHomeTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-studies-").FullName;

    private const string Offers = """
        batteries:
          tenfold: {capacityKwh: 10, chargeLimitKw: 5, dischargeLimitKw: 5, chargeEfficiency: 0.97, dischargeEfficiency: 0.97, inverterKw: 5, inverterEfficiency: 0.96, rectifierEfficiency: 0.96, standbyKw: 0.03}
        offers:
          - {offer: one, battery: tenfold, units: 1, price: 10000, strategy: {base: self-use, reserve: 20 %}}
          - {offer: two, battery: tenfold, units: 2, price: 17000, strategy: {base: self-use, reserve: 20 %}}
        """;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private Home Read(string zone, string series)
    {
        File.WriteAllText(Path.Combine(_folder, "plan.yaml"), $$"""
            name: Evening (invented)
            zone: {{zone}}
            effective: 2011-01-01
            periods:
              - {period: peak, days: weekday, from: "15:00", to: "21:00"}
              - {period: off-peak, days: weekday, from: "21:00", to: "15:00"}
              - {period: off-peak, days: weekend}
            energy: [{period: peak, price: 0.40}, {period: off-peak, price: 0.20}]
            fixed: {perDay: 0.50}
            export: {terms: net-billing, prices: [{price: 0.06}]}
            """);
        string home = Path.Combine(_folder, "home.yaml");
        File.WriteAllText(home, $"home: a real meter\nzone: {zone}\ntariff: plan.yaml\n{series}\n{Offers}\n");
        return HomeFile.Read(home).Home;
    }

    [Fact]
    public void AustralianHalfHours_Compare_KeepTheStatedSums()
    {
        string file = SharedData.DataPath("load", "au-home-a-halfhour-load-pv.csv");
        Home home = Read("Australia/Sydney", $$"""
            load: {file: '{{file}}', column: GC, unit: kW, stamp: start, clock: local, clockChange: split-and-drop}
            solar: {file: '{{file}}', column: GG, unit: kW, stamp: start, clock: local, clockChange: split-and-drop, kind: ac, inverterKw: 1}
            """);
        Comparison comparison = ComparisonStudy.Of(home);
        // 5938.369 kWh of load and 1296.404 kWh of solar: PROVENANCE, "au-home-a". 366 days, the clock's 23 and 25 hours made good.
        Assert.Equal(17568, home.Load.Axis.Count);
        Assert.Equal(5938.369, home.Load.EnergyKwh, 3);
        Assert.Equal(1296.404, home.Solar!.Profile.EnergyKwh, 3);
        Assert.All(comparison.Columns, c => Assert.Equal(5938.369, c.Sums.Kwh(LedgerColumn.LoadKw), 3));
        ComparisonColumn asIs = comparison.Columns[0], one = comparison.Columns[1], two = comparison.Columns[2];
        Assert.Equal(5938.369 - 1296.404, asIs.Sums.Kwh(LedgerColumn.ImportKw) - asIs.Sums.Kwh(LedgerColumn.ExportKw), 3);
        // A plant of 1 kW has next to nothing over for a battery: both are bought in vain, and the second adds nothing but its standby.
        Assert.InRange(asIs.OwnSupplyFraction, 0.15, 0.22);
        Assert.True(one.AnnualSaving < 100);
        Assert.True(two.AddedSaving < 0);
        Assert.Equal(13, comparison.Columns[0].Bills.Bills.Count + 1);
    }

    [Fact]
    public void BostonTypicalYear_Compare_KeepsTheStatedSum()
    {
        string file = SharedData.DataPath("load", "us-boston-tmy3-base.csv");
        Home home = Read("America/New_York", $$"""
            load: {file: '{{file}}', column: "Electricity:Facility [kW](Hourly)", unit: kW, stamp: end, clock: standard, pattern: "MM/DD HH:mm:ss", year: 2025}
            """);
        Comparison comparison = ComparisonStudy.Of(home);
        // 9010.62 kWh in 8,760 hours numbered 1–24, standard time, no year: PROVENANCE, "us-boston".
        Assert.Equal(8760, home.Load.Axis.Count);
        Assert.Equal(9010.62, home.Load.EnergyKwh, 2);
        Assert.Equal(9010.62, comparison.Columns[0].Sums.Kwh(LedgerColumn.ImportKw), 2);
        // Without solar a battery on self-use has nothing to give: it costs its standby.
        Assert.True(comparison.Columns[1].AnnualSaving < 0);
        Assert.Equal(0, comparison.Columns[1].OwnSupplyFraction);
    }
}
