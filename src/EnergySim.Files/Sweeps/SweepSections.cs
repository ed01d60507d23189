namespace EnergySim.Files;

/// <summary>The keys of a sweep file.</summary>
internal static class SweepSections
{
    public static Section Sweep { get; } = new("", ["sweep", "homes", "outputs"], ["tariffs", "inputs", "design", "points", "seed"]);

    public static Section Input { get; } = new(
        "input", ["input"], ["name", "times", "list", "range", "uniform", "triangular", "normal", "lognormal", "observed"]);

    public static Section Range { get; } = new("range", ["from", "to"], ["by", "count"]);

    public static Section Uniform { get; } = new("uniform", ["from", "to"], []);

    public static Section Triangular { get; } = new("triangular", ["from", "peak", "to"], []);

    public static Section Normal { get; } = new("normal", ["mean", "deviation"], ["least", "most"]);

    public static Section Lognormal { get; } = new("lognormal", ["median", "logDeviation"], ["least", "most"]);

    public static Section Observed { get; } = new("observed", ["file", "column"], []);

    public static IReadOnlyList<Section> All { get; } = [Sweep, Input, Range, Uniform, Triangular, Normal, Lognormal, Observed];
}
