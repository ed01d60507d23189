using EnergySim.Billing;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Billing;

/// <summary>How long credit is kept: by bills, over changes of terms, below zero. Common practice; the sums are plain.</summary>
public class CreditTermsTests
{
    // June sells 720 kWh at 0.10; July and August buy 300 kWh each at 0.10.
    private static readonly TimeAxis s_summer = Worked.Days(new(2025, 6, 1), 92);

    [Theory]
    [InlineData(0, "30.00", "30.00")]
    [InlineData(1, "0.00", "30.00")]
    [InlineData(2, "0.00", "0.00")]
    [InlineData(null, "0.00", "0.00")]
    public void Credit_ThatLastsSoManyBills_PaysThoseOnly(int? lasts, string july, string august)
    {
        string[] expected = [july, august];
        Assert.Equal(expected, Totals(new ExportTerms.RetailNetting(false, Settlement.Carry, 0, lasts)).Skip(1));
        Assert.Equal(expected, Totals(new ExportTerms.MonthlyNetting(null, false, 0, lasts)).Skip(1));
        Assert.Equal(expected, Totals(NetBilling(0.10m) with { CreditLastsBills = lasts }).Skip(1));
    }

    [Fact]
    public void Terms_ThatChangeWithinARegime_KeepTheCredit()
    {
        TariffVersion june = Worked.Flat(new PricePart("energy", 0.10m)) with { Export = NetBilling(0.10m) };
        TariffVersion july = june with { Effective = new LocalDate(2025, 7, 1), Export = NetBilling(0.02m) };
        Assert.Equal(["0.00", "0.00", "0.00"], Totals(june, july));
    }

    [Fact]
    public void Regime_ThatEnds_IsSettledWithItsLastBill()
    {
        TariffVersion june = Worked.Flat(new PricePart("energy", 0.10m)) with { Export = NetBilling(0.10m) with { CashOutFraction = 0.5m } };
        TariffVersion july = june with { Effective = new LocalDate(2025, 7, 1), Export = new ExportTerms.Nothing() };
        Assert.Equal(["-36.00", "30.00", "30.00"], Totals(june, july));
    }

    [Fact]
    public void Credit_BelowZeroAtTheYearsEnd_IsOwed() => Assert.Equal(["0.00", "30.00", "44.40"], Totals(NetBilling(-0.02m)));

    private static ExportTerms.NetBilling NetBilling(decimal price) => new() { Prices = [new ExportPrice { Parts = [new PricePart("energy", price)] }] };

    private static string[] Totals(ExportTerms terms) => Totals(Worked.Flat(new PricePart("energy", 0.10m)) with { Export = terms });

    private static string[] Totals(params TariffVersion[] versions)
    {
        bool June(int i) => s_summer.LocalDateOf(i).Month == 6;
        BillSet bills = Worked.Bills(s_summer, Worked.Meter(s_summer, i => June(i) ? 0 : 300 / 744.0, i => June(i) ? 1 : 0), new Account { Anniversary = new(2025, 6, 1) }, versions);
        return [.. bills.Bills.Select(b => b.Total.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture))];
    }
}
