using SkiaSharp;

namespace EnergySim.Reports.Fonts;

public sealed class BundledFontTests
{
    [Theory]
    [InlineData(false, 400)]
    [InlineData(true, 700)]
    public void Typeface_AnyMachine_IsTheBundledOne(bool isBold, int weight)
    {
        SKTypeface typeface = (isBold ? BundledFont.Bold : BundledFont.Regular).Typeface;
        Assert.Equal("Liberation Sans", typeface.FamilyName);
        Assert.Equal(weight, typeface.FontWeight);
        Assert.Equal(2048, typeface.UnitsPerEm);
    }

    // Widths and pairs from the tables hmtx and kern of the font file, in units of 2048, read with Debian's fonttools. The shaper rounds to 1/512.
    [Theory]
    [InlineData("Jan", 1024 + 1139 + 1139)]
    [InlineData("111", (3 * 1139) - (2 * 152))]
    [InlineData("To", 1251 + 1139 - 227)]
    public void WidthPx_OfLetters_IsTheFontsOwn(string text, int units) =>
        Assert.Equal(units / 2048.0 * 100, BundledFont.Regular.WidthPx(text, 100), 0.25);

    [Fact]
    public void WidthPx_AtTwiceTheSize_IsTwice() =>
        Assert.Equal(2 * BundledFont.Bold.WidthPx("Your bill", 13), BundledFont.Bold.WidthPx("Your bill", 26), 0.01);

    [Fact]
    public void EmbeddableBase64_EachWeight_IsAWoff2OfItsOwn()
    {
        // "wOF2", the signature of the W3C recommendation WOFF 2.0, section 4.
        Assert.Equal("wOF2"u8.ToArray(), Convert.FromBase64String(BundledFont.Regular.EmbeddableBase64)[..4]);
        Assert.Equal("wOF2"u8.ToArray(), Convert.FromBase64String(BundledFont.Bold.EmbeddableBase64)[..4]);
        Assert.NotEqual(BundledFont.Regular.EmbeddableBase64, BundledFont.Bold.EmbeddableBase64);
    }

    [Fact]
    public void Assembly_WithFonts_CarriesTheirLicence()
    {
        using Stream? stream = typeof(BundledFont).Assembly.GetManifestResourceStream("Fonts/OFL.txt");
        Assert.NotNull(stream);
        using var reader = new StreamReader(stream);
        Assert.Contains("SIL OPEN FONT LICENSE Version 1.1", reader.ReadToEnd());
    }
}
