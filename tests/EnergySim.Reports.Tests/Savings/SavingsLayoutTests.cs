using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies;
using NodaTime;

namespace EnergySim.Reports.Savings;

public sealed class SavingsLayoutTests
{
    private const string LongText = "a name that its owner could not bring to an end, <whatever> was said & done about it, until nobody read it any more";

    private static readonly LocalDate s_january = new(2025, 1, 1), s_december17 = new(2024, 12, 17);

    private static readonly Dictionary<string, Comparison> s_cases = new()
    {
        ["usual"] = Cases.Usual,
        ["one bill"] = Cases.Many(3, 1, s_december17),
        ["one column, one bill"] = Cases.Many(1, 1, s_january),
        ["five columns, thirteen bills"] = Cases.Many(5, 13, s_december17),
        ["six columns"] = Cases.Many(6, 12, s_january),
        ["two years"] = Cases.Many(5, 26, s_december17),
        ["zero"] = Cases.Many(3, 12, s_january, (_, _) => 0),
        ["credits"] = Cases.Many(3, 12, new(2025, 3, 1), (c, b) => 90.55m - (70 * c) - (15 * b)),
        ["credits only"] = Cases.Many(2, 4, s_january, (c, b) => -20.4m - (7 * c) - b),
        ["credits of 14,000"] = Cases.Many(5, 13, s_december17, (c, b) => -14000 + (900 * c) + b),
        ["14,000 a month"] = Cases.Many(3, 12, s_january, (c, b) => 14000 - (3000 * c) + (100 * b)),
        ["cents"] = Cases.Many(2, 3, s_january, (c, b) => 0.35m + (0.1m * b) - (0.05m * c)),
        ["other currency"] = Cases.Usual with { Currency = "CHF" },
        ["long names"] = Long(Cases.Many(5, 13, s_december17, (c, b) => 14000 - (900 * c) - b)),
    };

    private static readonly Dictionary<string, ChartSize> s_sizes = new()
    {
        ["laptop"] = ChartSize.Laptop,
        ["phone"] = ChartSize.Phone,
        ["page"] = ChartSize.Page,
        ["least"] = new ChartSize(280, 400),
        ["flat"] = new ChartSize(1600, 400),
        ["tall"] = new ChartSize(300, 1200),
        ["most"] = new ChartSize(4000, 3000),
    };

