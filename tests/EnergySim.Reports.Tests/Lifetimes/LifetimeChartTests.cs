using System.Xml.Linq;
using EnergySim.Economics;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Reports.Drawing;
using EnergySim.Strategies;
using EnergySim.Studies.Finance;
using EnergySim.Studies.Lifetime;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Reports.Lifetimes;

public sealed class LifetimeChartTests
{
    private static readonly XNamespace s_svg = "http://www.w3.org/2000/svg";
    private static readonly LifetimeResult s_result = LifetimeStudy.Of(House(4000, 7000));

    [Fact]
    public void WritePng_Twice_GivesTheSameBytes()
    {
        Assert.Equal(Bytes(s => LifetimeCharts.WriteCashPng(s_result, s)), Bytes(s => LifetimeCharts.WriteCashPng(s_result, s)));
        Assert.Equal(Bytes(s => LifetimeCharts.WriteBandPng(s_result, s)), Bytes(s => LifetimeCharts.WriteBandPng(s_result, s)));
    }

    [Theory]
    [InlineData(1200, 675)]
    [InlineData(720, 450)]
    [InlineData(420, 760)]
    [InlineData(420, 560)]
    public void Layout_AnySize_KeepsEveryTextOnTheGroundAndApart(int widthPx, int heightPx)
    {
        var size = new ChartSize(widthPx, heightPx);
        foreach (Picture picture in (Picture[])[LifetimeCharts.Cash(s_result, size), LifetimeCharts.Band(s_result, size)])
        {
            PictureChecks.Check(picture, $"{picture.Title}, {widthPx}");
        }
    }

    [Fact]
    public void Charts_CarryEveryAssumption()
    {
        foreach (byte[] svg in (byte[][])[Bytes(s => LifetimeCharts.WriteCashSvg(s_result, s)), Bytes(s => LifetimeCharts.WriteBandSvg(s_result, s))])
        {
            XElement root = XDocument.Parse(System.Text.Encoding.UTF8.GetString(svg)).Root!;
            string words = root.Element(s_svg + "desc")!.Value, foot = string.Join(' ', root.Elements(s_svg + "text").Select(t => t.Value));
            foreach ((string name, string assumption) in s_result.Disclosure.All)
            {
                Assert.Contains($"{name}: {assumption}", words, StringComparison.Ordinal);
                Assert.Contains($"{name}: {assumption}", foot, StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public void Cash_Curve_GoesFromThePriceToTheSum()
    {
        Picture picture = LifetimeCharts.Cash(s_result, null);
        CashFlows flows = s_result.Offers[0].Indicators!.Flows;
        CurveMark curve = picture.Curves[0];
        Assert.Equal(flows.Yearly.Count + 1, curve.Points.Count);
        // The scale is straight: the height of any year lies between start and end as its money does.
        IReadOnlyList<double> cash = flows.Cumulative();
        double share = (cash[3] - cash[0]) / (cash[^1] - cash[0]);
        Assert.Equal(curve.Points[0].Y + (share * (curve.Points[^1].Y - curve.Points[0].Y)), curve.Points[3].Y, 1e-6);
        double zero = curve.Points[0].Y + (-cash[0] / (cash[^1] - cash[0]) * (curve.Points[^1].Y - curve.Points[0].Y));
        Assert.Equal(picture.ZeroLine.Y, zero, 1e-6);
    }

    [Fact]
    public void Band_Rows_AreAllTogetherAndEachCause()
    {
        Picture picture = LifetimeCharts.Band(s_result, null);
        Band band = s_result.Offers[0].Bands.NetPresentValue!;
        Assert.Equal(2 * (1 + band.Causes.Count), picture.Bars.Count);
        // The bar of all together is as much wider than a cause's as its figures are.
        BarMark all = picture.Bars.First(b => b.Column == 0), first = picture.Bars.First(b => b.Column == 0 && b.Bill == 1);
        Assert.Equal((band.High - band.Low) / (band.Causes[0].High - band.Causes[0].Low), all.Box.Width / first.Box.Width, 1e-6);
    }

    [Fact]
    public void Charts_WithoutAnyPrice_AreRefused() =>
        Assert.Contains("No offer states a price", Assert.Throws<ArgumentException>(() => LifetimeCharts.Cash(LifetimeStudy.Of(House([null])), null)).Message, StringComparison.Ordinal);

    private static byte[] Bytes(Action<Stream> write)
    {
        using var stream = new MemoryStream();
        write(stream);
        return stream.ToArray();
    }

    // An invented home by the hour whose evenings are dear.
    private static Home House(params decimal?[] prices)
    {
        DateTimeZone zone = DateTimeZoneProviders.Tzdb["America/Denver"];
        var axis = TimeAxis.OfYear(zone, 2025, 60);
        Profile Hourly(Func<int, double> kw) => new(axis, [.. Enumerable.Range(0, axis.Count).Select(i => kw(axis.LocalMinuteOf(i) / 60))]);
        var battery = new Battery { Name = "six", CapacityKwh = 6, ChargeLimitKw = 3, DischargeLimitKw = 3, InverterKw = 3, ChargeEfficiency = 0.95, DischargeEfficiency = 0.95 };
        return new Home
        {
            Name = "small home (invented)",
            Note = "An invented home.",
            Load = Hourly(h => 0.5 + (h is >= 16 and < 22 ? 2 : 0)),
            Solar = new HomeSolar { Profile = Hourly(h => Math.Max(0, 5 * Math.Sin((h - 6) / 12.0 * Math.PI))), IsDc = false },
            Tariff = new Tariff
            {
                Name = "Evening peak",
                Zone = zone,
                Versions =
                [
                    new TariffVersion
                    {
                        Effective = new LocalDate(2025, 1, 1),
                        Periods = [new PeriodRule("peak") { Window = new ClockWindow(960, 1260) }, new PeriodRule("off") { Window = new ClockWindow(1260, 960) }],
                        EnergyPrices =
                        [
                            new EnergyPrice { Period = "peak", Parts = [new PricePart("energy", 0.42m)] }, new EnergyPrice { Period = "off", Parts = [new PricePart("energy", 0.14m)] },
                        ],
                    },
                ],
            },
            Offers = [.. prices.Select((p, i) => new Offer { Name = i == 0 ? "One battery" : "Two batteries", Battery = battery, Units = i + 1, Price = p, Strategy = new Strategy { Base = Steering.SelfUse } })],
            Money = new MoneyTerms { HorizonYears = 10 },
        };
    }
}
