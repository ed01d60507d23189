using EnergySim.Billing;
using EnergySim.Reports.Drawing;
using EnergySim.Studies;
using EnergySim.Studies.Bills;

namespace EnergySim.Reports;

public sealed class BillLinesChartTests
{
    public static TheoryData<string> Every => [.. Homes.All.Keys];

    [Theory]
    [MemberData(nameof(Every))]
    public void Of_AnyHomeAndSize_IsClean(string name)
    {
        Comparison comparison = ComparisonStudy.Of(Homes.All[name]);
        foreach (ChartSize size in PictureChecks.Sizes) PictureChecks.Check(BillLinesChart.Of(OfferLines.Of(comparison, comparison.Columns.Count - 1), size).Picture, name);
    }

    [Fact]
    public void Of_Usual_EveryLineHasTwoBarsOfItsAmounts()
    {
        OfferLines lines = OfferLines.Of(ComparisonStudy.Of(Homes.All["usual"]), 1);
        Picture picture = BillLinesChart.Of(lines).Picture;
        IReadOnlyList<DifferenceLine> all = lines.Difference.Lines;
        DifferenceLine largest = all.MaxBy(l => Math.Abs(l.Before))!;
        double perUnit = picture.Bars.First(b => b.Bill == all.ToList().IndexOf(largest) && b.Column == 0).Box.Width / (double)Math.Abs(largest.Before);
        for (int i = 0; i < all.Count; i++)
        {
            Assert.Equal(Math.Abs((double)all[i].Before) * perUnit, Width(i, 0), 1e-6);
            Assert.Equal(Math.Abs((double)all[i].After) * perUnit, Width(i, 1), 1e-6);
        }
        Assert.Equal(all.Count + 1, PictureChecks.Texts(picture, TextRole.BillDate).Length);

        double Width(int line, int column) => picture.Bars.Where(b => b.Bill == line && b.Column == column).Select(b => b.Box.Width).SingleOrDefault();
    }

    [Fact]
    public void Of_MoreLinesThanRoom_SumsTheSmallestToTheSameBill()
    {
        Comparison comparison = ComparisonStudy.Of(Homes.All["usual"]);
        BillLine Line(int n, decimal amount) => new() { Kind = "energy", Name = FormattableString.Invariant($"line {n}"), Quantity = 1, Unit = "kWh", UnitPrice = amount, Unrounded = amount };
        ComparisonColumn With(ComparisonColumn column, decimal factor) => column with
        {
            Bills = column.Bills with { Bills = [column.Bills.Bills[0] with { Lines = [.. Enumerable.Range(1, 40).Select(n => Line(n, n * factor))] }] },
        };
        Comparison many = comparison with { Columns = [With(comparison.Columns[0], 2), With(comparison.Columns[1], 1)] };
        foreach (ChartSize size in PictureChecks.Sizes)
        {
            Picture picture = BillLinesChart.Of(OfferLines.Of(many, 1), size).Picture;
            PictureChecks.Check(picture, "many lines");
            string[] rows = PictureChecks.Texts(picture, TextRole.BillDate);
            int small = 40 - (rows.Length - 2);
            Assert.Equal(FormattableString.Invariant($"{small} smaller lines"), rows[^2]);
            Assert.Equal(FormattableString.Invariant($"{small * (small + 1)}.00 → {small * (small + 1) / 2}.00"), PictureChecks.Texts(picture, TextRole.BillAmount)[^2].Replace(",", "", StringComparison.Ordinal));
        }
    }
}
