using System.Globalization;
using System.Text;
using System.Xml.Linq;
using EnergySim.Reports.Drawing;
using EnergySim.Studies;
using SkiaSharp;

namespace EnergySim.Reports;

public sealed class SavingsChartTests
{
    private static readonly XNamespace s_svg = "http://www.w3.org/2000/svg";

    [Fact]
    public void WritePng_Twice_GivesTheSameBytes() => Assert.Equal(Png(Cases.Usual), Png(Cases.Usual with { }));

    [Fact]
    public void Svg_Twice_GivesTheSameText()
    {
        string svg = SavingsChart.Svg(Cases.Usual);
        Assert.Equal(svg, SavingsChart.Svg(Cases.Usual with { }));
        using var stream = new MemoryStream();
        SavingsChart.WriteSvg(Cases.Usual, stream);
        Assert.Equal(Encoding.UTF8.GetBytes(svg), stream.ToArray());
    }

    [Fact]
    public void WritePng_OtherAmount_GivesOtherBytes()
    {
        decimal[] changed = [.. Cases.AsItIs];
        changed[3] += 5;
        Assert.NotEqual(Png(Cases.Of(("as it is", Cases.AsItIs))), Png(Cases.Of(("as it is", changed))));
    }

    [Fact]
    public void WritePng_AnySize_HasTwicePixelsEachWay()
    {
        using SKBitmap bitmap = SKBitmap.Decode(Png(Cases.Usual, ChartSize.Phone));
        Assert.Equal((840, 1120), (bitmap.Width, bitmap.Height));
    }

    [Fact]
    public void WritePng_EveryText_IsThere()
    {
        Picture picture = SavingsChart.Layout(Cases.Usual, null);
        using SKBitmap bitmap = SKBitmap.Decode(Png(Cases.Usual));
        foreach (TextMark text in picture.Texts)
        {
            int dark = 0;
            for (int x = (int)(2 * text.Box.Left); x < 2 * text.Box.Right; x++)
                for (int y = (int)(2 * text.Box.Top); y < 2 * text.Box.Bottom; y++)
                    if (bitmap.GetPixel(x, y).Green < 0x80) dark++;
            // Letters ink about a tenth of their box; the least is the dot-like "…" or a lone figure.
            Assert.True(dark > 0.05 * 4 * text.Box.Width * text.Box.Height, $"{text.Text}: {dark} dark pixels");
        }
    }

    [Fact]
    public void WritePng_EveryBar_EndsWhereTheLayoutSays()
    {
        Comparison comparison = Cases.Many(5, 6, new(2025, 1, 1), (c, b) => 90.3m - (40 * c) + (3 * b));
        Picture picture = SavingsChart.Layout(comparison, null);
        using SKBitmap bitmap = SKBitmap.Decode(Png(comparison));
        foreach (BarMark bar in picture.Bars)
        {
            bool isCredit = bar.Box.Top >= picture.ZeroLine.Y - 1e-6;
            double end = isCredit ? bar.Box.Bottom : bar.Box.Top, inwards = isCredit ? -1 : 1;
            Assert.True(Distance(PixelAt(bar.Box.Left + 4, end + (0.5 * inwards)), bar.Style.Edge) < 130, $"edge of {bar}");
            // Beside an amount, outside the bar, is ground.
            SKColor outside = PixelAt(bar.Box.Left + 0.6, end - (1.6 * inwards));
            Assert.True(outside.Red > 0xc0 && outside.Green > 0xc0, $"outside of {bar}: {outside}");
        }

        SKColor PixelAt(double x, double y) => bitmap.GetPixel((int)(2 * x), (int)(2 * y));
        static int Distance(SKColor a, Colour b) => Math.Abs(a.Red - b.Red) + Math.Abs(a.Green - b.Green) + Math.Abs(a.Blue - b.Blue);
    }

