using System.Text;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Solar;
using NodaTime;

namespace EnergySim.Reports;

public sealed class SolarChartTests
{
    private static SolarYield Case(double scale, string home) => new()
    {
        Home = home,
        From = new LocalDate(2025, 1, 1),
        To = new LocalDate(2025, 12, 31),
        IsDc = true,
        Planes = [],
        KwhByMonth = [.. Enumerable.Range(0, 12).Select(m => scale * (100 + (10 * m)))],
        RatedKw = 8.2,
        KwByMonthAndHour = [.. Enumerable.Range(0, 12).Select(m => m == 1 ? null : Enumerable.Range(0, 24).Select(h => scale * Math.Max(0, 6 - Math.Abs(h - 12.5))).ToArray())],
        Uses = [],
        DarkSpells = null,
        Notes = ["An invented home."],
    };

    public static TheoryData<double, int, int> Everything
    {
        get
        {
            var all = new TheoryData<double, int, int>();
            foreach (double scale in (double[])[0, 0.01, 1, 100])
                foreach ((int width, int height) in ((int, int)[])[(1200, 675), (420, 560), (720, 450), (280, 400), (4000, 3000)]) all.Add(scale, width, height);
            return all;
        }
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Lay_AnyYieldAndSize_KeepsTextsInsideAndApart(double scale, int width, int height)
    {
        Picture picture = SolarChart.Layout(Case(scale, "a name that its owner could not bring to an end, until nobody read it any more, and then some"), new ChartSize(width, height));
        Assert.NotEmpty(picture.Bands);
        foreach (TextMark text in picture.Texts) Assert.True(picture.Ground.Contains(text.Box), text.Text);
        TextMark[] texts = [.. picture.Texts];
        for (int i = 0; i < texts.Length; i++)
            for (int j = i + 1; j < texts.Length; j++)
                Assert.False(texts[i].Box.Overlaps(texts[j].Box), $"{texts[i].Text} / {texts[j].Text}");
        foreach (AreaMark cell in picture.Bands) Assert.True(picture.Field.Contains(cell.Box.Inset(0.01)));
    }

    [Fact]
    public void SolarShade_OfMore_IsDarkerInGrey()
    {
        static double Grey(Colour c) => (0.2126 * c.Red) + (0.7152 * c.Green) + (0.0722 * c.Blue);
        for (int i = 0; i < 100; i++) Assert.True(Grey(Palette.SolarShade(i / 100.0)) > Grey(Palette.SolarShade((i + 1) / 100.0)));
    }

    [Fact]
    public void WriteSvg_OfAYield_SaysItsFiguresInWords()
    {
        using var stream = new MemoryStream();
        SolarChart.WriteSvg(Case(1, "Home & <garden>"), stream);
        string svg = Encoding.UTF8.GetString(stream.ToArray());
        Assert.Contains("Jan: 100 kWh, most at 12 h with 5.5 kW.", svg, StringComparison.Ordinal);
        Assert.Contains("Home &amp; &lt;garden&gt;", svg, StringComparison.Ordinal);
    }
}
