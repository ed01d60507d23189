using EnergySim.Files;
using EnergySim.Studies;
using EnergySim.Studies.Control;
using EnergySim.Tariffs;
using EnergySim.TestData;

namespace EnergySim.Bound.Tests;

public class BoundOfTheDemoTests
{
    private static readonly Lazy<Home> s_hourly = new(() =>
    {
        Home home = HomeFile.Read(Path.Combine(SharedData.RepositoryRoot, "profiles", "demo-home.yaml")).Home;
        return home with { Load = home.Load.Resampled(60), Solar = home.Solar! with { Profile = home.Solar.Profile.Resampled(60) } };
    });

    private static readonly Lazy<IReadOnlyList<BoundQuote>> s_bounds = new(() => BoundStudy.Of(s_hourly.Value));

    [Fact]
    public void Of_Offers_IsBelowTheStrategyAndReachedByTheReplay()
    {
        foreach (BoundQuote offer in s_bounds.Value)
        {
            Assert.True(offer.Bill < offer.StrategyBill, offer.Name);
            Assert.InRange(offer.ReachedFraction!.Value, 0.3, 1);
            // The bill of the replay rounds credit to the cent as it is earned; nothing else differs.
            Assert.Equal(offer.Bill, offer.ReplayBill, 0.001 * offer.Bill);
            Assert.Equal(0, offer.SimultaneousKwh, 1e-3);
        }
    }

    [Fact]
    public void Of_ASecondBattery_IsNeverWorse() => Assert.True(s_bounds.Value[1].Bill <= s_bounds.Value[0].Bill);

    [Fact]
    public void Of_NoBattery_IsTheBillAsItIs()
    {
        var calendar = new TariffCalendar(s_hourly.Value.Tariff, s_hourly.Value.Load.Axis);
        BoundResult bound = BoundStudy.Of(Installation.Of(s_hourly.Value, calendar)[0].Run, calendar);
        // Twelve credits are rounded to the cent when they are earned.
        Assert.Equal(s_bounds.Value[0].AsItIsBill, bound.Bill, 12 * 0.005);
        Assert.Equal(s_bounds.Value[0].AsItIsBill, (double)bound.ReplayBill, 1e-9);
    }
}
