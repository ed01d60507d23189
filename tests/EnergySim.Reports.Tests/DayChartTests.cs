using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Days;
using NodaTime;

namespace EnergySim.Reports;

public sealed class DayChartTests
{
    private static readonly LocalDate s_day = new(2025, 3, 9);

    public static TheoryData<string> Every => [.. Homes.All.Keys];

    [Theory]
    [MemberData(nameof(Every))]
    public void Of_AnyHomeAndSize_IsClean(string name)
    {
        Home home = Homes.All[name];
        foreach (int column in (int[])[0, home.Offers.Count])
            foreach (ChartSize size in PictureChecks.Sizes)
            {
                PictureChecks.Check(DayChart.Of(DayStudy.Of(home, column, s_day), size).Picture, name);
                PictureChecks.Check(DayChart.Of(DayStudy.Average(home, column), size).Picture, name);
            }
    }

    [Fact]
    public void Of_AverageDay_StacksReachTheUseOnTheScale()
    {
        DayFlows day = DayStudy.Average(Homes.All["usual"], 1);
        Picture picture = DayChart.Of(day).Picture;
        (decimal Amount, double Y)[] ticks = [.. picture.Texts.Where(t => t.Role == TextRole.Tick && t.Box.Top < picture.ZeroLine.Y + 1 && t.Box.Bottom <= picture.Field.Bottom)
            .Select(t => (decimal.Parse(t.Text, CultureInfo.InvariantCulture), t.Box.Top + (0.6 * t.Lettering.SizePx)))];
        double perKw = (ticks[0].Y - ticks[1].Y) / (double)(ticks[1].Amount - ticks[0].Amount);
        // The last curve is the home's use: its inner stroke, two points a moment.
        IReadOnlyList<(double X, double Y)> use = picture.Curves.Where(c => c.Colour == Palette.Load).Last().Points;
        for (int i = 0; i < day.Moments.Count; i++)
        {
            Assert.Equal(day.Moments[i].UseKw * Math.Abs(perKw), picture.ZeroLine.Y - use[2 * i].Y, 1e-6);
            double highest = picture.Shapes.Where(s => s.Points.Any(p => Math.Abs(p.X - use[2 * i].X) < 1e-6)).SelectMany(s => s.Points).Where(p => p.X >= use[2 * i].X - 1e-6 && p.X <= use[(2 * i) + 1].X + 1e-6).Min(p => p.Y);
            Assert.True(highest <= use[2 * i].Y + 1e-6, $"moment {i}: the areas end below the use");
        }
    }

    [Fact]
    public void Of_ADay_SaysUnitsPricesAndPeriods()
    {
        Picture picture = DayChart.Of(DayStudy.Of(Homes.All["usual"], 1, new LocalDate(2025, 7, 15))).Picture;
        Assert.Equal(["15 Jul 2025 · Sedge Row (invented)"], PictureChecks.Texts(picture, TextRole.Title));
        Assert.Equal(["kW · above zero: serves the home · below: stored or sold", "hour of the day, local clock", "in the battery, kWh", "a kWh bought costs"], PictureChecks.Texts(picture, TextRole.ScaleTitle));
        Assert.Equal(["off $0.14", "peak $0.42", "off $0.14"], PictureChecks.Texts(picture, TextRole.BillAmount));
        Assert.Equal(["sun", "battery", "grid: bought, sold", "the home uses", "the panels give"], PictureChecks.Texts(picture, TextRole.ColumnName));
        Assert.Equal(["0", "3", "6", "9", "12", "15", "18", "21", "24"], PictureChecks.Texts(picture, TextRole.BillDate));
    }

    [Fact]
    public void Of_HomeWithoutSunOrBattery_DoesNotSpeakOfThem()
    {
        Picture picture = DayChart.Of(DayStudy.Average(Homes.All["no solar"], 0)).Picture;
        Assert.Equal(["grid", "the home uses"], PictureChecks.Texts(picture, TextRole.ColumnName));
        Assert.DoesNotContain(picture.Texts, t => t.Text.Contains("battery", StringComparison.Ordinal) || t.Text.Contains("sun", StringComparison.Ordinal));
    }

    [Fact]
    public void Svg_SaysEveryHourInWordsAndIsTheSameEachTime()
    {
        DayFlows day = DayStudy.Of(Homes.All["usual"], 1, s_day);
        string svg = DayChart.Of(day).Svg;
        Assert.Equal(svg, DayChart.Of(day).Svg);
        System.Xml.Linq.XElement root = System.Xml.Linq.XDocument.Parse(svg).Root!;
        string words = root.Elements().First(e => e.Name.LocalName == "desc").Value;
        // The clock of this zone goes from 1 to 3 that day (15 U.S.C. 260a).
        Assert.Equal(23, day.Moments.Count);
        Assert.Contains("01:00: uses", words, StringComparison.Ordinal);
        Assert.DoesNotContain("02:00: uses", words, StringComparison.Ordinal);
        Assert.Contains("03:00: uses", words, StringComparison.Ordinal);
    }
}
