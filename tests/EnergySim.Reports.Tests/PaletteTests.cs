using EnergySim.Reports.Drawing;
using EnergySim.Studies;

namespace EnergySim.Reports;

public sealed class PaletteTests
{
    private static readonly BarStyle[] s_columns =
        [Palette.AsItIs, Palette.OneBattery, Palette.TwoBatteries, Palette.ThirdOffer, Palette.FourthOffer, Palette.FifthOffer];

    [Fact]
    public void Columns_AnyTwo_Are15StepsOfLightnessApart() => AssertApart([.. s_columns.Select(s => s.Fill)]);

    [Fact]
    public void Flows_AnyTwo_Are15StepsOfLightnessApart() =>
        AssertApart([Palette.Load, Palette.Solar, Palette.Battery, Palette.Grid]);

    [Fact]
    public void Columns_AnyTwo_HaveOtherHatches() => Assert.Equal(s_columns.Length, s_columns.Select(s => s.Hatch).Distinct().Count());

    // 4.5 for text and 3 for shapes: W3C, Web Content Accessibility Guidelines 2.1, criteria 1.4.3 and 1.4.11.
    [Fact]
    public void Inks_OnEveryGround_HaveTheContrastOfText()
    {
        foreach (Colour ground in (Colour[])[Palette.Paper, Palette.Band])
            foreach (Colour ink in (Colour[])[Palette.Ink, Palette.QuietInk])
                Assert.True(Contrast(ink, ground) >= 4.5, $"{ink.Hex} on {ground.Hex}: {Contrast(ink, ground)}");
    }

    [Fact]
    public void Edges_OnEveryGround_HaveTheContrastOfShapes()
    {
        foreach (Colour ground in (Colour[])[Palette.Paper, Palette.Band])
            Assert.All(s_columns, style => Assert.True(Contrast(style.Edge, ground) >= 3, style.Edge.Hex));
    }

    [Fact]
    public void InkOn_AnyGrey_HasTheContrastOfText()
    {
        for (int grey = 0; grey <= 255; grey++)
        {
            var ground = new Colour((byte)grey, (byte)grey, (byte)grey);
            Assert.True(Contrast(Palette.InkOn(ground), ground) >= 4.5, $"{grey}: {Contrast(Palette.InkOn(ground), ground)}");
        }
    }

    // Grey print keeps the order of amounts.
    [Fact]
    public void Shades_MoreIsDarker()
    {
        Func<double, Colour>[] ramps = [Palette.SolarShade, Palette.PriceShade, .. new[] { Palette.Load, Palette.Grid, Palette.Battery }.Select(c => (Func<double, Colour>)(s => Palette.Shade(c, s)))];
        foreach (Func<double, Colour> ramp in ramps)
            for (int i = 1; i <= 20; i++) Assert.True(ramp(i / 20.0).Luminance < ramp((i - 1) / 20.0).Luminance);
    }

    [Fact]
    public void Contrast_BlackOnWhite_Is21() => Assert.Equal(21, Contrast(new(0, 0, 0), new(255, 255, 255)), 1e-9);

    [Theory]
    [InlineData(0, 1, 2)]
    [InlineData(0, 2, 1)]
    [InlineData(0, 3, 1)]
    public void StylesOf_OneAndTwoBatteries_HaveTheirOwnInAnyOrder(params int[] units)
    {
        IReadOnlyList<BarStyle> styles = Palette.StylesOf(Columns(units));
        for (int i = 1; i < units.Length; i++)
        {
            if (units[i] == 1) Assert.Same(Palette.OneBattery, styles[i]);
            if (units[i] == 2) Assert.Same(Palette.TwoBatteries, styles[i]);
        }
    }

    [Theory]
    [InlineData(0, 1, 1, 1, 1)]
    [InlineData(0, 5, 4, 3, 2, 1)]
    [InlineData(2, 2, 2, 0, 0)]
    public void StylesOf_AnyColumns_AreAllDifferentAndTheFirstIsAsItIs(params int[] units)
    {
        IReadOnlyList<BarStyle> styles = Palette.StylesOf(Columns(units));
        Assert.Same(Palette.AsItIs, styles[0]);
        Assert.Equal(units.Length, styles.Distinct().Count());
    }

    private static IReadOnlyList<ComparisonColumn> Columns(int[] units) =>
        [.. units.Select(u => Cases.Usual.Columns[0] with { BatteryUnits = u })];

    private static void AssertApart(Colour[] colours)
    {
        for (int i = 0; i < colours.Length; i++)
            for (int j = 0; j < i; j++)
                Assert.True(Math.Abs(Lightness(colours[i]) - Lightness(colours[j])) >= 15, $"{colours[i].Hex} and {colours[j].Hex}");
    }

    // ISO/CIE 11664-4:2019 (L* of the CIE 1976 space) over the luminance of IEC 61966-2-1 (sRGB).
    private static double Lightness(Colour colour)
    {
        double y = colour.Luminance;
        return y > 216.0 / 24389 ? (116 * Math.Cbrt(y)) - 16 : y * 24389 / 27;
    }

    private static double Contrast(Colour a, Colour b)
    {
        double first = a.Luminance, second = b.Luminance;
        return (Math.Max(first, second) + 0.05) / (Math.Min(first, second) + 0.05);
    }
}
