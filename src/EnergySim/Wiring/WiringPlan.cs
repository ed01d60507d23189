namespace EnergySim.Wiring;

/// <summary>What is asked of a home's wiring, and the facts for it.</summary>
public sealed record WiringPlan
{
    /// <summary>The service and its panel.</summary>
    public required ServicePanel Panel { get; init; }

    /// <summary>The edition that is adopted here.</summary>
    public required CodeEdition Edition { get; init; }

    /// <summary>False where the file did not say which edition is adopted here.</summary>
    public bool EditionIsStated { get; init; } = true;

    /// <summary>The dwelling's loads; null = not stated.</summary>
    public DwellingLoads? Loads { get; init; }

    /// <summary>Share of the house's load on kept circuits, 0–1.</summary>
    public double KeptFraction { get; init; } = 0.5;

    /// <summary>Highest load on one leg of what is kept running, kW; null = not known.</summary>
    public double? LargestLegKw { get; init; }

    /// <summary>Years over which price and bills are added up.</summary>
    public int Years { get; init; } = 10;

    /// <summary>Price of moving all panels onto the battery's inputs; null = a placeholder.</summary>
    public decimal? ReplaceWorkPrice { get; init; }

    /// <summary>Price of moving part of them; null = a placeholder.</summary>
    public decimal? SplitWorkPrice { get; init; }

    /// <summary>The ways to connect.</summary>
    public required IReadOnlyList<WayToConnect> Ways { get; init; }
}
