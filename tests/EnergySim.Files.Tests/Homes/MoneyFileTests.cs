using EnergySim.Economics;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files.Tests.Homes;

/// <summary>The money section of a home file: what it gives, what stands at its default, and one bad file a rule.</summary>
public sealed class MoneyFileTests : IDisposable
{
    private const string Sound = """
        home: Plain
        zone: America/New_York
        load: { file: two-days.csv, column: load_kw, unit: kW, stamp: start }
        tariff: evening-peak.yaml
        batteries:
          ten: { capacityKwh: 10, chargeLimitKw: 5, dischargeLimitKw: 5, inverterKw: 5 }
        offers:
          - { offer: One, battery: ten, units: 1, strategy: { base: self-use } }
        money:

        """;

    private readonly TempFolder _folder = new();

    public MoneyFileTests()
    {
        foreach (string file in (string[])["two-days.csv", "evening-peak.yaml", "export-table.yaml"]) _folder.Write(file, Sample.Text(file));
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Read_EveryKey_FillsEveryRecord()
    {
        MoneyTerms money = HomeFile.Read(Sample.PathOf("every-home-key.yaml")).Home.Money;
        Assert.Equal((12, 2027, MoneyBasis.Real, 0.04, 0.02), (money.HorizonYears, money.FirstYear, money.Basis, money.DiscountFraction, money.InflationFraction));
        Assert.Equal((0.01, 0.03, 0.01, 0d, -0.02, 0.01), (money.Growth.Energy, money.Growth.OfPart("delivery"), money.Growth.Fixed, money.Growth.Demand, money.Growth.Export, money.Growth.Costs));
        Assert.Equal((0.004, -0.01), (money.SolarFadeFraction, money.LoadGrowthFraction));
        Assert.Equal(
            [new AddedLoad("car", new LocalDate(2029, 3, 1), 8, new ClockWindow(1320, 360)), new AddedLoad("pump", new LocalDate(2030, 1, 1), 2, ClockWindow.WholeDay)], money.AddedLoads);
        Assert.Equal([new LocalDate(2030, 1, 1), new LocalDate(2033, 6, 30)], money.ExportChanges.Select(c => c.From));
        Assert.Equal(0.06m, Assert.IsType<ExportTerms.NetBilling>(money.ExportChanges[0].Terms).Prices[0].Parts[0].PricePerKwh);
        Assert.Equal("the terms of Evening Peak", money.ExportChanges[1].Words);
        Assert.Equal(
            new BatteryLife
            {
                FadePerYear = 0.01,
                FadePerCycle = 0.00005,
                EndOfLifeFraction = 0.5,
                WarrantyYears = 12,
                WarrantyThroughputKwh = 20000,
                WarrantyFraction = 0.65,
                Replacement = new BatteryReplacement(ReplacementRule.InYear, 11, 3000),
            }, money.Life);
        Assert.Equal((new InverterReplacement(10, 900), new InverterReplacement(6, 1500)), (money.BatteryInverter, money.SolarInverter));
        Assert.Equal((30m, 100m), (money.UpkeepPerYear, money.BackupValuePerYear));
        Assert.Equal(
            new Incentive { Name = "Rebate", From = new LocalDate(2026, 1, 1), Until = new LocalDate(2027, 12, 31), PriceFraction = 0.1, Amount = 200, AmountPerKw = 50, AmountPerKwh = 20 }, money.Incentives[0]);
        Assert.Equal(new Incentive { Name = "Events", YearlyPerKw = 100, Years = 5, EventHours = 2, ForOwnersOnly = false }, money.Incentives[1]);
        Assert.Equal(new LoanTerms { RateFraction = 0.06, Months = 120, FeeFraction = 0.15, Fee = 100, Down = 500, Reamortisation = new Reamortisation(18, 0.3, true) }, money.Loan);
        Assert.Equal((120m, 10, 0.02, 0.2), (money.Lease!.MonthlyByOffer["Shaving"], money.Lease.Years, money.Lease.EscalatorFraction, money.Lease.BuyoutFraction));
        Assert.Equal((0.9, 1.1, 0.15, -0.01, 0.05), (money.Bands.SolarLowFraction, money.Bands.SolarHighFraction, money.Bands.LoadFraction, money.Bands.GrowthLowFraction, money.Bands.GrowthHighFraction));
        Assert.Equal(400, money.Bands.BoundSavingByOffer["Full"]);
        Assert.Empty(money.Unstated);
    }

    [Fact]
    public void Read_NoMoneySection_NamesItsDefaults()
    {
        MoneyTerms money = HomeFile.Read(Sample.PathOf("home.yaml")).Home.Money;
        foreach (string unstated in (string[])["20 years", "discount rate 5 % a year", "inflation 2.5 % a year", "energy prices grow 2 % a year", "panels fade 0.5 % a year", "no battery is replaced"])
            Assert.Contains(money.Unstated, u => u.Contains(unstated, StringComparison.Ordinal));
        Assert.Empty(money.Incentives);
        Assert.Equal(new MoneyTerms().Life, money.Life);
    }

    [Theory]
    [InlineData("years: 0", "line 10 column 10, money.years: \"0\" is below 1")]
    [InlineData("years: 60", "line 10 column 10, money.years: \"60\" is above 50")]
    [InlineData("year: 20", "line 10 column 3, money: \"year\" is not a key here; the nearest is years")]
    [InlineData("basis: true money", "line 10 column 10, money.basis: \"true money\" is not one of nominal, real")]
    [InlineData("discount: 5", "line 10 column 13, money.discount: \"5\" is above 0.5; a rate a year is written 0.02 or \"2 %\"")]
    [InlineData("growth: { energy: fast }", "line 10 column 21, money.growth.energy: \"fast\" is no share; write 0.2 or \"20 %\"")]
    [InlineData("growth: { parts: { transport: 2 % } }", "line 10 column 22, money.growth.parts.transport: the tariff has no such part of a price; there are delivery, supply, programs")]
    [InlineData("solarFade: -1 %", "line 10 column 14, money.solarFade: \"-1 %\" is below 0 %; a share lies between 0 and 1, or 0 % and 100 %")]
    [InlineData("addedLoads: [{ name: car, from: soon, kwhPerDay: 8 }]", "line 10 column 35, money.addedLoads[1].from: \"soon\" is no date; write 2025-01-31")]
    [InlineData("addedLoads: [{ name: car, from: 2027-01-01, kwhPerDay: -8 }]", "line 10 column 58, money.addedLoads[1].kwhPerDay: \"-8\" is below 0")]
    [InlineData("exportChanges: [{ from: 2030-01-01 }]", "line 10 column 19, money.exportChanges[1]: price or tariff is missing")]
    [InlineData("exportChanges: [{ from: 2030-01-01, price: 0.05 }, { from: 2029-01-01, price: 0.04 }]", "line 10 column 62, money.exportChanges[2].from: \"2029-01-01\" does not come after 2030-01-01")]
    [InlineData("exportChanges: [{ from: 2030-01-01, tariff: absent.yaml }]", "absent.yaml: there is no such file")]
    [InlineData("life: { endOfLife: 120 % }", "line 10 column 22, money.life.endOfLife: \"120 %\" is above 100 %; a share lies between 0 and 1, or 0 % and 100 %")]
    [InlineData("life: { warrantyYears: 0 }", "line 10 column 26, money.life.warrantyYears: \"0\" is not above 0")]
    [InlineData("life: { replace: { when: later, pricePerUnit: 1 } }", "line 10 column 28, money.life.replace.when: \"later\" is not one of in-year, after-warranty, at-end-of-life")]
    [InlineData("life: { replace: { when: in-year, pricePerUnit: 1 } }", "line 10 column 20, money.life.replace: year belongs to when: in-year, and to it alone")]
    [InlineData("solarInverter: { year: 9 }", "line 10 column 18, money.solarInverter: price is missing")]
    [InlineData("upkeepPerYear: -5", "line 10 column 18, money.upkeepPerYear: \"-5\" is below 0")]
    [InlineData("incentives: [{ name: Rebate }]", "line 10 column 16, money.incentives[1]: it pays nothing; state priceShare, amount, perKw, perKwh or yearlyPerKw")]
    [InlineData("incentives: [{ name: Rebate, amount: 100, years: 2 }]", "line 10 column 45, money.incentives[1].years: only yearlyPerKw is paid by the year")]
    [InlineData("incentives: [{ name: Rebate, amount: 100, from: 2026-01-01, until: 2025-12-31 }]", "line 10 column 70, money.incentives[1].until: \"2025-12-31\" is before from")]
    [InlineData("loan: { rate: 600 %, months: 120 }", "line 10 column 17, money.loan.rate: \"600 %\" is above 100 %; a rate a year is written 0.06 or \"6 %\"")]
    [InlineData("loan: { rate: 6 %, months: 12, newPayments: { month: 18, paydown: 30 % } }", "line 10 column 56, money.loan.newPayments.month: \"18\" is not within the loan's 12 months")]
    [InlineData("lease: { monthly: { Two: 100 }, years: 20 }", "line 10 column 23, money.lease.monthly.Two: no offer is called so")]
    [InlineData("lease: { monthly: { One: 100 } }", "line 10 column 10, money.lease: years is missing")]
    [InlineData("bands: { solarLow: 1.1, solarHigh: 0.9 }", "line 10 column 10, money.bands: solarHigh is below solarLow")]
    [InlineData("bands: { growthLow: 5 % }", "line 10 column 10, money.bands: growthHigh is below growthLow")]
    public void Read_OneThingWrong_SaysIt(string line, string sentence)
    {
        string expected = sentence.StartsWith("line", StringComparison.Ordinal) ? $"h.yaml {sentence}." : sentence + ".";
        Assert.Equal(expected, _folder.ProblemsOf(() => HomeFile.Read(_folder.Write("h.yaml", Sound + "  " + line + "\n"))));
    }
}
