using EnergySim.Billing;
using EnergySim.Tariffs;
using EnergySim.Time;

namespace EnergySim.Tests.Billing;

/// <summary>The model cases of REFERENCE.md §8.2: 500 kWh bought and 300 kWh sold in a month, retail 0.20, export 0.05, fixed 10.</summary>
public class NettingCaseTests
{
    private static readonly TariffVersion s_retail = Worked.Flat(new PricePart("energy", 0.20m)) with { FixedPerMonth = 10m };

    [Fact]
    public void MonthlyNetting_OfTheMonth_Is50()
    {
        // 200 × 0.20 + 10 = 50.00.
        TariffVersion plan = s_retail with { Export = new ExportTerms.MonthlyNetting(0.05m, false, 0) };
        Assert.Equal(50.00m, Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 500, 300), plan).Total);
    }

    [Fact]
    public void NetBilling_OfTheMonth_Is95()
    {
        // No netting: 500 × 0.20 − 300 × 0.05 + 10 = 95.00.
        TariffVersion plan = s_retail with { Export = new ExportTerms.NetBilling { Prices = [new ExportPrice { Parts = [new PricePart("supply", 0.05m)] }] } };
        Assert.Equal(95.00m, Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 500, 300), plan).Total);
    }

    [Fact]
    public void RetailNetting_SurplusOfTheYear_Earns12()
    {
        // A year's surplus of 400 kWh × 0.03 = 12.00 of credit. Left-over dollars lapse, so it is all that the year comes to.
        TariffVersion plan = Worked.Flat(new PricePart("energy", 0.20m)) with { Export = new ExportTerms.RetailNetting(false, Settlement.Year, 0.03m) };
        Assert.Equal(-12.00m, SurplusYear(plan));
    }

    [Fact]
    public void MonthlyNetting_KwhLeftAtTheYearsEnd_Earn12()
    {
        TariffVersion plan = Worked.Flat(new PricePart("energy", 0.20m)) with { Export = new ExportTerms.MonthlyNetting(null, true, 0.03m) };
        Assert.Equal(-12.00m, SurplusYear(plan));
    }

    // From April on: twice as much is sold as bought until September, half as much from then to March; a surplus of 1000 − 600 = 400 kWh.
    private static decimal SurplusYear(TariffVersion plan)
    {
        TimeAxis axis = Worked.Days(new(2025, 4, 1), 365);
        double summerKwh = 0, winterKwh = 0;
        bool Summer(int i) => axis.LocalDateOf(i).Month is >= 4 and <= 9;
        for (int i = 0; i < axis.Count; i++)
            if (Summer(i)) summerKwh++;
            else winterKwh++;
        double small = 1000 / summerKwh, winter = 600 / winterKwh;
        BillSet bills = Worked.Bills(axis, Worked.Meter(axis, i => Summer(i) ? small : winter * 2, i => Summer(i) ? small * 2 : winter), null, plan);
        Assert.Equal(12, bills.Bills.Count);
        return bills.Total;
    }
}
