using System.Text.RegularExpressions;
using EnergySim.Billing;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Time;

namespace EnergySim.Tests.Billing;

/// <summary>
/// Bills that others printed: REFERENCE.md §8.1 and bills.csv, row and year beside each. A price marked "implied" is worked back from its
/// printed amount, so that row proves the sum and the rounding, not the price. Row B11 is a published level without its tariff's rows and
/// can not be recomputed.
/// </summary>
public partial class WorkedBillTests
{
    private static readonly ClockWindow s_evening = new(16 * 60, 20 * 60);

    // What the tests below expect, so that neither they nor the table drift.
    [Fact]
    public void Results_OfTheTable_AreThoseAskedHere() => Assert.Equal(
        ["B1 88.80", "B2 124.04", "B3 39.77", "B4 93.78", "B5 91.52", "B6 1624.72", "B7 5.00 / 2.50", "B8 9.00 / 4.00", "B9 18.07 + 23.07", "B10 510.84", "B11 187.86"],
        File.ReadAllLines(SharedData.Reference("bills.csv")).Skip(1).Where(l => l.Length > 0).Select(l => ResultOfRow().Match(l)).Select(m => $"{m.Groups[1].Value} {m.Groups[2].Value}"));

    // The cell before unit and tolerance.
    [GeneratedRegex("^(B[0-9]+),.*,\"?([0-9./ +]+)\"?,(?:USD|credits),")]
    private static partial Regex ResultOfRow();

