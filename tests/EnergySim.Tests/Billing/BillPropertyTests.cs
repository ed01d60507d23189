using CsCheck;
using EnergySim.Billing;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Billing;

/// <summary>What holds of every bill, on random flows and prices of February and March with a change of the clock and of the season.</summary>
public class BillPropertyTests
{
    private static readonly TimeAxis s_axis = Worked.Days(new LocalDate(2025, 2, 1), 59);

    // Flows in kW by the hour, prices in thousandths, and what the export price is in hundredths of the import price.
    private static readonly Gen<(double[] ImportKw, double[] ExportKw, int[] Mills, int ExportPercent)> s_cases =
        Gen.Select(Gen.Double[0, 4].Array[s_axis.Count], Gen.Double[0, 5].Array[s_axis.Count], Gen.Int[10, 600].Array[6], Gen.Int[0, 100]);

    [Fact]
    public void Bill_AtAHigherImportPrice_IsNeverLower() => FixedSeed.Check(s_cases, 60, c =>
    {
        // Not of retail netting: there exports earn the same higher price.
        ExportTerms[] regimes =
        [
            new ExportTerms.Nothing(), NetBilling(c.Mills[3] / 1000m), new ExportTerms.MonthlyNetting(c.Mills[3] / 1000m, false, 0),
            new ExportTerms.MonthlyNetting(null, true, 0.02m), new ExportTerms.SellAll(c.Mills[3] / 1000m),
        ];
        int[] raised = [.. c.Mills.Select((m, i) => m + (i < 4 ? c.ExportPercent : 0))];
        foreach (ExportTerms terms in regimes)
        {
            decimal low = Total(c.ImportKw, c.ExportKw, Rich(c.Mills) with { Export = terms });
            decimal high = Total(c.ImportKw, c.ExportKw, Rich(raised) with { Export = terms });
            Assert.True(high >= low, $"{terms.GetType().Name}: {high} < {low}");
        }
    });

    [Fact]
    public void Bill_SplitAtAReadDate_KeepsKwhAndMoney() => FixedSeed.Check(s_cases, 60, c =>
    {
        TariffVersion plan = Rich(c.Mills) with { Demand = [], Minimum = null };
        LocalDate from = new(2025, 2, 1), read = from.PlusDays(1 + (c.Mills[5] % 57)), until = from.PlusDays(59);
        Bill whole = Assert.Single(Bills(c.ImportKw, c.ExportKw, new Account { ReadDates = [from, until] }, plan).Bills);
        BillSet parts = Bills(c.ImportKw, c.ExportKw, new Account { ReadDates = [from, read, until] }, plan);
        Assert.Equal(2, parts.Bills.Count);
        Assert.Equal((double)Kwh(whole), (double)parts.Bills.Sum(Kwh), 1e-4);
        // Before the tax, which is taken of rounded lines; to what rounding sums to 1e-6 kWh leaves.
        Assert.Equal((double)BeforeTax(whole), (double)parts.Bills.Sum(BeforeTax), 1e-4);
    });

    [Fact]
    public void Bills_OfTheSameFlows_AreOrderedByRegime() => FixedSeed.Check(s_cases, 60, c =>
    {
        // One price at all hours, an export price no higher, no pay for what is left over. Netting over the year can use every kWh sold, rolled-over
        // kWh only later ones, netting without roll-over those of one bill; net billing earns less for each. No order holds between the last two.
        decimal price = c.Mills[0] / 1000m;
        decimal Of(ExportTerms terms) => Total(c.ImportKw, c.ExportKw, Worked.Flat(new PricePart("energy", price)) with { Export = terms });
        decimal retail = Of(new ExportTerms.RetailNetting(false, Settlement.Year, 0));
        decimal rolled = Of(new ExportTerms.MonthlyNetting(null, true, 0));
        decimal monthly = Of(new ExportTerms.MonthlyNetting(0, true, 0));
        decimal credited = Of(NetBilling(price * c.ExportPercent / 100));
        decimal nothing = Of(new ExportTerms.Nothing());
        decimal[][] chains = [[retail, rolled, monthly, nothing], [retail, credited, nothing]];
        foreach (decimal[] chain in chains)
            for (int i = 1; i < chain.Length; i++)
                Assert.True(chain[i - 1] <= chain[i] + 0.05m, string.Join(" ≤ ", chain));
    });

    [Fact]
    public void Bill_OfSums_IsThatOfAWalkHourByHour() => FixedSeed.Check(s_cases, 60, c =>
    {
        BillSet bills = Bills(c.ImportKw, c.ExportKw, null, Rich(c.Mills));
        Assert.Equal([2, 3], bills.Bills.Select(b => b.From.Month));
        foreach (Bill bill in bills.Bills)
        {
            Assert.Equal(bill.Total, bill.Lines.Sum(l => l.Amount));
            Assert.Equal(Walk(c.ImportKw, c.Mills, bill.From, bill.To), bill.Total);
        }
    });

