namespace EnergySim.Reports;

public class ReportChartsTests
{
    public static TheoryData<string> Names => Homeowner.Reports.Names;

    [Theory]
    [MemberData(nameof(Names))]
    public void Of_AnyHome_GivesPicturesWithNamesOfTheirOwnThatKeepTheirTextsInside(string home)
    {
        IReadOnlyList<NamedChart> charts = ReportCharts.Of(Homeowner.Reports.FindingsOf(home));
        Assert.Equal(charts.Count, charts.Select(c => c.Name).Distinct().Count());
        Assert.All(charts, c => Assert.All(c.Picture.Texts, t => Assert.True(c.Picture.Ground.Contains(t.Box), $"{home} {c.Name}: \"{t.Text}\" leaves the picture")));
        Assert.All(charts, c => Assert.NotEmpty(c.Picture.Description));
    }

    [Fact]
    public void Of_UsualHome_HasEachKind()
    {
        string[] names = [.. ReportCharts.Of(Homeowner.Reports.FindingsOf("usual")).Select(c => c.Name)];
        foreach (string kind in (string[])["bills", "causes-offer-1", "lines-offer-2", "day-2025-07", "average-day", "use-months", "sun-months", "price-months", "bought-months", "stored-months-offer-1", "stored-energy", "lasting", "starts-offer-1", "reserve-offer-2"])
            Assert.Contains(names, n => n.StartsWith(kind, StringComparison.Ordinal));
    }
}
