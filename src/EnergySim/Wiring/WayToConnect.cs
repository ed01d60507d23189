namespace EnergySim.Wiring;

/// <summary>Where and by which rule a battery's inverters join the service.</summary>
public enum ConnectionKind
{
    /// <summary>A breaker in the main panel, no larger than the busbar rules allow.</summary>
    Breaker,

    /// <summary>The same behind a smaller main.</summary>
    SmallerMain,

    /// <summary>A breaker in the main panel whose busbar a power control system guards at a setting.</summary>
    GuardedBusbar,

    /// <summary>A connection in a sub-panel by the feeder rules.</summary>
    Feeder,

    /// <summary>A connection in a sub-panel whose feeder a power control system guards at a setting.</summary>
    GuardedFeeder,

    /// <summary>Between meter and main.</summary>
    SupplySide,
}

/// <summary>What goes on running when the grid is down.</summary>
public enum KeptRunning
{
    /// <summary>Nothing: no isolation from the grid.</summary>
    Nothing,

    /// <summary>The circuits moved to a panel of their own.</summary>
    KeptCircuits,

    /// <summary>The whole home, isolated at the meter.</summary>
    WholeHomeAtMeter,

    /// <summary>The whole home, isolated at the service entrance.</summary>
    WholeHomeAtEntrance,
}

/// <summary>Work or material that a way to connect needs.</summary>
/// <param name="Name">What.</param>
/// <param name="Labour">Labour, in the tariff's money.</param>
/// <param name="Parts">Parts.</param>
/// <param name="Days">Working days.</param>
/// <param name="IsPlaceholder">True for a round figure of this program that the user has not replaced by an offer of his own.</param>
public sealed record CostItem(string Name, decimal Labour, decimal Parts, double Days, bool IsPlaceholder = false);

/// <summary>One way to connect an offer.</summary>
public sealed record WayToConnect
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Where and by which rule.</summary>
    public required ConnectionKind Connects { get; init; }

    /// <summary>What it keeps running.</summary>
    public KeptRunning Keeps { get; init; }

    /// <summary>The smaller main, A; null = the largest standard one with which the breaker fits.</summary>
    public double? MainAmps { get; init; }

    /// <summary>A power control system's setting, A; null = 0.8 × the rating of what it guards.</summary>
    public double? SettingAmps { get; init; }

    /// <summary>Name of the feeder, for a connection in a sub-panel.</summary>
    public string? Feeder { get; init; }

    /// <summary>What it costs; empty = placeholders.</summary>
    public IReadOnlyList<CostItem> Costs { get; init; } = [];

    /// <summary>The costs given, or placeholders.</summary>
    public IReadOnlyList<CostItem> CostsOrPlaceholders => Costs.Count > 0 ? Costs : [.. PlaceholderCosts.Of(Connects), .. PlaceholderCosts.Of(Keeps)];

    /// <summary>The ways that are looked at when none are named: one of each kind, and a guarded feeder for each feeder.</summary>
    public static IReadOnlyList<WayToConnect> Usual(ServicePanel panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        return
        [
            new WayToConnect { Name = "Breaker by the busbar rule", Connects = ConnectionKind.Breaker },
            new WayToConnect { Name = "Smaller main", Connects = ConnectionKind.SmallerMain },
            new WayToConnect { Name = "Guarded busbar", Connects = ConnectionKind.GuardedBusbar },
            .. panel.Feeders.Select(f => new WayToConnect { Name = $"Guarded feeder {f.Name}", Connects = ConnectionKind.GuardedFeeder, Feeder = f.Name }),
            new WayToConnect { Name = "Supply side", Connects = ConnectionKind.SupplySide },
            new WayToConnect { Name = "Kept circuits, guarded busbar", Connects = ConnectionKind.GuardedBusbar, Keeps = KeptRunning.KeptCircuits },
            new WayToConnect { Name = "Whole home at the meter, guarded busbar", Connects = ConnectionKind.GuardedBusbar, Keeps = KeptRunning.WholeHomeAtMeter },
            new WayToConnect { Name = "Whole home at the entrance", Connects = ConnectionKind.SupplySide, Keeps = KeptRunning.WholeHomeAtEntrance },
        ];
    }
}

/// <summary>Round figures of our own, so that a way has a price before anybody has asked for one. Not offers; every one is marked.</summary>
public static class PlaceholderCosts
{
    /// <summary>Moving all panels onto the battery's inputs and taking the inverter down.</summary>
    public const decimal ReplaceWork = 1500;

    /// <summary>Moving part of the panels.</summary>
    public const decimal SplitWork = 1000;

    /// <summary>Of a connection.</summary>
    public static IReadOnlyList<CostItem> Of(ConnectionKind connection) => connection switch
    {
        ConnectionKind.Breaker => [Item("breaker and circuit", 500, 150, 0.5)],
        ConnectionKind.SmallerMain => [Item("breaker and circuit", 500, 150, 0.5), Item("smaller main, load calculation, power cut", 700, 300, 0.5)],
        ConnectionKind.GuardedBusbar => [Item("breaker and circuit", 500, 150, 0.5), Item("power control system, current sensors, commissioning", 600, 500, 0.5)],
        ConnectionKind.Feeder => [Item("breaker and circuit in the sub-panel", 500, 150, 0.5)],
        ConnectionKind.GuardedFeeder => [Item("breaker and circuit in the sub-panel", 500, 150, 0.5), Item("power control system, current sensors, commissioning", 600, 500, 0.5)],
        _ => [Item("connection between meter and main, disconnect, power cut", 1200, 600, 1)],
    };

    /// <summary>Of what is kept running.</summary>
    public static IReadOnlyList<CostItem> Of(KeptRunning kept) => kept switch
    {
        KeptRunning.Nothing => [],
        KeptRunning.KeptCircuits => [Item("panel of kept circuits, moving circuits", 1400, 600, 1)],
        KeptRunning.WholeHomeAtMeter => [Item("isolation at the meter socket, utility's consent", 500, 900, 0.5)],
        _ => [Item("isolation at the service entrance", 1500, 1500, 1)],
    };

    private static CostItem Item(string name, decimal labour, decimal parts, double days) => new(name, labour, parts, days, IsPlaceholder: true);
}
