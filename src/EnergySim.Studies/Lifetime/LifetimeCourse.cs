namespace EnergySim.Studies.Lifetime;

/// <summary>One course that the years to come may take, beside others of the same home.</summary>
/// <param name="Solar">The panels; null = none.</param>
/// <param name="SolarFactor">What all solar is multiplied by, ≥ 0.</param>
/// <param name="LoadFactor">What all load is multiplied by, ≥ 0.</param>
internal sealed record LifetimeCourse(HomeSolar? Solar, double SolarFactor = 1, double LoadFactor = 1);