    // The plan of Rich, read off the zone's own clock: one hour after another.
    private static decimal Walk(double[] importKw, int[] mills, LocalDate from, LocalDate to)
    {
        double winterOn = 0, winterOff = 0, summerOn = 0, summerOff = 0, highestKw = 0;
        for (int i = 0; i < importKw.Length; i++)
        {
            LocalDateTime clock = s_axis.StartOf(i).InZone(Worked.Denver).LocalDateTime;
            if (clock.Date < from || clock.Date > to) continue;
            bool on = clock.Hour is >= 16 and < 21 && clock.DayOfWeek <= IsoDayOfWeek.Friday, summer = clock.Month == 3 && clock.Day >= 15;
            if (summer && on) summerOn += importKw[i];
            else if (summer) summerOff += importKw[i];
            else if (on) winterOn += importKw[i];
            else winterOff += importKw[i];
            if (clock.Hour is >= 16 and < 21) highestKw = Math.Max(highestKw, importKw[i]);
        }
        int days = Period.DaysBetween(from, to) + 1;
        decimal due = Cents(winterOn, mills[0]) + Cents(winterOff, mills[1]) + Cents(summerOn, mills[2]) + Cents(summerOff, mills[1]) + Cents(days, 400);
        // The season changes inside March: a line each, by the share of its days and of its own highest hour.
        due += from.Month == 2 ? Cents(highestKw, mills[4]) : MarchDemand(importKw, mills);
        due += Math.Max(0, 200 - due);
        return due + Math.Round(due * 0.05m, 2, MidpointRounding.AwayFromZero);
    }

    private static decimal MarchDemand(double[] importKw, int[] mills)
    {
        double early = 0, late = 0;
        for (int i = 0; i < importKw.Length; i++)
        {
            LocalDateTime clock = s_axis.StartOf(i).InZone(Worked.Denver).LocalDateTime;
            if (clock.Month < 3 || clock.Hour is < 16 or >= 21) continue;
            if (clock.Month == 3 && clock.Day < 15) early = Math.Max(early, importKw[i]);
            else late = Math.Max(late, importKw[i]);
        }
        const int days = 31;
        return Cents(early, mills[4], 14m / days) + Cents(late, mills[4], (days - 14m) / days);
    }

    private static decimal Cents(double quantity, int mills, decimal share = 1) =>
        Math.Round(Math.Round((decimal)quantity, 6) * mills / 1000m * share, 2, MidpointRounding.AwayFromZero);

    // Two seasons, a peak on weekdays, a charge a day, demand of hours, a minimum and a tax.
    private static TariffVersion Rich(int[] mills) => Worked.PeakAndOff(new ClockWindow(960, 1260), 0, 0, DayType.Weekday) with
    {
        Seasons = [new Season("winter", new(10, 1), new(3, 14)), new Season("summer", new(3, 15), new(9, 30))],
        EnergyPrices =
        [
            new EnergyPrice { Season = "winter", Period = "peak", Parts = [new PricePart("energy", mills[0] / 1000m)] },
            new EnergyPrice { Season = "summer", Period = "peak", Parts = [new PricePart("energy", mills[2] / 1000m)] },
            new EnergyPrice { Period = "off", Parts = [new PricePart("energy", mills[1] / 1000m)] },
        ],
        FixedPerDay = 0.4m,
        Demand = [new DemandCharge { Name = "demand", Minutes = 60, PricePerKw = mills[4] / 1000m, Window = new ClockWindow(960, 1260) }],
        Minimum = new MinimumBill(200, 0, []),
        Percentages = [new Percentage("tax", 0.05m, [])],
    };

    private static ExportTerms.NetBilling NetBilling(decimal price) => new() { Prices = [new ExportPrice { Parts = [new PricePart("supply", price)] }] };

    private static BillSet Bills(double[] importKw, double[] exportKw, Account? account, TariffVersion plan) =>
        Worked.Bills(s_axis, Worked.Meter(s_axis, i => importKw[i], i => exportKw[i]), account, plan);

    private static decimal Total(double[] importKw, double[] exportKw, TariffVersion plan) => Bills(importKw, exportKw, null, plan).Total;

    private static decimal Kwh(Bill bill) => bill.Lines.Where(l => l.Unit == "kWh").Sum(l => l.Quantity);

    private static decimal BeforeTax(Bill bill) => bill.Lines.Where(l => l.Kind != "tax").Sum(l => l.Unrounded);
}
