using EnergySim.Studies;

namespace EnergySim.Reports.Drawing;

/// <summary>
/// The colours of every picture: one figure has one colour wherever it is drawn. The six columns lie at least 15 steps of lightness (L*, 0–100)
/// apart, any two of them, and so do the four flows, so that both sets are told apart in grey print and by colour-blind eyes.
/// </summary>
public static class Palette
{
    /// <summary>Columns that can be told apart in one picture.</summary>
    public const int MostColumns = 6;

    private static readonly Colour s_white = Colour.Of(0xffffff);

    /// <summary>The home as it is: soot, plain.</summary>
    public static BarStyle AsItIs { get; } = new(Colour.Of(0x322f37), Colour.Of(0x322f37), Hatch.None, s_white);

    /// <summary>One battery: deep green, thin rising lines.</summary>
    public static BarStyle OneBattery { get; } = new(Colour.Of(0x248b7d), Colour.Of(0x1a6a5f), Hatch.RisingLines, Colour.Of(0x63b0a5));

    /// <summary>Two batteries: pale green, dots.</summary>
    public static BarStyle TwoBatteries { get; } = new(Colour.Of(0xb4dccb), Colour.Of(0x1a6a5f), Hatch.Dots, Colour.Of(0x4f9c8c));

    /// <summary>A third offer: plum, thin falling lines.</summary>
    public static BarStyle ThirdOffer { get; } = new(Colour.Of(0x764666), Colour.Of(0x5c3450), Hatch.FallingLines, Colour.Of(0xa07b93));

    /// <summary>A fourth offer: clay, level lines.</summary>
    public static BarStyle FourthOffer { get; } = new(Colour.Of(0xc99c70), Colour.Of(0x7a5630), Hatch.LevelLines, Colour.Of(0x9c7248));

    /// <summary>A fifth offer: white, upright lines of slate.</summary>
    public static BarStyle FifthOffer { get; } = new(s_white, Colour.Of(0x4b5d78), Hatch.UprightLines, Colour.Of(0x8d9bb3));

    /// <summary>What the home uses: wine.</summary>
    public static Colour Load { get; } = Colour.Of(0x4a2032);

    /// <summary>Solar: amber.</summary>
    public static Colour Solar { get; } = Colour.Of(0xdda83a);

    /// <summary>Solar by amount: from paper over amber to dark brown, each step darker, so that grey print keeps the order.</summary>
    /// <param name="share">0–1 of the most.</param>
    public static Colour SolarShade(double share)
    {
        const double Middle = 0.55;
        double at = Math.Clamp(share, 0, 1);
        return at < Middle ? Between(Colour.Of(0xfbf8f0), Solar, at / Middle) : Between(Solar, Colour.Of(0x6b3a12), (at - Middle) / (1 - Middle));
    }

    /// <summary>The battery: the deep green of <see cref="OneBattery"/>.</summary>
    public static Colour Battery { get; } = OneBattery.Fill;

    /// <summary>The grid: slate blue.</summary>
    public static Colour Grid { get; } = Colour.Of(0x38547c);

    /// <summary>What the home uses, as a line.</summary>
    public static BarStyle LoadFlow { get; } = new(Load, Load, Hatch.None, Load);

    /// <summary>Solar as an area or a line: plain.</summary>
    public static BarStyle SolarFlow { get; } = new(Solar, Colour.Of(0x7a5320), Hatch.None, Solar);

    /// <summary>The battery as an area: its own style, thin rising lines.</summary>
    public static BarStyle BatteryFlow => OneBattery;

    /// <summary>The grid as an area: dots.</summary>
    public static BarStyle GridFlow { get; } = new(Grid, Colour.Of(0x24395a), Hatch.Dots, Colour.Of(0x8197ba));

    /// <summary>What costs where all else saves: hollow, falling lines, so that no colour is needed to know it.</summary>
    public static BarStyle Cost { get; } = new(s_white, Colour.Of(0x2b2a2e), Hatch.FallingLines, Colour.Of(0x77757b));

