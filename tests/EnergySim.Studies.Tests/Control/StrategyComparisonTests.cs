using EnergySim.Strategies;
using EnergySim.Studies.Control;

namespace EnergySim.Studies.Tests.Control;

public class StrategyComparisonTests
{
    [Fact]
    public void Of_TheDemo_PlansBetterThanAnyPlainRule()
    {
        StrategyComparison comparison = StrategyComparison.Of(Demo.Home);
        Comparison plain = ComparisonStudy.Of(Demo.Home);
        foreach (OfferStrategies offer in comparison.Offers)
        {
            Assert.Equal(plain.Columns.Single(c => c.Name == offer.Name).AnnualBill, offer.Results[0].Bill);
            Assert.True(offer.Results[0].IsOwn);
            Assert.Equal(Steering.Planned, offer.Results.MinBy(r => r.Bill)!.Strategy.Base);
            Assert.All(offer.Results, r => Assert.Equal(comparison.AsItIsBill - r.Bill, r.Saved));
        }
    }
}
