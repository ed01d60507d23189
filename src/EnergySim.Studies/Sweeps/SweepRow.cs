namespace EnergySim.Studies.Sweeps;

/// <summary>A column of outputs.</summary>
/// <param name="Name">Offer and measure, such as <c>two-batteries.annualSaving</c>.</param>
/// <param name="Offer">The offer's name, or <see cref="Installation.AsItIs"/>.</param>
/// <param name="Measure">What.</param>
public sealed record SweepColumn(string Name, string Offer, SweepMeasure Measure);

/// <summary>What a variant came to.</summary>
/// <param name="Variant">The variant.</param>
/// <param name="Outputs">A value an output column; null = the home has no such offer, or it has no such figure.</param>
/// <param name="Error">Why the variant can not be run; null = it was run.</param>
public sealed record SweepRow(PlannedVariant Variant, IReadOnlyList<double?> Outputs, string? Error);
