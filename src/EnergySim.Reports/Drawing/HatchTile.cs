namespace EnergySim.Reports.Drawing;

/// <summary>The square that is repeated over a fill: strokes with round ends (a dot is a stroke without length), px.</summary>
internal sealed record HatchTile(double SidePx, double StrokePx, IReadOnlyList<(double X1, double Y1, double X2, double Y2)> Strokes)
{
    // Corners carry the ends of the neighbouring tiles' slanted strokes, else the line is thin where tiles meet.
    private static readonly HatchTile s_rising = new(6, 1, [(-1.5, 1.5, 1.5, -1.5), (0, 6, 6, 0), (4.5, 7.5, 7.5, 4.5)]);
    private static readonly HatchTile s_falling = new(6, 1, [(-1.5, 4.5, 1.5, 7.5), (0, 0, 6, 6), (4.5, -1.5, 7.5, 1.5)]);
    private static readonly HatchTile s_dots = new(6, 1.6, [(1.5, 1.5, 1.5, 1.5), (4.5, 4.5, 4.5, 4.5)]);
    private static readonly HatchTile s_upright = new(4, 1, [(2, -1, 2, 5)]);
    private static readonly HatchTile s_level = new(4, 1, [(-1, 2, 5, 2)]);

    /// <summary>The tile of a pattern; null for none.</summary>
    public static HatchTile? Of(Hatch hatch) => hatch switch
    {
        Hatch.RisingLines => s_rising,
        Hatch.FallingLines => s_falling,
        Hatch.Dots => s_dots,
        Hatch.LevelLines => s_level,
        Hatch.UprightLines => s_upright,
        _ => null,
    };
}
