using EnergySim.Tariffs;
using EnergySim.Tests.Billing;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Tariffs;

/// <summary>What one kWh more costs or earns at each hour, under each regime of TARIFF's table.</summary>
public class MarginalPriceTests
{
    private static readonly ClockWindow s_evening = new(16 * 60, 20 * 60), s_noon = new(10 * 60, 18 * 60);

    private static readonly TariffVersion s_plan = Worked.Flat(new PricePart("delivery", 0.125m), new PricePart("supply", 0.25m))
        with
    { NeverOffsetPart = "delivery" };

    private static MarginalPrices Prices(TariffVersion version) => new(new TariffCalendar(Worked.Plan(Worked.Denver, version), Worked.June()));

    private static double Sell(ExportTerms terms, int hour = 0) => Prices(s_plan with { Export = terms }).SellPerKwh[hour];

    // 0.125 + 0.25; 0.5 more in the window of an event's day, the second of June.
    [Fact]
    public void Buy_IsAllParts_AndTheEventsAdder()
    {
        MarginalPrices prices = Prices(s_plan with { Events = new EventCharge([new LocalDate(2025, 6, 2)], 0.5m, s_evening) });
        Assert.Equal([0.375, 0.375, 0.875, 0.375], [prices.BuyPerKwh[16], prices.BuyPerKwh[39], prices.BuyPerKwh[40], prices.BuyPerKwh[44]]);
        MarginalPrices byPeriod = Prices(Worked.PeakAndOff(s_evening, 0.5m, 0.25m));
        Assert.Equal([0.25, 0.5], [byPeriod.BuyPerKwh[15], byPeriod.BuyPerKwh[16]]);
        Assert.Equal(0, byPeriod.SellPerKwh[16]);
    }

    // Netting saves the retail price; the second generation not the part that is never offset.
    [Fact]
    public void Sell_UnderNetting_IsTheRetailPriceThatItSaves()
    {
        Assert.Equal(0.375, Sell(new ExportTerms.RetailNetting(false, Settlement.Year, 0)));
        Assert.Equal(0.25, Sell(new ExportTerms.RetailNetting(true, Settlement.Year, 0)));
        Assert.Equal(0.375, Sell(new ExportTerms.MonthlyNetting(null, false, 0)));
        Assert.Equal(0, Sell(new ExportTerms.SellAll(0.5m)));
        Assert.Equal(0.75, Sell(new ExportTerms.NetBilling { Prices = [new ExportPrice { Parts = [new PricePart("a", 0.5m), new PricePart("b", 0.25m)] }] }));
    }

    // 0.0625 at any time; charged 0.25 from 10 to 18, rewarded 0.5 from 16 to 20 o'clock.
    [Theory]
    [InlineData(9, 0.0625)]
    [InlineData(10, -0.1875)]
    [InlineData(17, 0.3125)]
    [InlineData(19, 0.5625)]
    public void Sell_TwoWay_IsRewardedAndCharged(int hour, double expected)
    {
        ExportTerms.TwoWay way = new() { ChargeWindow = s_noon, ChargePerKwh = 0.25m, RewardWindow = s_evening, RewardPerKwh = 0.5m, AnyTimePerKwh = 0.0625m };
        Assert.Equal(expected, Sell(way, hour));
        Assert.Equal(expected - 0.0625, Sell(way with { AnyTimePerKwh = null }, hour));
    }

    // Two hours of prices from 06:00 UTC, which is midnight in June.
    [Fact]
    public void ExportHours_AreReadByTheMoment()
    {
        Instant first = Instant.FromUtc(2025, 6, 1, 6, 0);
        var hours = new ExportHours(first, ["a", "b"], [[0.5m, 0.25m], [0.125m, -0.25m]]);
        Assert.Equal(first + Duration.FromHours(2), hours.End);
        Assert.Equal((0, 0, 1, 1), (hours.IndexOf(first), hours.IndexOf(first + Duration.FromMinutes(59)), hours.IndexOf(first + Duration.FromMinutes(60)),
            hours.IndexOf(hours.End - Duration.FromTicks(1))));
        Assert.Throws<ArgumentException>(() => hours.IndexOf(first - Duration.FromTicks(1)));
        Assert.Throws<ArgumentException>(() => hours.IndexOf(hours.End));
        TimeAxis axis = Worked.June();
        ExportHours all = hours with { PricesPerKwh = [.. Enumerable.Range(0, axis.Count).Select(i => hours.PricesPerKwh[i % 2])] };
        ReadOnlySpan<double> sell = Prices(s_plan with { Export = new ExportTerms.NetBilling { Prices = [], Hours = all } }).SellPerKwh;
        Assert.Equal([0.75, -0.125, 0.75], [sell[0], sell[1], sell[2]]);
    }
}
