using EnergySim.Strategies;
using EnergySim.Studies.Outages;

namespace EnergySim.Studies.Tests.Outages;

public class ReserveFrontierTests
{
    // Sun that fills the battery at noon, and 0.6 kW at all hours: what the reserve keeps is what an outage at dawn finds.
    private static readonly Home s_home = SmallHome.Of(SmallHome.Axis(20), _ => 0.6, i => i % 24 is >= 10 and < 15 ? 3.5 : 0);
    private static readonly OutageTerms s_terms = new() { HorizonHours = 96, Wish = new OutageWish(10, 0.9) };

    [Fact]
    public void Points_FromNoneToAll_LoseMoneyAndGainHours()
    {
        ReserveFrontier frontier = ReserveFrontier.Of(s_home, s_terms);
        OfferFrontier offer = Assert.Single(frontier.Offers);
        Assert.Equal(11, offer.Points.Count);
        for (int i = 1; i < offer.Points.Count; i++)
        {
            Assert.Equal(i / 10.0, offer.Points[i].ReserveFraction, 12);
            Assert.True(offer.Points[i].AnnualSaving <= offer.Points[i - 1].AnnualSaving);
            Assert.True(offer.Points[i].WishFraction >= offer.Points[i - 1].WishFraction);
            Assert.True(offer.Points[i].Lasting.HoursLastedBy(0.9) >= offer.Points[i - 1].Lasting.HoursLastedBy(0.9));
        }
    }

    [Fact]
    public void Point_OfTheReserveOfToday_IsTheComparisonAndTheStudy()
    {
        FrontierPoint today = ReserveFrontier.Of(s_home, s_terms).Offers[0].Points[2];
        Assert.Equal(ComparisonStudy.Of(s_home).Columns[1].AnnualSaving, today.AnnualSaving);
        Survival any = OutageStudy.Of(s_home, s_terms).Offers[0].Any;
        foreach (double hours in (double[])[2, 8, 24, 72]) Assert.Equal(any.AtLeast(hours), today.Lasting.AtLeast(hours));
    }

    [Fact]
    public void Recommended_IsTheCheapestReserveThatFulfilsTheWish()
    {
        OfferFrontier offer = ReserveFrontier.Of(s_home, s_terms).Offers[0];
        FrontierPoint point = offer.Recommended!;
        Assert.True(point.WishFraction >= 0.9);
        Assert.All(offer.Points.Where(p => p.WishFraction >= 0.9), p => Assert.True(p.AnnualSaving <= point.AnnualSaving));
        Assert.InRange(point.ReserveFraction, 0.1, 0.9);
        // 10 kWh carry 0.6 kW without sun for no three days.
        Assert.Null(ReserveFrontier.Of(s_home, s_terms with { CloudFactor = 0, Wish = new OutageWish(72, 0.9) }).Offers[0].Recommended);
    }

    [Fact]
    public void Recommended_OfEqualSavings_IsTheLowerReserve()
    {
        // Without sun and under a flat price no reserve costs anything; 0.5 kW last 20 h times the reserve, so that ten hours need a half.
        OfferFrontier offer = ReserveFrontier.Of(SmallHome.Of(SmallHome.Axis(20), _ => 0.5),
            s_terms with { StartCharge = StartCharge.Storm, Wish = new OutageWish(10, 1) }).Offers[0];
        Assert.Single(offer.Points.Select(p => p.AnnualSaving).Distinct());
        Assert.Equal(offer.Points.First(p => p.WishFraction == 1), offer.Recommended);
        Assert.Equal(0.2, offer.ReserveFraction);
    }

    [Fact]
    public void Reserve_OfABatteryThatIsHeld_IsAll()
    {
        Offer held = s_home.Offers[0] with { Strategy = new Strategy { Base = Steering.Hold } };
        Assert.Equal(1, ReserveFrontier.Of(s_home with { Offers = [held] }, s_terms).Offers[0].ReserveFraction);
    }

    [Fact]
    public void TermsOutOfRange_AreRefused() => Assert.Throws<ArgumentException>(() => ReserveFrontier.Of(s_home, s_terms with { CloudFactor = 3 }));

    [Fact]
    public void StartChargeThatNoReserveChanges_IsRefused() =>
        Assert.Contains("everyday or storm", Assert.Throws<ArgumentException>(() => ReserveFrontier.Of(s_home, s_terms with { StartCharge = StartCharge.Full })).Message, StringComparison.Ordinal);
}