    [Fact]
    public void B1_TaxOnSomeLines()
    {
        // B1, city utility in Wisconsin, undated: reads 40770 − 40081 = 689 kWh; energy 71.24 (0.1034 implied); base 6.50; adjustment 0.0075/kWh;
        // public benefits 1.33 (0.00193/kWh implied), untaxed; 5.5 % on 82.91. Total 88.80.
        TariffVersion plan = Worked.Flat(new("energy", 0.1034m), new("adjustment", 0.0075m), new("public benefits", 0.00193m)) with
        {
            FixedPerMonth = 6.50m,
            Percentages = [new Percentage("tax", 0.055m, ["energy", "adjustment", "fixed"])],
        };
        Bill bill = Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 40770 - 40081), plan);
        Assert.Equal(["energy 71.24", "adjustment 5.17", "public benefits 1.33", "fixed 6.50", "tax 4.56"], Worked.Lines(bill));
        Assert.Equal(82.91m, Worked.Line(bill, "tax").Quantity);
        Assert.Equal(88.80m, bill.Total);
    }

    [Fact]
    public void B2_EnergyAndAvailability()
    {
        // B2, city utility in Tennessee, undated: reads 9975 − 8865 = 1110 kWh × 0.0951 = 105.56; availability 18.48. Total 124.04.
        Bill bill = Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 9975 - 8865), Worked.Flat(new PricePart("energy", 0.0951m)) with { FixedPerMonth = 18.48m });
        Assert.Equal(["energy 105.56", "fixed 18.48"], Worked.Lines(bill));
        Assert.Equal(124.04m, bill.Total);
    }

    [Theory]
    [InlineData(30, 10.08, null)]
    [InlineData(28, 10.8, null)]
    [InlineData(30, null, 302.4)]
    public void B3_TierAboveBaseline(int days, double? perDay, double? perBill)
    {
        // B3, tiered plan of Northern California, about 2011: baseline 302.4 kWh × 0.12233 = 36.99; next block (101–130 %) 20 × 0.13907 = 2.78.
        // Total 39.77. The split of 302.4 into days is ours: any that multiplies out to it gives the same bill.
        TariffVersion plan = Worked.Flat() with
        {
            Tiers = new Tiers
            {
                AllowanceKwhPerBill = perBill,
                AllowanceKwhPerDay = perDay is double kwh ? new Dictionary<string, double> { [TariffVersion.WholeYear] = kwh } : null,
                Steps = [new TierStep(0, 0.12233m), new TierStep(1, 0.13907m), new TierStep(1.3, 99m)],
            },
        };
        TimeAxis axis = Worked.Days(new(2025, 6, 1), days);
        Bill bill = Worked.BillOf(axis, Worked.Even(axis, 322.4), plan);
        Assert.Equal(["tier 36.99", "tier 2.78"], Worked.Lines(bill));
        Assert.Equal(39.77m, bill.Total);
    }

    [Fact]
    public void B4AndB5_TwoPeriods()
    {
        // B4 and B5, public works commission in North Carolina, undated: 1000 kWh at 0.08473 off-peak and 0.13 on-peak; 80 % off-peak 93.78,
        // 85 % off-peak 91.52, apart 2.26. Energy only.
        TariffVersion plan = Worked.PeakAndOff(s_evening, 0.13m, 0.08473m);
        Bill four = TwoPeriods(plan, 200, 800), five = TwoPeriods(plan, 150, 850);
        Assert.Equal(["energy 67.78", "energy 26.00"], Worked.Lines(four));
        Assert.Equal(93.78m, four.Total);
        Assert.Equal(91.52m, five.Total);
        Assert.Equal(2.26m, four.Total - five.Total);
    }

    [Fact]
    public void B6_DemandAndNegativeAdjustment()
    {
        // B6, energy-management handbook, ch. 18.5.1, 1990s: 17588 kWh × 0.09444 = 1661.01; adjustment 17588 × −0.017192 = −302.37; 30 kW 262.34
        // (8.744667/kW implied: the blocks are not printed); customer 3.74. Total 1624.72.
        TariffVersion plan = Worked.Flat(new("energy", 0.09444m), new("adjustment", -0.017192m)) with
        {
            FixedPerMonth = 3.74m,
            Demand = [new DemandCharge { Name = "demand", Minutes = 60, PricePerKw = 8.744667m }],
        };
        TimeAxis axis = Worked.June();
        Bill bill = Worked.BillOf(axis, Worked.Meter(axis, i => i == 400 ? 30 : (17588 - 30.0) / (axis.Count - 1)), plan);
        Assert.Equal(["energy 1661.01", "adjustment -302.37", "fixed 3.74", "demand 262.34"], Worked.Lines(bill));
        Assert.Equal(30m, Worked.Line(bill, "demand").Quantity);
        Assert.Equal(1624.72m, bill.Total);
    }

    [Theory]
    [InlineData(0, "5.00")]
    [InlineData(1, "2.50")]
    public void B7_TwoHalfHoursOf5Kw(int hoursApart, string expected)
    {
        // B7, utility district in Oregon, definition of demand, undated: two 5 kW loads, each 30 min: in the same hour 5 kW × 1.00, in different
        // hours 2.5 kW × 1.00.
        TimeAxis axis = Worked.June(30);
        const int at = 48 * 4;
        double Kw(int i) => i == at || i == at + 1 + (2 * hoursApart) ? 5 : 0;
        Assert.Equal(decimal.Parse(expected, System.Globalization.CultureInfo.InvariantCulture), HourlyDemand(axis, Kw));
    }

    [Theory]
    [InlineData(0, "9.00")]
    [InlineData(1, "4.00")]
    public void B8_ThreeLoads(int hoursApart, string expected)
    {
        // B8, county utility in New Mexico, undated: 2 + 3 + 4 kW in the same hour 9.00 at 1.00/kW; staggered 4.00.
        TimeAxis axis = Worked.June();
        const int at = 200;
        double Kw(int i) => (i == at ? 2 : 0) + (i == at + hoursApart ? 3 : 0) + (i == at + (2 * hoursApart) ? 4 : 0);
        Assert.Equal(decimal.Parse(expected, System.Globalization.CultureInfo.InvariantCulture), HourlyDemand(axis, Kw));
    }

    [Fact]
    public void B9_TwoPeriods()
    {
        // B9, comment in Idaho PUC case IPC-E-12-27, 2012, Schedule 5, summer: 150 kWh × 12.0444 c = 18.07; 350 kWh × 6.5921 c = 23.07.
        Bill bill = TwoPeriods(Worked.PeakAndOff(s_evening, 0.120444m, 0.065921m), 150, 350);
        Assert.Equal(["energy 23.07", "energy 18.07"], Worked.Lines(bill));
        Assert.Equal(41.14m, bill.Total);
    }

    [Fact]
    public void B10_TieredCreditValue()
    {
        // B10, same case, 2012: 300 kWh worth 9.0436/9.04 each and 200 kWh worth 9.5245/9.04. The source prints 300.0 + 210.6 = 510.6; exact
        // arithmetic, which bills.csv states as the answer (± 0.05), is 300.12 + 210.72 = 510.84. The money here is credits.
        TariffVersion plan = Worked.Flat() with
        {
            Tiers = new Tiers { AllowanceKwhPerBill = 300, Steps = [new TierStep(0, 9.0436m / 9.04m), new TierStep(1, 9.5245m / 9.04m)] },
        };
        Bill bill = Worked.BillOf(Worked.June(), Worked.Even(Worked.June(), 500), plan);
        Assert.Equal(["tier 300.12", "tier 210.72"], Worked.Lines(bill));
        Assert.Equal(510.84m, bill.Total);
    }

    // 30 days: 4 hours of peak a day, 20 of the rest.
    private static Bill TwoPeriods(TariffVersion plan, double peakKwh, double offKwh)
    {
        TimeAxis axis = Worked.June();
        return Worked.BillOf(axis, Worked.Meter(axis, i => s_evening.Contains(axis.LocalMinuteOf(i)) ? peakKwh / 120 : offKwh / 600), plan);
    }

    private static decimal HourlyDemand(TimeAxis axis, Func<int, double> kw)
    {
        TariffVersion plan = Worked.Flat() with { Demand = [new DemandCharge { Name = "demand", Minutes = 60, PricePerKw = 1.00m }] };
        return Worked.BillOf(axis, Worked.Meter(axis, kw), plan).Total;
    }
}
