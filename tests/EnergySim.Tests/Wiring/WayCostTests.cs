using EnergySim.Wiring;

namespace EnergySim.Tests.Wiring;

/// <summary>The ways that are looked at, and what they cost before anybody was asked.</summary>
public class WayCostTests
{
    // One of each kind but the plain feeder, and a guarded one for each feeder; each has a name of its own.
    [Fact]
    public void Usual_NamesEachWayOnce()
    {
        ServicePanel panel = BusbarRulesTests.Panel(200, 200) with
        {
            Feeders = [new Feeder { Name = "barn", BreakerAmps = 60, ConductorAmps = 65 }, new Feeder { Name = "loft", BreakerAmps = 60, ConductorAmps = 65 }],
        };
        IReadOnlyList<WayToConnect> ways = WayToConnect.Usual(panel);
        Assert.Equal(ways.Count, ways.Select(w => w.Name).Distinct().Count());
        Assert.DoesNotContain(ways, w => string.IsNullOrWhiteSpace(w.Name));
        Assert.Equal(["barn", "loft"], ways.Where(w => w.Connects == ConnectionKind.GuardedFeeder).Select(w => w.Feeder));
        Assert.All(ways.Where(w => w.Feeder is not null), w => Assert.EndsWith(w.Feeder!, w.Name, StringComparison.Ordinal));
        Assert.Equal(Enum.GetValues<KeptRunning>(), ways.Select(w => w.Keeps).Distinct().Order());
    }

    // No cost without a word for what it buys, and none of ours unmarked.
    [Fact]
    public void Placeholders_AreNamedAndMarked()
    {
        CostItem[] all = [.. Enum.GetValues<ConnectionKind>().SelectMany(PlaceholderCosts.Of),
            .. Enum.GetValues<KeptRunning>().SelectMany(PlaceholderCosts.Of)];
        Assert.All(all, c => Assert.True(c.IsPlaceholder && c.Labour > 0 && c.Parts > 0 && c.Days > 0));
        Assert.DoesNotContain(all, c => string.IsNullOrWhiteSpace(c.Name));
        Assert.Empty(PlaceholderCosts.Of(KeptRunning.Nothing));
    }

    [Fact]
    public void Costs_GivenOnes_ReplaceAllPlaceholders()
    {
        var way = new WayToConnect { Name = "way", Connects = ConnectionKind.GuardedBusbar, Keeps = KeptRunning.KeptCircuits };
        CostItem offer = new("all of it", 2_000, 1_000, 2);
        Assert.Equal([offer], (way with { Costs = [offer] }).CostsOrPlaceholders);
        Assert.Equal([.. PlaceholderCosts.Of(ConnectionKind.GuardedBusbar), .. PlaceholderCosts.Of(KeptRunning.KeptCircuits)], way.CostsOrPlaceholders);
    }
}