    public static TheoryData<string, string> Everything
    {
        get
        {
            var all = new TheoryData<string, string>();
            foreach (string name in s_cases.Keys)
                foreach (string size in s_sizes.Keys)
                    all.Add(name, size);
            return all;
        }
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Of_AnyCase_KeepsEverythingInsideThePicture(string name, string size)
    {
        Picture picture = Laid(name, size);
        Assert.All(picture.Texts, t => Assert.True(picture.Ground.Inset(2).Contains(t.Box), $"{t.Text}: {t.Box}"));
        Assert.All(picture.Samples, s => Assert.True(picture.Ground.Contains(s.Box)));
        Assert.All(picture.Bars, b => Assert.True(picture.Field.Inset(-1e-6).Contains(b.Box), $"{b.Box} in {picture.Field}"));
        Assert.All(picture.Guides, g => Assert.True(picture.Field.Inset(-1e-6).Contains(new Box(g.Left, g.Y, g.Right, g.Y))));
        Assert.True(picture.Field.Height >= 40, $"The field is {picture.Field.Height} px high.");
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Of_AnyCase_PutsNoTextOnATextABarOrAGuide(string name, string size)
    {
        Picture picture = Laid(name, size);
        for (int i = 0; i < picture.Texts.Count; i++)
        {
            TextMark text = picture.Texts[i];
            Box box = text.Box.Inset(0.01);
            for (int j = 0; j < i; j++)
                Assert.False(box.Overlaps(picture.Texts[j].Box), $"{text.Text} {text.Box} on {picture.Texts[j].Text} {picture.Texts[j].Box}");
            Assert.All(picture.Samples, s => Assert.False(box.Overlaps(s.Box), text.Text));
            Assert.All(picture.Bars.Where(b => b.Box.Height > 0), b => Assert.False(box.Overlaps(b.Box), $"{text.Text} {text.Box} on bar {b.Box}"));
            Assert.All(picture.Guides, g => Assert.False(box.Overlaps(new Box(g.Left, g.Y - 0.5, g.Right, g.Y + 0.5)), text.Text));
        }
        for (int i = 0; i < picture.Bars.Count; i++)
            for (int j = 0; j < i; j++)
                Assert.False(picture.Bars[i].Box.Inset(1e-9).Overlaps(picture.Bars[j].Box));
    }

    // The picture's own scale read back: the height of two ticks and what they say give pixels for an amount.
    [Theory]
    [MemberData(nameof(Everything))]
    public void Of_AnyCase_BarsAreAsHighAsTheirBillsOnTheScale(string name, string size)
    {
        Comparison comparison = s_cases[name];
        Picture picture = Laid(name, size);
        var ticks = picture.Texts.Where(t => t.Role == TextRole.Tick)
            .Select(t => (Amount: Amount(t.Text), Y: (t.Box.Top + (0.6 * t.Lettering.SizePx)))).ToArray();
        double pxPerUnit = (ticks[0].Y - ticks[^1].Y) / (ticks[^1].Amount - ticks[0].Amount);
        double zero = ticks[0].Y + (ticks[0].Amount * pxPerUnit);
        Assert.Equal(zero, picture.ZeroLine.Y, 1e-6);
        Assert.Equal(comparison.Columns.Count * comparison.Columns[0].Bills.Bills.Count, picture.Bars.Count);
        foreach (BarMark bar in picture.Bars)
        {
            double total = (double)comparison.Columns[bar.Column].Bills.Bills[bar.Bill].Total;
            Assert.Equal(Math.Abs(total) * pxPerUnit, bar.Box.Height, 1e-6);
            Assert.Equal(zero, total >= 0 ? bar.Box.Bottom : bar.Box.Top, 1e-6);
        }

        static double Amount(string text) => double.Parse(text.Replace('−', '-').Replace(",", "", StringComparison.Ordinal), CultureInfo.InvariantCulture);
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Of_AnyCase_LettersAreLargeEnoughToRead(string name, string size) =>
        Assert.All(Laid(name, size).Texts, t => Assert.True(t.Lettering.SizePx >= 9.5, $"{t.Text}: {t.Lettering.SizePx}"));

    [Fact]
    public void Of_Usual_SaysTheSumsBesideTheColumns()
    {
        Picture picture = Laid("usual", "laptop");
        Assert.Equal(["Your bill each month"], Texts(picture, TextRole.Title));
        Assert.Equal(["In a year:"], Texts(picture, TextRole.Lead));
        Assert.Equal(["as it is", "one battery", "two batteries"], Texts(picture, TextRole.ColumnName));
        Assert.Equal(["$2,412", "$1,701", "$1,527"], Texts(picture, TextRole.ColumnAmount));
        Assert.Equal(["bill, $ a month"], Texts(picture, TextRole.ScaleTitle));
        Assert.Equal(["0", "50", "100", "150", "200", "250", "300"], Texts(picture, TextRole.Tick));
        Assert.Equal(["Jan", "2025", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"], Texts(picture, TextRole.BillDate));
        Assert.Equal(["231", "178", "166"], Texts(picture, TextRole.BillAmount).Take(3));
        Assert.Equal(
            ["Brook Lane 4 · tariff Two Rivers Power time-of-use (1 Jan 2025) · 1 Jan 2025 to 31 Dec 2025", "Invented demo: home, utility and prices are made up."],
            Texts(picture, TextRole.Footer));
    }

    [Fact]
    public void Of_SumThatIsNotTheBillsOwn_IsSaidAsTheRecordHasIt()
    {
        Comparison changed = Cases.Usual with { Columns = [Cases.Usual.Columns[0] with { AnnualBill = 77 }] };
        Assert.Equal(["$77"], Texts(SavingsLayout.Of(changed, ChartSize.Laptop), TextRole.ColumnAmount));
    }

    [Theory]
    [InlineData("laptop", "17 Dec", "17 Jan", "2025")]
    [InlineData("phone", "17", "Dec", "17", "Jan", "2025")]
    public void Of_BillsNotOfCalendarMonths_NamesThemByTheirFirstDay(string size, params string[] first) =>
        Assert.Equal(first, Texts(Laid("five columns, thirteen bills", size), TextRole.BillDate).Take(first.Length));

    [Fact]
    public void Of_SpanThatIsNoYear_DoesNotCallItOne()
    {
        Assert.Equal(["In these 13 bills:"], Texts(Laid("five columns, thirteen bills", "laptop"), TextRole.Lead));
        Assert.Equal(["In this bill:"], Texts(Laid("one bill", "laptop"), TextRole.Lead));
        Assert.Equal(["Your bill"], Texts(Laid("one bill", "laptop"), TextRole.Title));
    }

    [Fact]
    public void Of_BillsOfTwoMonths_AreNotCalledMonthly()
    {
        ComparisonColumn column = Cases.Usual.Columns[0];
        var bills = column.Bills with { Bills = [column.Bills.Bills[0] with { To = new LocalDate(2025, 2, 28) }, column.Bills.Bills[2] with { To = new LocalDate(2025, 4, 30) }] };
        Picture picture = SavingsLayout.Of(Cases.Usual with { Columns = [column with { Bills = bills }] }, ChartSize.Laptop);
        Assert.Equal(["Your bills, one by one"], Texts(picture, TextRole.Title));
        Assert.Equal(["bill, $"], Texts(picture, TextRole.ScaleTitle));
        Assert.Equal(["1 Jan", "2025", "1 Mar"], Texts(picture, TextRole.BillDate));
    }

    [Fact]
    public void Of_OtherCurrency_IsSaidEverywhere()
    {
        Picture picture = Laid("other currency", "laptop");
        Assert.Equal(["bill, CHF a month"], Texts(picture, TextRole.ScaleTitle));
        Assert.Equal("CHF\u00a02,412", Texts(picture, TextRole.ColumnAmount)[0]);
        Assert.DoesNotContain(picture.Texts, t => t.Text.Contains('$'));
    }

    [Fact]
    public void Of_Credits_SaysWhatBelowZeroMeans() =>
        Assert.Equal(["bill, $ a month (below zero: a credit)"], Texts(Laid("credits", "laptop"), TextRole.ScaleTitle));

    [Fact]
    public void Of_NotesThatInventNothing_AreNotPrinted()
    {
        Picture picture = SavingsLayout.Of(Cases.Usual with { Notes = ["Prices stay as they are."] }, ChartSize.Laptop);
        Assert.DoesNotContain(picture.Texts, t => t.Text.Contains("Prices", StringComparison.Ordinal));
    }

    [Fact]
    public void Of_LongNames_ShortensThemAndNotTheSums()
    {
        Picture picture = Laid("long names", "phone");
        Assert.All(Texts(picture, TextRole.ColumnName), t => Assert.EndsWith("…", t));
        Assert.All(Texts(picture, TextRole.ColumnAmount), t => Assert.DoesNotContain("…", t));
    }

    [Fact]
    public void Of_TooManyOrUnlikeColumns_Throws()
    {
        ComparisonColumn column = Cases.Usual.Columns[0];
        Comparison Columns(params ComparisonColumn[] columns) => Cases.Usual with { Columns = columns };
        void Throws(string words, Comparison comparison) =>
            Assert.Contains(words, Assert.Throws<ArgumentException>(() => SavingsLayout.Of(comparison, ChartSize.Laptop)).Message);

        Throws("0 columns", Columns());
        Throws("7 columns", Columns(column, column, column, column, column, column, column));
        Throws("0 bills", Columns(column with { Bills = column.Bills with { Bills = [] } }));
        Throws("27 bills", Cases.Many(1, 27, s_january));
        Throws("column 2", Columns(column, column with { Bills = column.Bills with { Bills = [.. column.Bills.Bills.Take(11)] } }));
    }

    private static Comparison Long(Comparison comparison) => comparison with
    {
        Home = LongText,
        Tariff = LongText,
        Currency = "CHF",
        Notes = ["Invented: " + LongText],
        Columns = [.. comparison.Columns.Select(c => c with { Name = $"{c.Name}, {LongText}" })],
    };

    private static Picture Laid(string name, string size) => SavingsLayout.Of(s_cases[name], s_sizes[size]);

    private static string[] Texts(Picture picture, TextRole role) => [.. picture.Texts.Where(t => t.Role == role).Select(t => t.Text)];
}
