using System.Text;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Control;
using NodaTime;

namespace EnergySim.Reports.Weeks;

public sealed class WeekLayoutTests
{
    private static WantedWeek Case(string name) => new()
    {
        Home = name,
        Offer = name,
        First = new LocalDate(2025, 9, 22),
        UsableKwh = 12.5,
        Spans =
        [
            .. Enumerable.Range(0, 6).SelectMany(d => (WantedSpan[])
            [
                new(d, 0, 300, Wanted.Charges, 0.9), new(d, 300, 960, Wanted.SolarOnly, 1), new(d, 960, 1200, Wanted.Serves, 0.2), new(d, 1200, 1215, Wanted.Sells, 0.35), new(d, 1215, 1440, Wanted.Sells, 0.35),
            ]),
        ],
        Stored = [.. Enumerable.Range(0, 6 * 24).Select(h => new StoredPoint(h / 24, 60 * ((h % 24) + 1), h % 24 / 23.0))],
    };

    [Theory]
    [InlineData(1200, 675)]
    [InlineData(420, 560)]
    [InlineData(720, 450)]
    [InlineData(280, 400)]
    [InlineData(4000, 3000)]
    public void Lay_AnySize_KeepsTextsInsideAndApart(int width, int height)
    {
        Picture picture = WeekChart.Layout(Case("a name that its owner could not bring to an end, until nobody read it any more, and then some"), new ChartSize(width, height));
        TextMark[] texts = [.. picture.Texts];
        foreach (TextMark text in texts) Assert.True(picture.Ground.Contains(text.Box), text.Text);
        for (int i = 0; i < texts.Length; i++)
            for (int j = i + 1; j < texts.Length; j++)
                Assert.False(texts[i].Box.Overlaps(texts[j].Box), $"{texts[i].Text} / {texts[j].Text}");
        Assert.Equal(30, picture.Bars.Count);
        foreach (BarMark bar in picture.Bars) Assert.True(picture.Field.Contains(bar.Box.Inset(0.01)));
        foreach (CurveMark curve in picture.Curves) Assert.All(curve.Points, p => Assert.InRange(p.Y, picture.Field.Top, picture.Field.Bottom));
    }

    [Fact]
    public void WriteSvg_OfAWeek_SaysItInWords()
    {
        using var stream = new MemoryStream();
        WeekChart.WriteSvg(Case("Plum Hollow"), stream);
        string svg = Encoding.UTF8.GetString(stream.ToArray());
        Assert.Contains("Mon Sep 22: 00:00 to 05:00 charges from the grid, 05:00 to 16:00 takes up the sun only, 16:00 to 20:00 serves the house, 20:00 to 20:15 sells", svg, StringComparison.Ordinal);
        Assert.Contains("down to 35 %", svg, StringComparison.Ordinal);
    }
}