    /// <summary>A figure by amount: from paper to its colour, each step darker.</summary>
    /// <param name="colour">The figure's colour, a dark one.</param>
    /// <param name="share">0–1 of the most.</param>
    public static Colour Shade(Colour colour, double share) => Between(Colour.Of(0xfaf8f4), colour, Math.Clamp(share, 0, 1));

    /// <summary>Text that matters.</summary>
    public static Colour Ink { get; } = Colour.Of(0x2b2a2e);

    /// <summary>What a kWh costs, from the cheapest hour to the dearest: greys, so that no flow's colour is taken.</summary>
    /// <param name="share">0–1 of the way from the lowest price to the highest.</param>
    public static Colour PriceShade(double share) => Between(Colour.Of(0xefede8), Colour.Of(0x5a5760), Math.Clamp(share, 0, 1));

    /// <summary>Ink for letters on a ground: black or white, whichever stands out more; at least 4.5 to 1 on any.</summary>
    public static Colour InkOn(Colour ground) => ground.Luminance > 0.179 ? Colour.Of(0x000000) : Paper;

    /// <summary>Text that explains.</summary>
    public static Colour QuietInk { get; } = Colour.Of(0x5c5a60);

    /// <summary>The ground.</summary>
    public static Colour Paper { get; } = s_white;

    /// <summary>The ground behind every other bill.</summary>
    public static Colour Band { get; } = Colour.Of(0xf6f4ef);

    /// <summary>Thin lines that lead the eye to the scale.</summary>
    public static Colour Guide { get; } = Colour.Of(0xd9d6ce);

    /// <summary>
    /// The style of each column: the first is the home as it is, an offer of one or two batteries has that number's colour unless an earlier
    /// column has taken it, and the rest take what is left.
    /// </summary>
    /// <exception cref="ArgumentException">There are more columns than <see cref="MostColumns"/>.</exception>
    public static IReadOnlyList<BarStyle> StylesOf(IReadOnlyList<ComparisonColumn> columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        return StylesOf([.. columns.Select(c => c.BatteryUnits)]);
    }

    /// <summary>The same by the columns' numbers of batteries; the first is the home as it is.</summary>
    /// <exception cref="ArgumentException">There are more columns than <see cref="MostColumns"/>.</exception>
    public static IReadOnlyList<BarStyle> StylesOf(IReadOnlyList<int> batteryUnits)
    {
        ArgumentNullException.ThrowIfNull(batteryUnits);
        if (batteryUnits.Count > MostColumns)
            throw new ArgumentException($"{batteryUnits.Count} columns; a picture tells {MostColumns} apart.", nameof(batteryUnits));
        var styles = new BarStyle?[batteryUnits.Count];
        var free = new List<BarStyle> { ThirdOffer, FourthOffer, FifthOffer, OneBattery, TwoBatteries };
        for (int i = 0; i < styles.Length; i++)
        {
            BarStyle? own = i == 0 ? AsItIs : batteryUnits[i] switch { 1 => OneBattery, 2 => TwoBatteries, _ => null };
            if (i == 0 || (own is not null && free.Remove(own))) styles[i] = own;
        }
        for (int i = 0; i < styles.Length; i++)
        {
            if (styles[i] is not null) continue;
            styles[i] = free[0];
            free.RemoveAt(0);
        }
        return [.. styles.Select(s => s!)];
    }

    /// <summary>The style of each offer alone, as beside the home as it is.</summary>
    /// <param name="units">Number of battery units of each offer.</param>
    /// <exception cref="ArgumentException">There are more offers than <see cref="MostColumns"/> less one.</exception>
    public static IReadOnlyList<BarStyle> OfferStyles(IReadOnlyList<int> units) => [.. StylesOf([0, .. units]).Skip(1)];

    private static Colour Between(Colour from, Colour to, double share)
    {
        byte Mix(byte a, byte b) => (byte)Math.Round(a + ((b - a) * share));
        return new Colour(Mix(from.Red, to.Red), Mix(from.Green, to.Green), Mix(from.Blue, to.Blue));
    }
}