    [Fact]
    public void Svg_Usual_HasTitleAndFiguresInWords()
    {
        XElement root = XDocument.Parse(SavingsChart.Svg(Cases.Usual)).Root!;
        Assert.Equal("Your bill each month", root.Element(s_svg + "title")!.Value);
        string words = root.Element(s_svg + "desc")!.Value;
        Assert.StartsWith("Your bill each month. In a year: as it is $2,412.00, one battery $1,701.00, two batteries $1,527.00. 1 Jan 2025 to 31 Jan 2025: as it is $231.40, one battery $178.20, two batteries $166.10.", words);
        Assert.EndsWith("Brook Lane 4; tariff Two Rivers Power time-of-use (1 Jan 2025); 1 Jan 2025 to 31 Dec 2025. Invented demo: home, utility and prices are made up.", words);
        string[] named = root.Attribute("aria-labelledby")!.Value.Split(' ');
        Assert.Equal(root.Element(s_svg + "title")!.Attribute("id")!.Value, named[0]);
        Assert.Equal(root.Element(s_svg + "desc")!.Attribute("id")!.Value, named[1]);
    }

    [Fact]
    public void Svg_Usual_HasTheTextsAndBarsOfTheLayout()
    {
        Picture picture = SavingsChart.Layout(Cases.Usual, ChartSize.Page);
        XElement root = XDocument.Parse(SavingsChart.Svg(Cases.Usual, ChartSize.Page)).Root!;
        Assert.Equal(picture.Texts.Select(t => t.Text), root.Elements(s_svg + "text").Select(e => e.Value));
        foreach (BarMark bar in picture.Bars)
            Assert.Contains(root.Elements(s_svg + "rect"), e =>
                e.Attribute("fill")!.Value == bar.Style.Fill.Hex && Is(e, "x", bar.Box.Left) && Is(e, "y", bar.Box.Top)
                && Is(e, "width", bar.Box.Width) && Is(e, "height", bar.Box.Height));

        static bool Is(XElement element, string name, double px) =>
            Math.Abs(double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture) - px) <= 0.0006;
    }

    [Fact]
    public void Svg_EveryReference_IsInTheDocument()
    {
        XElement root = XDocument.Parse(SavingsChart.Svg(Cases.Many(5, 3, new(2025, 1, 1)))).Root!;
        string[] ids = [.. root.Descendants().Attributes("id").Select(a => a.Value)];
        Assert.Equal(ids.Length, ids.Distinct().Count());
        string[] used = [.. root.Descendants().Attributes("fill").Where(a => a.Value.StartsWith("url(#", StringComparison.Ordinal)).Select(a => a.Value[5..^1]).Distinct()];
        Assert.Equal(4, used.Length);
        Assert.Subset(ids.ToHashSet(), used.ToHashSet());
        string style = root.Element(s_svg + "style")!.Value;
        Assert.Equal(2, style.Split("src: url(data:font/woff2;base64,").Length - 1);
        Assert.DoesNotContain("url(http", style);
    }

    [Fact]
    public void Svg_NamesWithMarkup_StayText()
    {
        const string Name = "</text><script>alert(\"1\")</script> & ]]> \u0001 'b'";
        Comparison comparison = Cases.Many(1, 2, new(2025, 1, 1)) with { Home = Name, Tariff = Name, Currency = "<&>", Notes = ["invented " + Name] };
        comparison = comparison with { Columns = [comparison.Columns[0] with { Name = Name }] };
        XElement root = XDocument.Parse(SavingsChart.Svg(comparison, ChartSize.Laptop)).Root!;
        Assert.Empty(root.Descendants(s_svg + "script"));
        Assert.Contains(root.Elements(s_svg + "text"), e => e.Value.StartsWith("</text><script>alert", StringComparison.Ordinal));
        Assert.Contains("]]> 'b'", root.Element(s_svg + "desc")!.Value);
    }

    [Theory]
    [InlineData(279, 500)]
    [InlineData(4001, 500)]
    [InlineData(500, 399)]
    [InlineData(500, 3001)]
    public void ChartSize_OutsideItsRange_Throws(int widthPx, int heightPx) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChartSize(widthPx, heightPx));

    private static byte[] Png(Comparison comparison, ChartSize? size = null)
    {
        using var stream = new MemoryStream();
        SavingsChart.WritePng(comparison, stream, size);
        return stream.ToArray();
    }
}
