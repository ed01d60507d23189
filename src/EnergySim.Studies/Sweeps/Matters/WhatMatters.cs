namespace EnergySim.Studies.Sweeps;

/// <summary>What matters to one output at one home and tariff, as far as the sweep's design tells it.</summary>
public sealed record OutputMatters
{
    /// <summary>The home and tariff.</summary>
    public required string Place { get; init; }

    /// <summary>The output.</summary>
    public required SweepColumn Column { get; init; }

    /// <summary>Its unit: the currency's code where it is money; empty = none that needs to be said.</summary>
    public required string Unit { get; init; }

    /// <summary>Each input moved alone; null = another design.</summary>
    public Tornado? Tornado { get; init; }

    /// <summary>Shares of the variance; null = another design.</summary>
    public SobolIndices? Indices { get; init; }

    /// <summary>How it goes with each input of numbers while the others vary; empty = only one moves at a time.</summary>
    public IReadOnlyList<Dependence> Dependences { get; init; } = [];

    /// <summary>Where it is zero over two inputs; null = no grid of two.</summary>
    public BreakEvenContour? Contour { get; init; }
}

/// <summary>What matters in a sweep.</summary>
/// <param name="Outputs">By home and tariff, then by output.</param>
/// <param name="BestOffers">The best offer of each home and tariff.</param>
public sealed record WhatMatters(IReadOnlyList<OutputMatters> Outputs, IReadOnlyList<BestOffer> BestOffers)
{
    /// <summary>Asks a sweep what matters.</summary>
    /// <param name="table">All its rows.</param>
    public static WhatMatters Of(SweepTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        SweepDesign design = table.Plan.Design;
        var outputs = new List<OutputMatters>();
        for (int place = 0; place < table.Places; place++)
            for (int c = 0; c < table.Columns.Count; c++)
                outputs.Add(new OutputMatters
                {
                    Place = table.PlaceName(place),
                    Column = table.Columns[c],
                    Unit = table.UnitOf(c, place),
                    Tornado = design == SweepDesign.OneAtATime ? Tornado.Of(table, c, place) : null,
                    Indices = design == SweepDesign.SobolIndices ? SobolIndices.Of(table, c, place) : null,
                    Dependences = design == SweepDesign.OneAtATime ? [] : [.. Enumerable.Range(0, table.Plan.Inputs.Count).Select(i => Dependence.Of(table, c, i, place)).OfType<Dependence>()],
                    Contour = BreakEvenContour.Of(table, c, place),
                });
        return new WhatMatters(outputs, BestOffer.Of(table));
    }
}
