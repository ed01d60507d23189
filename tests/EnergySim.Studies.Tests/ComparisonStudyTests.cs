using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Files;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.TestData;

namespace EnergySim.Studies.Tests;

public class ComparisonStudyTests
{
    private static readonly Lazy<Home> s_demo = new(() => HomeFile.Read(Path.Combine(SharedData.RepositoryRoot, "profiles", "demo-home.yaml")).Home);

    [Fact]
    public void Demo_Compared_GivesItsExpectedSummary()
    {
        // Golden figures of the bundled demo; a second program written for its data (not this engine) came to 1,278, 821 and 754.
        Comparison comparison = ComparisonStudy.Of(s_demo.Value);
        Assert.Equal([1278.45m, 820.85m, 753.63m], comparison.Columns.Select(c => c.AnnualBill));
        Assert.Equal([0, 1, 2], comparison.Columns.Select(c => c.BatteryUnits));
        Assert.Equal(12, comparison.Columns[0].Bills.Bills.Count);
    }

    [Fact]
    public void Columns_OfAnyComparison_AddUp()
    {
        Comparison comparison = ComparisonStudy.Of(s_demo.Value);
        for (int i = 1; i < comparison.Columns.Count; i++)
        {
            ComparisonColumn column = comparison.Columns[i];
            Assert.Equal(comparison.Columns[0].AnnualBill - column.AnnualBill, column.AnnualSaving);
            Assert.Equal(column.AnnualSaving - comparison.Columns[i - 1].AnnualSaving, column.AddedSaving);
            Assert.Equal(column.AnnualBill, column.Bills.Bills.Sum(b => b.Lines.Sum(l => l.Amount)));
        }
    }

    [Fact]
    public void OfferThatHoldsAnEmptyBattery_IsTheBillAsItIs()
    {
        // No battery = the as-is bill to the cent: cells that can neither take nor give are no battery.
        var dead = new Battery { Name = "dead", CapacityKwh = 1e-9, ChargeLimitKw = 1e-9, DischargeLimitKw = 1e-9, InverterKw = 5 };
        Home home = s_demo.Value with { Offers = [new Offer { Name = "none", Battery = dead, Units = 1, Strategy = new Strategy { Base = Steering.SelfUse } }] };
        Comparison comparison = ComparisonStudy.Of(home);
        Assert.Equal(comparison.Columns[0].AnnualBill, comparison.Columns[1].AnnualBill);
        Assert.Equal(
            comparison.Columns[0].Bills.Bills.SelectMany(b => b.Lines).Select(l => (l.Name, l.Amount)),
            comparison.Columns[1].Bills.Bills.SelectMany(b => b.Lines).Select(l => (l.Name, l.Amount)));
    }

    [Fact]
    public void ReplacedInverter_TakesTheDcSolar()
    {
        Offer offer = s_demo.Value.Offers[1] with { ReplacesSolarInverter = true };
        ComparisonColumn column = ComparisonStudy.Of(s_demo.Value with { Offers = [offer] }).Columns[1];
        Assert.True(column.Sums.Kwh(LedgerColumn.SolarDcToCellsKw) > 500);
        Assert.Equal(0, column.Sums.Kwh(LedgerColumn.SolarAcKw));
    }

    [Fact]
    public void ReplacedInverter_WithoutDcProfile_NamesTheOffer()
    {
        Offer offer = s_demo.Value.Offers[0] with { ReplacesSolarInverter = true };
        ArgumentException fault = Assert.Throws<ArgumentException>(() => ComparisonStudy.Of(s_demo.Value with { Solar = null, Offers = [offer] }));
        Assert.StartsWith(offer.Name, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void SpanThatIsNoYear_IsSaid()
    {
        Home demo = s_demo.Value;
        var axis = new Time.TimeAxis(demo.Load.Axis.Zone, demo.Load.Axis.Start, 15, 96 * 30);
        Profile First(Profile p) => new(axis, p.Kw[..axis.Count]);
        Comparison comparison = ComparisonStudy.Of(demo with { Load = First(demo.Load), Solar = demo.Solar! with { Profile = First(demo.Solar.Profile) } });
        Assert.Contains(comparison.Notes, n => n.Contains("30 days", StringComparison.Ordinal));
    }
}
