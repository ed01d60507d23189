using EnergySim.Reports.Drawing;
using EnergySim.Studies.WiringFit;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Reports.Wiring;

public class WiringChartTests
{
    private static WayResult Way(string name, decimal? bill, decimal wiring, Standing standing = Standing.Within, string? dominatedBy = null) => new()
    {
        Fit = new WayFit
        {
            Way = new WayToConnect { Name = name, Connects = ConnectionKind.Breaker },
            Standing = standing,
            Why = "no breaker fits",
            Verdicts = [],
            BreakerAmps = 40,
            OutputAmps = 32,
            MainAmps = 200,
        },
        Costs = [new CostItem("all", wiring, 0, 1, IsPlaceholder: true)],
        Price = 10_000 + wiring,
        Run = bill is decimal b
            ? new WayRun { Limits = SiteLimits.None, AnnualBill = b, YearsCost = 10_000 + wiring + (10 * b), Losses = [], OverloadKwh = 0, Backup = null }
            : null,
        BackupVerdicts = [],
        DominatedBy = dominatedBy,
    };

    private static (WiringComparison Comparison, OfferWays Offer) Case(params WayResult[] ways)
    {
        var offer = new OfferWays
        {
            Offer = new Offer
            {
                Name = "One <battery>",
                Battery = new Equipment.Battery { Name = "b", CapacityKwh = 10, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5 },
                Units = 1,
                Strategy = new Strategies.Strategy { Base = Strategies.Steering.SelfUse },
            },
            Ways = ways,
            Inverters = [],
        };
        var comparison = new WiringComparison
        {
            Home = "Brook Lane 4",
            Tariff = "Time of use",
            Currency = "USD",
            From = new LocalDate(2025, 1, 1),
            To = new LocalDate(2025, 12, 31),
            Plan = new WiringPlan { Panel = new ServicePanel { MainAmps = 200, BusbarAmps = 200 }, Edition = CodeEdition.Of(2020)!, Ways = [] },
            AsItIsBill = 1500,
            Offers = [offer],
            Notes = ["Invented demo: home, utility and prices are made up."],
        };
        return (comparison, offer);
    }

    [Fact]
    public void Layout_Bars_AreAsLongAsTheCostsTheyStandFor()
    {
        (WiringComparison comparison, OfferWays offer) = Case(Way("breaker", 700, 500), Way("supply", 650, 1800, dominatedBy: "breaker"));
        Picture picture = WiringChart.Layout(comparison, offer, null);
        double perDollar = picture.Bars[0].Box.Width / 10_000;
        Assert.Equal(6, picture.Bars.Count);
        Assert.Equal([10_000d, 500, 7_000, 10_000, 1_800, 6_500], picture.Bars.Select(b => Math.Round(b.Box.Width / perDollar, 6)));
        Assert.Contains(picture.Texts, t => t.Text == "supply (dominated)");
        Assert.Contains(picture.Texts, t => t.Text == "$17,500");
        foreach (TextMark text in picture.Texts) Assert.True(picture.Ground.Contains(text.Box), text.Text);
    }

    [Theory]
    [InlineData(420, 560)]
    [InlineData(720, 450)]
    [InlineData(1200, 675)]
    public void Layout_AnySize_KeepsTextsApartAndOnThePage(int width, int height)
    {
        (WiringComparison comparison, OfferWays offer) = Case(
            Way("breaker", 700, 500), Way("A way with a name so long that it must be shortened somewhere", 700, 900), Way("supply", 650, 1800), Way("main", null, 900, Standing.Beyond));
        Picture picture = WiringChart.Layout(comparison, offer, new ChartSize(width, height));
        for (int i = 0; i < picture.Texts.Count; i++)
        {
            Assert.True(picture.Ground.Contains(picture.Texts[i].Box), picture.Texts[i].Text);
            for (int j = i + 1; j < picture.Texts.Count; j++)
                Assert.False(picture.Texts[i].Box.Inset(1.5).Overlaps(picture.Texts[j].Box.Inset(1.5)), $"{picture.Texts[i].Text} on {picture.Texts[j].Text}");
        }
        Assert.Contains(picture.Texts, t => t.Text.StartsWith("May not be: main", StringComparison.Ordinal));
    }

    [Fact]
    public void WriteSvg_Case_SaysEveryFigureInWords()
    {
        (WiringComparison comparison, OfferWays offer) = Case(Way("breaker", 700, 500));
        using var stream = new MemoryStream();
        WiringChart.WriteSvg(comparison, offer, stream);
        string svg = System.Text.Encoding.UTF8.GetString(stream.ToArray());
        Assert.Contains("breaker: $17,500.00 (battery $10,000.00, wiring $500.00, bills at today's prices $7,000.00), $700 a year · nothing in an outage.", svg, StringComparison.Ordinal);
        Assert.Contains("One &lt;battery&gt;", svg, StringComparison.Ordinal);
        using var png = new MemoryStream();
        WiringChart.WritePng(comparison, offer, png);
        Assert.True(png.Length > 5_000);
    }

    [Fact]
    public void Layout_TooManyWays_Throws()
    {
        (WiringComparison comparison, OfferWays offer) = Case([.. Enumerable.Range(0, 15).Select(i => Way($"w{i}", 700, 500))]);
        Assert.Throws<ArgumentException>(() => WiringChart.Layout(comparison, offer, null));
    }
}
