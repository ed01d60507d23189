namespace EnergySim.Studies.Sweeps;

/// <summary>How the variants of a sweep are chosen.</summary>
public enum SweepDesign
{
    /// <summary>Every combination of the stated values.</summary>
    Grid,

    /// <summary>The home as its file has it, then each input moved alone.</summary>
    OneAtATime,

    /// <summary>By chance, with each of n equal shares of every input met once.</summary>
    LatinHypercube,

    /// <summary>Points of a Sobol sequence, shifted by the seed.</summary>
    Sobol,

    /// <summary>Pairs of Sobol points and their exchanges, from which first-order and total indices are worked out.</summary>
    SobolIndices,
}

/// <summary>An input of the home file, and its values.</summary>
public sealed record SweepInput
{
    /// <summary>Name of its column.</summary>
    public required string Name { get; init; }

    /// <summary>Path of keys in the home file, such as <c>offers.two-batteries.strategy.reserve</c>.</summary>
    public required string Path { get; init; }

    /// <summary>True when a value multiplies what the file has, false when it takes its place.</summary>
    public bool Multiplies { get; init; }

    /// <summary>Its values.</summary>
    public required InputValues Values { get; init; }
}

/// <summary>A sweep: which homes, under which tariffs, with which inputs changed how, and what is wanted of each.</summary>
public sealed record SweepPlan
{
    /// <summary>The most variants that a sweep may have.</summary>
    public const int MostVariants = 1_000_000_000;

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Names of the homes, at least one.</summary>
    public required IReadOnlyList<string> Homes { get; init; }

    /// <summary>Names of the tariffs, each of which takes the place of every home's own; empty = each home's own.</summary>
    public IReadOnlyList<string> Tariffs { get; init; } = [];

    /// <summary>The inputs; empty = the homes as they are.</summary>
    public IReadOnlyList<SweepInput> Inputs { get; init; } = [];

    /// <summary>How variants are chosen.</summary>
    public SweepDesign Design { get; init; }

    /// <summary>How many points a sampled design takes for each home and tariff.</summary>
    public int Points { get; init; }

    /// <summary>Seed of the sampled designs.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>What is wanted.</summary>
    public required IReadOnlyList<SweepOutput> Outputs { get; init; }
}

/// <summary>An output: a measure of one offer, of the home as it is, or of all.</summary>
/// <param name="Offer">The offer's name, or <see cref="Installation.AsItIs"/>; null = all that have the measure.</param>
/// <param name="Measure">What.</param>
public sealed record SweepOutput(string? Offer, SweepMeasure Measure);
