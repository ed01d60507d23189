using EnergySim.Billing;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Billing;

/// <summary>Fine print of TARIFF with small numbers, worked by hand beside each.</summary>
public class LineAmountTests
{
    private static readonly TariffVersion s_energy = Worked.Flat(new PricePart("energy", 0.10m));

    private static IEnumerable<string> Lines(double importKwh, double exportKwh, TariffVersion version) =>
        Worked.Lines(Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), importKwh, exportKwh), version));

    private static ExportTerms.NetBilling NetBilling(params PricePart[] parts) => new() { Prices = [new ExportPrice { Parts = parts }] };

    // 1.50 + 30 × 0.30 = 10.50; energy 6.00 is topped up by 4.50, energy 10.50 by nothing.
    [Fact]
    public void Minimum_ByBillAndDay_IsToppedUp()
    {
        TariffVersion plan = s_energy with { Minimum = new MinimumBill(1.50m, 0.30m, []) };
        Assert.Equal(["energy 6.00", "minimum 4.50"], Lines(60, 0, plan));
        Assert.Equal(["energy 10.50"], Lines(105, 0, plan));
    }

    // 12.00 a month by days: 15 of 30 are 6.00, 31 are 12.40; once a bill it is 12.00 each.
    [Theory]
    [InlineData(15, true, "6.00", "0.5")]
    [InlineData(15, false, "12.00", "1")]
    public void FixedMonth_ByDaysOrOnce(int days, bool byDays, string amount, string quantity)
    {
        TimeAxis axis = Worked.Days(new LocalDate(2025, 6, 1), days);
        Bill bill = Worked.BillOf(axis, Worked.Even(axis, 0), Worked.Flat() with { FixedPerMonth = 12m, FixedPerMonthByDays = byDays });
        BillLine line = Worked.Line(bill, "fixed");
        Assert.Equal((decimal.Parse(amount, System.Globalization.CultureInfo.InvariantCulture),
            decimal.Parse(quantity, System.Globalization.CultureInfo.InvariantCulture)), (line.Amount, line.Quantity));
    }

    // 300 bought, 500 sold: nothing is billed, 200 kWh of surplus earn 0.05 each. All sold and nothing bought: 500.
    [Theory]
    [InlineData(300, 200)]
    [InlineData(0, 500)]
    public void MonthlyNetting_Surplus_IsSold(double importKwh, double surplusKwh)
    {
        foreach (bool across in new[] { false, true })
        {
            Bill bill = Worked.BillOf(
                Worked.June(), Worked.Even(Worked.June(), importKwh, 500), s_energy with { Export = new ExportTerms.MonthlyNetting(0.05m, across, 0) });
            BillLine line = Assert.Single(bill.Lines);
            Assert.Equal(("export", "kWh", (decimal)-surplusKwh, (decimal)surplusKwh * -0.05m), (line.Kind, line.Unit, line.Quantity, line.Amount));
        }
    }

    // The price of the bill's own version: June 0.05, July 0.10.
    [Fact]
    public void MonthlyNetting_NewPrice_HoldsFromItsBill()
    {
        TimeAxis axis = Worked.Days(new LocalDate(2025, 6, 1), 61);
        TariffVersion june = s_energy with { Export = new ExportTerms.MonthlyNetting(0.05m, false, 0) };
        TariffVersion july = june with { Effective = new LocalDate(2025, 7, 1), Export = new ExportTerms.MonthlyNetting(0.10m, false, 0) };
        BillSet bills = Worked.Bills(axis, Worked.Meter(axis, _ => 0, _ => 1), null, june, july);
        // 720 and 744 hours of 1 kW.
        Assert.Equal([-36.00m, -74.40m], bills.Bills.Select(b => b.Total));
    }

    // June sells 720 kWh for 72.00. July and August buy 300 kWh: 30.00 energy and 15.00 tier, which belongs to the energy amounts: 45.00 used, then 27.00.
    [Fact]
    public void RetailNetting_Carried_PaysTiersToo()
    {
        TimeAxis axis = Worked.Days(new LocalDate(2025, 6, 1), 92);
        bool June(int i) => axis.LocalDateOf(i).Month == 6;
        TariffVersion plan = s_energy with
        {
            Tiers = new Tiers { AllowanceKwhPerBill = 1000, Steps = [new TierStep(0, 0.05m)] },
            Export = new ExportTerms.RetailNetting(false, Settlement.Carry, 0),
        };
        BillSet bills = Worked.Bills(axis, Worked.Meter(axis, i => June(i) ? 0 : 300 / 744.0, i => June(i) ? 1 : 0),
            new Account { Anniversary = new LocalDate(2025, 6, 1) }, plan);
        Assert.Equal([0m, 0m, 18.00m], bills.Bills.Select(b => b.Total));
        Assert.Equal([72.00m, -45.00m, -27.00m], bills.Bills.Select(b => Worked.Line(b, "credit").Amount));
        // A bill of nothing keeps nothing and uses nothing.
        Assert.Empty(Lines(0, 0, plan));
    }

    // Credits of 15.00 each for 20.00 of energy: the first by name pays 15.00, the second 5.00.
    [Fact]
    public void NetBilling_Parts_PayWhatIsLeftInOrderOfName() => Assert.Equal(
        [("energy", 20.00m), ("a credit used", -15.00m), ("b credit used", -5.00m)],
        Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 200, 100), s_energy
            with
        { Export = NetBilling(new("b", 0.15m), new("a", 0.15m)) with { YearEnd = LeftOver.RollsOver } })
            .Lines.Select(l => (l.Kind == "energy" ? l.Kind : l.Name, l.Amount)));

    // Peak and off are one kind, 10.00 each: a credit of 15.00 pays of both.
    [Fact]
    public void NetBilling_KindOfSeveralLines_IsPaidAsOne()
    {
        TariffVersion plan = Worked.PeakAndOff(new ClockWindow(0, 720), 0.10m, 0.10m)
            with
        { Export = NetBilling(new PricePart("a", 0.15m)) with { Pays = [new CreditUse("*", ["energy"])] } };
        Assert.Equal(["energy 10.00", "energy 10.00", "credit -15.00"], Lines(200, 100, plan));
    }

    // What is named pays only what it lists: b 5.00 of delivery and no supply; the others, a 3.00, pay supply.
    [Fact]
    public void NetBilling_NamedPart_IsNotAmongTheOthers()
    {
        TariffVersion plan = Worked.Flat(new("delivery", 0.05m), new("supply", 0.20m)) with
        {
            Export = NetBilling(new("a", 0.03m), new("b", 0.10m))
                with
            { Pays = [new CreditUse("b", ["delivery"]), new CreditUse("*", ["supply"])], YearEnd = LeftOver.RollsOver },
        };
        Assert.Equal(["delivery 5.00", "supply 20.00", "credit -5.00", "credit -3.00"], Lines(100, 100, plan));
    }

    // 72.00 earned and not used: half is paid out; credit below zero is owed.
    [Theory]
    [InlineData("0.10", "-36.00", "energy credit paid out")]
    [InlineData("-0.10", "72.00", "energy credit below zero, owed")]
    public void NetBilling_AtTheYearsEnd_IsSettled(string price, string amount, string name)
    {
        var parsed = decimal.Parse(price, System.Globalization.CultureInfo.InvariantCulture);
        BillLine line = Assert.Single(Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 0, 720), s_energy
            with
        { Export = NetBilling(new PricePart("energy", parsed)) with { CashOutFraction = 0.5m } }).Lines);
        Assert.Equal(("settlement", name, decimal.Parse(amount, System.Globalization.CultureInfo.InvariantCulture)), (line.Kind, line.Name, line.Amount));
    }

    // Half-hours of 2 kW, from 10 to 12 charged and from 18 to 19 rewarded, on each of 30 days: 120 and 60 kWh.
    [Fact]
    public void TwoWay_OfHalfHours_SumsKwh()
    {
        TimeAxis axis = Worked.June(30);
        TariffVersion plan = s_energy with
        {
            Export = new ExportTerms.TwoWay
            {
                ChargeWindow = new ClockWindow(600, 720),
                ChargePerKwh = 0.10m,
                RewardWindow = new ClockWindow(1080, 1140),
                RewardPerKwh = 0.20m
            }
        };
        Assert.Equal(["export charge 12.00", "export -12.00"], Worked.Lines(Worked.BillOf(axis, Worked.Meter(axis, _ => 0, _ => 2), plan)));
    }

    // Demands far below 1 kW are history too. Ratchet in full: 0.5 of June holds July at 0.2. Cap of 0.1 on it: 0.6 in place of 5.
    [Fact]
    public void Demand_BelowOneKw_IsRememberedAsItWas()
    {
        TimeAxis axis = Worked.Days(new LocalDate(2025, 6, 1), 61);
        DemandCharge charge = new() { Name = "demand", Minutes = 60, PricePerKw = 10m, RatchetFraction = 1, RatchetBills = 1 };
        decimal July(double kw, DemandCharge terms) =>
            Worked.Line(Worked.Bills(axis, Worked.Meter(axis, i => axis.LocalDateOf(i).Month == 6 ? 0.5 : kw), null, Worked.Flat()
                with
            { Demand = [terms] }).Bills[1], "demand").Quantity;
        Assert.Equal(0.5m, July(0.2, charge));
        Assert.Equal(0.6m, July(5, charge with { CapKw = 0.1 }));
    }

    // One regime settles, the other does not: the note on the partial year concerns the plan.
    [Fact]
    public void Notes_OfAPlanThatSettlesInPart_SpeakOfTheSettlement()
    {
        TimeAxis axis = Worked.Days(new LocalDate(2025, 6, 1), 61);
        TariffVersion july = s_energy with { Effective = new LocalDate(2025, 7, 1), Export = NetBilling(new PricePart("a", 0.05m)) };
        Assert.Contains(Worked.Bills(axis, Worked.Even(axis, 1), null, s_energy, july).Notes, n =>
            n.StartsWith("partial settlement", StringComparison.Ordinal));
        Assert.DoesNotContain(Worked.Bills(axis, Worked.Even(axis, 1), null, s_energy).Notes, n =>
            n.StartsWith("partial settlement", StringComparison.Ordinal));
    }
}
