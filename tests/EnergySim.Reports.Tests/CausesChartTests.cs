using EnergySim.Reports.Causes;
using EnergySim.Reports.Drawing;
using EnergySim.Studies;
using EnergySim.Studies.Causes;

namespace EnergySim.Reports;

public sealed class CausesChartTests
{
    public static TheoryData<string> Every => [.. Homes.All.Keys];

    [Theory]
    [MemberData(nameof(Every))]
    public void Of_AnyHomeAndSize_IsClean(string name)
    {
        Home home = Homes.All[name];
        Comparison comparison = ComparisonStudy.Of(home);
        IReadOnlyList<SavingCauses> causes = CauseStudy.Of(home);
        foreach (ChartSize size in PictureChecks.Sizes) PictureChecks.Check(CausesChart.Of(comparison, home.Offers.Count, causes[^1], size).Picture, name);
    }

    [Fact]
    public void Of_Usual_BarsLeadFromTheOneBillToTheOther()
    {
        Home home = Homes.All["usual"];
        Comparison comparison = ComparisonStudy.Of(home);
        SavingCauses causes = CauseStudy.Of(home)[0];
        Picture picture = CausesChart.Of(comparison, 1, causes).Picture;
        Assert.Equal(causes.Causes.Count + 2, picture.Bars.Count);
        double zero = picture.Bars[0].Box.Left, perUnit = picture.Bars[0].Box.Width / (double)comparison.Columns[0].AnnualBill;
        Assert.Equal(zero, picture.Bars[^1].Box.Left, 1e-6);
        Assert.Equal((double)comparison.Columns[1].AnnualBill * perUnit, picture.Bars[^1].Box.Width, 1e-6);
        double at = picture.Bars[0].Box.Right;
        foreach ((SavingCause cause, BarMark bar) in causes.Causes.Zip(picture.Bars.Skip(1)))
        {
            Assert.Equal(Math.Abs((double)cause.Amount) * perUnit, bar.Box.Width, 1e-6);
            Assert.Equal(at, cause.Amount > 0 ? bar.Box.Right : bar.Box.Left, 1e-6);
            Assert.Same(cause.Amount > 0 ? Palette.OneBattery : Palette.Cost, bar.Style);
            at -= (double)cause.Amount * perUnit;
        }
        Assert.Equal(picture.Bars[^1].Box.Right, at, 1e-6);
    }

    [Fact]
    public void Of_Usual_SaysEachCauseToTheCent()
    {
        Home home = Homes.All["usual"];
        SavingCauses causes = CauseStudy.Of(home)[0];
        Picture picture = CausesChart.Of(ComparisonStudy.Of(home), 1, causes).Picture;
        foreach (SavingCause cause in causes.Causes)
        {
            Assert.Contains(CauseWords.Of(cause.Cause), PictureChecks.Texts(picture, TextRole.BillDate));
            string amount = Math.Abs(cause.Amount).ToString("$#,0.00", System.Globalization.CultureInfo.InvariantCulture);
            Assert.Contains((cause.Amount > 0 ? "−" : "+") + amount, PictureChecks.Texts(picture, TextRole.BillAmount));
            Assert.Contains(amount, picture.Description, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Of_CausesOfAnotherOffer_Throws()
    {
        Home home = Homes.All["usual"];
        Assert.Throws<ArgumentException>(() => CausesChart.Of(ComparisonStudy.Of(home), 2, CauseStudy.Of(home)[0]));
    }

    [Fact]
    public void CauseWords_AnyTwo_Differ() => Assert.Equal(Enum.GetValues<Cause>().Length, Enum.GetValues<Cause>().Select(CauseWords.Of).Distinct().Count());
}
