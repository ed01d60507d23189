namespace EnergySim.Reports.Drawing;

/// <summary>A light pattern over a fill, so that neighbours differ where colour is lost.</summary>
public enum Hatch
{
    /// <summary>Plain.</summary>
    None,

    /// <summary>Thin lines rising to the right.</summary>
    RisingLines,

    /// <summary>Small dots.</summary>
    Dots,

    /// <summary>Thin lines falling to the right.</summary>
    FallingLines,

    /// <summary>Thin level lines.</summary>
    LevelLines,

    /// <summary>Thin upright lines.</summary>
    UprightLines,
}

/// <summary>How the bars of one column are filled.</summary>
/// <param name="Fill">The area.</param>
/// <param name="Edge">The outline.</param>
/// <param name="Hatch">The pattern.</param>
/// <param name="HatchColour">Colour of the pattern.</param>
public sealed record BarStyle(Colour Fill, Colour Edge, Hatch Hatch, Colour HatchColour);
