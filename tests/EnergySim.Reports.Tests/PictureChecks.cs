using EnergySim.Reports.Drawing;

namespace EnergySim.Reports;

/// <summary>What every picture must keep.</summary>
internal static class PictureChecks
{
    public static IReadOnlyList<ChartSize> Sizes { get; } = [ChartSize.Laptop, ChartSize.Phone, ChartSize.Page];

    /// <summary>Texts stand on the ground, apart from one another and large enough; bars and areas lie inside; text that is on cells has the contrast of text (W3C, WCAG 2.1, 1.4.3).</summary>
    public static void Check(Picture picture, string name)
    {
        foreach (TextMark text in picture.Texts)
        {
            Assert.True(picture.Ground.Contains(text.Box), $"{name}: \"{text.Text}\" leaves the picture: {text.Box}");
            Assert.True(text.Lettering.SizePx >= 9.5, $"{name}: \"{text.Text}\" is {text.Lettering.SizePx} px");
            Assert.NotEmpty(text.Text);
            Colour ground = picture.Bands.LastOrDefault(b => b.Box.Contains(text.Box.Inset(2)))?.Colour ?? Palette.Paper;
            double contrast = Contrast(text.Lettering.Colour, ground);
            Assert.True(contrast >= 4.5, $"{name}: \"{text.Text}\" on {ground.Hex}: {contrast:0.00}");
        }
        for (int i = 0; i < picture.Texts.Count; i++)
            for (int j = 0; j < i; j++)
                Assert.False(picture.Texts[i].Box.Inset(1).Overlaps(picture.Texts[j].Box.Inset(1)), $"{name}: \"{picture.Texts[i].Text}\" lies on \"{picture.Texts[j].Text}\"");
        foreach (BarMark bar in picture.Bars)
        {
            Assert.True(picture.Ground.Contains(bar.Box), $"{name}: a bar leaves the picture");
            Assert.All(picture.Texts, t => Assert.False(t.Box.Inset(1.5).Overlaps(bar.Box), $"{name}: \"{t.Text}\" lies on a bar"));
        }
        foreach ((double x, double y) in picture.Curves.SelectMany(c => c.Points).Concat(picture.Shapes.SelectMany(s => s.Points)))
            Assert.True(x >= -0.5 && x <= picture.Size.WidthPx + 0.5 && y >= -0.5 && y <= picture.Size.HeightPx + 0.5, $"{name}: a point at {x}, {y}");
        Assert.True(picture.Field.Height >= 80, $"{name}: the field is {picture.Field.Height} px high");
        Assert.NotEmpty(picture.Title);
        Assert.NotEmpty(picture.Description);
    }

    public static string[] Texts(Picture picture, TextRole role) => [.. picture.Texts.Where(t => t.Role == role).Select(t => t.Text)];

    private static double Contrast(Colour a, Colour b)
    {
        double first = a.Luminance, second = b.Luminance;
        return (Math.Max(first, second) + 0.05) / (Math.Min(first, second) + 0.05);
    }
}
