namespace EnergySim.Solar;

/// <summary>Modules that face one way.</summary>
public sealed record RoofPlane
{
    /// <summary>Loss of power a kelvin above 25 °C where a data sheet gives none: crystalline modules have −0.3 to −0.5 % (common practice).</summary>
    public const double UsualTemperatureCoefficientPerK = -0.0035;

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>From the horizontal, degrees, 0 flat to 90 upright.</summary>
    public required double TiltDegrees { get; init; }

    /// <summary>The way it faces, degrees from north clockwise, 0 to below 360: east 90, south 180, west 270.</summary>
    public required double AzimuthDegrees { get; init; }

    /// <summary>Rated power of its modules, kW DC at 1,000 W/m² and cells of 25 °C, &gt; 0.</summary>
    public required double RatedKw { get; init; }

    /// <summary>Change of power a kelvin of the cells above 25 °C, as a share; below 0 for all common modules.</summary>
    public double TemperatureCoefficientPerK { get; init; } = UsualTemperatureCoefficientPerK;

    /// <summary>How it is mounted.</summary>
    public Mounting Mounting { get; init; } = Mounting.CloseToRoof;

    /// <summary>What shades it by direction; null = nothing.</summary>
    public HorizonLine? Horizon { get; init; }

    /// <summary>Share of its power that near shade takes in each month, January first, 0–1; empty = none.</summary>
    public IReadOnlyList<double> MonthlyShadeFractions { get; init; } = [];

    /// <summary>Number of strings it is wired in, each on an input of its own, ≥ 1.</summary>
    public int Strings { get; init; } = 1;
}

/// <summary>One cause of loss between what falls on the modules and the inverter's inputs.</summary>
/// <param name="Name">The cause.</param>
/// <param name="Fraction">Share of the power lost, 0–1.</param>
/// <param name="Source">Where the figure comes from.</param>
public sealed record NamedLoss(string Name, double Fraction, string Source)
{
    /// <summary>What is assumed where a home states no losses, each from common practice for homes; together 5.4 %.</summary>
    public static IReadOnlyList<NamedLoss> Usual { get; } =
    [
        new("soiling", 0.02, "assumption; common practice: 1–5 % where it rains"),
        new("mismatch of modules", 0.015, "assumption; common practice: 1–2 %"),
        new("DC wiring", 0.015, "assumption; common practice: sized for at most 2 %"),
        new("connections and diodes", 0.005, "assumption; common practice"),
    ];
}
