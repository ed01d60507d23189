using EnergySim.Studies;

namespace EnergySim.Reports;

/// <summary>
/// The colours of every picture: one figure has one colour wherever it is drawn. The five columns lie at least 15 steps of lightness (L*, 0–100)
/// apart, any two of them, and so do the four flows, so that both sets are told apart in grey print and by colour-blind eyes.
/// </summary>
public static class Palette
{
    /// <summary>Columns that can be told apart in one picture.</summary>
    public const int MostColumns = 5;

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

    /// <summary>What the home uses: wine.</summary>
    public static Colour Load { get; } = Colour.Of(0x4a2032);

    /// <summary>Solar: amber.</summary>
    public static Colour Solar { get; } = Colour.Of(0xdda83a);

    /// <summary>The battery: the deep green of <see cref="OneBattery"/>.</summary>
    public static Colour Battery { get; } = OneBattery.Fill;

    /// <summary>The grid: slate blue.</summary>
    public static Colour Grid { get; } = Colour.Of(0x38547c);

    /// <summary>Text that matters.</summary>
    public static Colour Ink { get; } = Colour.Of(0x2b2a2e);

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
        if (columns.Count > MostColumns)
            throw new ArgumentException($"{columns.Count} columns; a picture tells {MostColumns} apart.", nameof(columns));
        return columns.Count == 0 ? [] : [AsItIs, .. OfferStyles([.. columns.Skip(1).Select(c => c.BatteryUnits)])];
    }

    /// <summary>The style of each offer alone: one or two batteries have their number's colour unless an earlier offer has taken it.</summary>
    /// <param name="units">Number of battery units of each offer.</param>
    /// <exception cref="ArgumentException">There are more offers than <see cref="MostColumns"/> less one.</exception>
    public static IReadOnlyList<BarStyle> OfferStyles(IReadOnlyList<int> units)
    {
        ArgumentNullException.ThrowIfNull(units);
        if (units.Count > MostColumns - 1) throw new ArgumentException($"{units.Count} offers; a picture tells {MostColumns - 1} apart.", nameof(units));
        var styles = new BarStyle?[units.Count];
        var free = new List<BarStyle> { ThirdOffer, FourthOffer, OneBattery, TwoBatteries };
        for (int i = 0; i < styles.Length; i++)
        {
            BarStyle? own = units[i] switch { 1 => OneBattery, 2 => TwoBatteries, _ => null };
            if (own is not null && free.Remove(own)) styles[i] = own;
        }
        for (int i = 0; i < styles.Length; i++)
        {
            if (styles[i] is not null) continue;
            styles[i] = free[0];
            free.RemoveAt(0);
        }
        return [.. styles.Select(s => s!)];
    }
}
