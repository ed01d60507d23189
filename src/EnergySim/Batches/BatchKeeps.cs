namespace EnergySim.Batches;

/// <summary>What a batch keeps of each variant; each also keeps what those before it do, and takes longer.</summary>
public enum BatchKeeps
{
    /// <summary>What the meters saw: all that bills need.</summary>
    Meters,

    /// <summary>What the cells gave, too: all that ageing needs.</summary>
    GivenEnergy,

    /// <summary>Every flow and what every limit withheld.</summary>
    Flows,
}
