using EnergySim.Reports.Drawing;
using EnergySim.Studies.Days;

namespace EnergySim.Reports;

public sealed class MonthChartTests
{
    public static TheoryData<string> Every => [.. Homes.All.Keys];

    [Theory]
    [MemberData(nameof(Every))]
    public void Of_AnyHomeFigureAndSize_IsClean(string name)
    {
        Home home = Homes.All[name];
        MonthHours months = MonthHours.Of(home, home.Offers.Count);
        foreach (MonthFigure figure in Enum.GetValues<MonthFigure>())
            foreach (ChartSize size in PictureChecks.Sizes) PictureChecks.Check(MonthChart.Of(months, figure, size).Picture, $"{name}, {figure}");
    }

    [Fact]
    public void Of_Usual_CellsSayTheMeansAndMonthsTheSums()
    {
        Picture picture = MonthChart.Of(MonthHours.Of(Homes.All["usual"], 0), MonthFigure.Use).Picture;
        Assert.Equal(12 * 24, picture.Bands.Count);
        string[] january = [.. PictureChecks.Texts(picture, TextRole.BillAmount).Take(24)];
        Assert.Equal([.. Enumerable.Repeat("0.5", 16), .. Enumerable.Repeat("2.5", 6), "0.5", "0.5"], january);
        // 31 days of 18 h × 0.5 + 6 h × 2.5 kW.
        Assert.Equal("744 kWh", PictureChecks.Texts(picture, TextRole.ColumnAmount)[0]);
        Assert.Equal(["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"], PictureChecks.Texts(picture, TextRole.Tick));
        Assert.Contains("Jan: 744 kWh, most at 16 h with 2.5 kW, least at 0 h with 0.5.", picture.Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_Price_SaysTheRateSheet()
    {
        Picture picture = MonthChart.Of(MonthHours.Of(Homes.All["other currency"], 1), MonthFigure.Price).Picture;
        Assert.Equal("0.14", PictureChecks.Texts(picture, TextRole.BillAmount)[0]);
        Assert.Equal("0.42", PictureChecks.Texts(picture, TextRole.BillAmount)[16]);
        Assert.Contains("CHF a kWh", PictureChecks.Texts(picture, TextRole.Lead)[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Of_StoredAsItIs_IsRefused() =>
        Assert.Contains("no battery", Assert.Throws<ArgumentException>(() => MonthChart.Of(MonthHours.Of(Homes.All["usual"], 0), MonthFigure.Stored)).Message, StringComparison.Ordinal);

    [Fact]
    public void NameOf_AnyTwo_Differ() => Assert.Equal(5, Enum.GetValues<MonthFigure>().Select(MonthChart.NameOf).Distinct().Count());
}
