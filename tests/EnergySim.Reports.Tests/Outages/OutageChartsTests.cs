using System.Xml.Linq;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Reports.Drawing;
using EnergySim.Strategies;
using EnergySim.Studies.Outages;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;
using SkiaSharp;

namespace EnergySim.Reports.Tests.Outages;

public class OutageChartsTests
{
    // Twenty invented days by the hour, sun of its own size each day.
    private static readonly Lazy<(OutageResult Result, ReserveFrontier Frontier)> s_case = new(() =>
    {
        DateTimeZone zone = DateTimeZone.Utc;
        var axis = new TimeAxis(zone, Instant.FromUtc(2025, 1, 20, 0, 0), 60, 24 * 20);
        double[] load = [.. Enumerable.Range(0, axis.Count).Select(i => i % 24 is >= 17 and < 22 ? 2.5 : 0.6)];
        double[] solar = [.. Enumerable.Range(0, axis.Count).Select(i => Math.Max(0, 6 - Math.Abs((i % 24) - 12.0)) * (i / 24 % 5) / 4)];
        Battery ten = new() { Name = "ten", CapacityKwh = 10, ChargeLimitKw = 5, DischargeLimitKw = 5, InverterKw = 5 };
        Offer Of(string name, int units) => new() { Name = name, Battery = ten, Units = units, Strategy = new Strategy { Base = Steering.SelfUse, ReserveFraction = 0.2 } };
        var home = new Home
        {
            Name = "Sedge Row <invented>",
            Load = new Profile(axis, load),
            Solar = new HomeSolar { Profile = new Profile(axis, solar), IsDc = false, InverterKw = 5 },
            Tariff = new Tariff
            {
                Name = "Flat",
                Zone = zone,
                Versions = [new TariffVersion { Effective = new LocalDate(2025, 1, 1), Periods = [new PeriodRule("any")], EnergyPrices = [new EnergyPrice { Parts = [new PricePart("energy", 0.3m)] }] }],
            },
            Offers = [Of("One battery", 1), Of("Two batteries", 2)],
        };
        var terms = new OutageTerms { NamedHours = 48, HorizonHours = 120, Wish = new OutageWish(12, 0.8) };
        return (OutageStudy.Of(home, terms), ReserveFrontier.Of(home, terms));
    });

    private static IReadOnlyList<NamedChart> Charts(ChartSize? size = null) => OutageCharts.Of(s_case.Value.Result, s_case.Value.Frontier, size);

    [Fact]
    public void Of_TwoOffersAndAFrontier_GivesEachPictureAName() => Assert.Equal(
        ["stored-energy", "lasting", "starts-offer-1", "starts-offer-2", "reserve-offer-1", "reserve-offer-2"], Charts().Select(c => c.Name));

    public static TheoryData<int, int> Sizes => new() { { 1200, 675 }, { 420, 560 }, { 720, 450 } };

    [Theory]
    [MemberData(nameof(Sizes))]
    public void Of_AnySize_KeepsTextsInsideThePictureAndApart(int width, int height)
    {
        foreach (NamedChart chart in Charts(new ChartSize(width, height)))
        {
            PictureChecks.Check(chart.Picture, $"{chart.Name}, {width}");
        }
    }

    [Fact]
    public void Svg_SaysItsFiguresInWords()
    {
        foreach (NamedChart chart in Charts())
        {
            XElement svg = XDocument.Parse(chart.Svg).Root!;
            XNamespace ns = svg.Name.Namespace;
            Assert.Contains("Sedge Row <invented>", svg.Element(ns + "title")!.Value, StringComparison.Ordinal);
            Assert.NotEmpty(svg.Element(ns + "desc")!.Value);
            Assert.Contains(svg.Descendants(ns + "text"), t => t.Value.Contains("medical equipment", StringComparison.Ordinal));
        }
        OutageResult result = s_case.Value.Result;
        Assert.Contains(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{result.Offers[1].Any.AtLeast(24):0.0 %} last 24 h"), Charts()[1].Picture.Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Png_IsTwiceTheSizeAndTheSameEachTime()
    {
        foreach (NamedChart chart in Charts())
        {
            using var first = new MemoryStream();
            using var second = new MemoryStream();
            chart.WritePng(first);
            chart.WritePng(second);
            Assert.Equal(first.ToArray(), second.ToArray());
            using SKBitmap bitmap = SKBitmap.Decode(first.ToArray());
            Assert.Equal((2400, 1350), (bitmap.Width, bitmap.Height));
        }
    }

    [Fact]
    public void Lasting_CurveEndsAtTheShareThatOutlastsTheHorizon()
    {
        OutageResult result = s_case.Value.Result;
        Picture picture = Charts()[1].Picture;
        // Two strokes an offer, after the guides and the legend's samples.
        CurveMark last = picture.Curves[^1];
        double share = (picture.Field.Bottom - last.Points[^1].Y) / picture.Field.Height;
        Assert.Equal(result.Offers[1].Any.CensoredFraction, share, 9);
        Assert.Equal(picture.Field.Right, last.Points[^1].X, 9);
    }
}
