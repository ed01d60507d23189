using EnergySim.Studies.Control;
using EnergySim.Studies.Sweeps;
using EnergySim.Studies.Visit;
using EnergySim.TestData;

namespace EnergySim.Files.Tests.Homes;

/// <summary>Prices by number of units.</summary>
public sealed class OfferPricesTests : IDisposable
{
    private static readonly string s_home = Path.Combine(SharedData.RepositoryRoot, "profiles", "demo-roof-home.yaml");
    private readonly string _folder = Directory.CreateTempSubdirectory("energysim-prices-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Offer_WithPricesByUnits_HasThatOfItsUnits()
    {
        Offer offer = HomeFile.Read(s_home).Home.Offers[1];
        Assert.Equal([11500, 19500, 27500, 35500], offer.PricesByUnits);
        Assert.Equal(19500, offer.Price);
        Assert.Equal([null, 11500, 19500, 27500, 35500, null], Enumerable.Range(0, 6).Select(offer.PriceOf));
    }

    [Fact]
    public void Sweep_OfUnits_MovesThePrice()
    {
        string plan = Path.Combine(_folder, "s.yaml");
        File.WriteAllText(plan, $"sweep: units\nhomes: {s_home}\ninputs: [{{input: offers.two-batteries.units, list: [1, 2, 4, 5]}}, {{input: stepMinutes, list: 60}}]\noutputs: two-batteries.price");
        IReadOnlyList<SweepRow> rows = SweepFile.Read(plan).Study().Rows(0, 4, 1, TestContext.Current.CancellationToken);
        Assert.Equal([11500, 19500, 35500, null], rows.Select(r => r.Outputs[0]));
        Assert.Contains("of 5 it states none", rows[3].Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Saving_OnePriceBesideThem_IsRefusedForThatOfferOnly()
    {
        string text = File.ReadAllText(s_home);
        VisitChoices Price(string offer) => new() { Prices = new Dictionary<string, decimal> { [offer] = 9000 } };
        Assert.Contains("pricesByUnits", Assert.Throws<ArgumentException>(() => HomeEdit.With(text, Price("Two batteries"))).Message, StringComparison.Ordinal);
        Assert.Contains("price: 9000", HomeEdit.With(text, Price("One battery")), StringComparison.Ordinal);
    }

    [Fact]
    public void Rules_OfAStrategy_AreToldByKeysOfTheFile()
    {
        var all = new Strategies.Strategy
        {
            Base = Strategies.Steering.DemandShaving,
            PeakWindows = [new Time.ClockWindow(0, 60)],
            PeakPeriods = ["peak"],
            KeepsForDearest = true,
            Ratchets = true,
            SellsByPrice = true,
            PlansToSell = true,
            Integrity = Strategies.IntegrityRule.SolarOnly,
        };
        IReadOnlyList<StrategyRule> rules = StrategyWords.RulesOf(all);
        Assert.Equal(9, rules.Count);
        Assert.All(rules, r => Assert.Contains(r.Key, HomeSections.Strategy.Keys));
    }
}
