using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files.Tests.Tariffs;

public class TariffFileTests
{
    [Fact]
    public void Read_PlanOfTwoVersions_GivesWhatTheSheetSays()
    {
        Tariff tariff = TariffFile.Read(Sample.PathOf("evening-peak.yaml"));
        Assert.Equal("Evening Peak", tariff.Name);
        Assert.Equal("Riverbend Power (invented)", tariff.Publisher);
        Assert.Equal("USD", tariff.Currency);
        Assert.Equal("America/New_York", tariff.Zone.Id);
        Assert.Equal(2, tariff.Versions.Count);
        TariffVersion first = tariff.Versions[0];
        Assert.Equal(new LocalDate(2025, 1, 1), first.Effective);
        Assert.Equal([new Season("summer", new(6, 1), new(9, 30)), new Season("winter", new(10, 1), new(5, 31))], first.Seasons);
        Assert.Equal(
            [
                new HolidayRule.Fixed(new(1, 1), HolidayMove.Nearest), new HolidayRule.Fixed(new(7, 4), HolidayMove.Nearest),
                new HolidayRule.Nth(5, -1, IsoDayOfWeek.Monday), new HolidayRule.Nth(11, 4, IsoDayOfWeek.Thursday),
                new HolidayRule.OnDate(new(2025, 12, 26)),
            ],
            first.Holidays);
        Assert.Equal(["peak", "off-peak", "off-peak"], first.Periods.Select(p => p.Period));
        Assert.Equal(new ClockWindow(16 * 60, 21 * 60), first.Periods[0].Window);
        Assert.Equal([DayType.Weekday], first.Periods[1].Days);
        Assert.Equal(ClockWindow.WholeDay, first.Periods[2].Window);
        Assert.Equal(("winter", null), (first.EnergyPrices[2].Season, first.EnergyPrices[2].Period));
        Assert.Equal([new PricePart("delivery", 0.14m), new PricePart("supply", 0.22m), new PricePart("programs", 0.02m)], first.EnergyPrices[0].Parts);
        Assert.Equal((0m, 12m, false), (first.FixedPerDay, first.FixedPerMonth, first.FixedPerMonthByDays));
        var export = Assert.IsType<ExportTerms.NetBilling>(first.Export);
        Assert.Equal(("summer", "peak"), (export.Prices[1].Season, export.Prices[1].Period));
        Assert.Equal(["supply", "*"], export.Pays.Select(p => p.Part));
        Assert.Equal(["delivery"], export.Pays[1].Kinds);
        TariffVersion later = tariff.Versions[1];
        Assert.Equal(new LocalDate(2025, 7, 1), later.Effective);
        Assert.Equal((14m, true), (later.FixedPerMonth, later.FixedPerMonthByDays));
        Assert.Equal(first.EnergyPrices.Select(p => p.TotalPerKwh), later.EnergyPrices.Select(p => p.TotalPerKwh));
    }

    [Fact]
    public void Read_OneOfEveryMechanic_FillsEveryRecord()
    {
        IReadOnlyList<TariffVersion> versions = TariffFile.Read(Sample.PathOf("every-mechanic.yaml")).Versions;
        TariffVersion v = versions[0];
        Assert.Equal("delivery", v.NeverOffsetPart);
        Assert.Equal(0.9m, v.FixedPerDay);
        Assert.Equal(12, v.Tiers!.AllowanceKwhPerDay!["hot"]);
        Assert.Equal(9.5, v.Tiers.AllowanceKwhPerDay["cool"]);
        Assert.Null(v.Tiers.AllowanceKwhPerBill);
        Assert.Equal((0d, 0m), (v.Tiers.Steps[0].FromFraction, v.Tiers.Steps[0].PricePerKwh));
        Assert.Equal((1.3, 0.02m), (v.Tiers.Steps[1].FromFraction, v.Tiers.Steps[1].ByPeriod!["night"]));
        Assert.Equal(0.01m, v.Tiers.CreditPerKwh);
        Assert.Equal((0m, 0.4m), (v.Minimum!.PerBill, v.Minimum.PerDay));
        Assert.Equal(["delivery", "fixed"], v.Minimum.Counts);
        Assert.Equal([("levy", 0.02m), ("tax", 0.1m)], v.Percentages.Select(p => (p.Name, p.Rate)));
        Assert.Empty(v.Percentages[1].Of);
        DemandCharge demand = v.Demand[0];
        Assert.Equal(("evening", 30, 0.8, 11, 5d), (demand.Name, demand.Minutes, demand.RatchetFraction, demand.RatchetBills, demand.CapKw));
        Assert.Equal(9m, demand.PriceBySeason!["hot"]);
        Assert.Equal([4, 5.5], demand.EarlierMeasuredKw);
        Assert.Equal([4, 5.5], demand.EarlierBilledKw);
        Assert.Equal(("hot", 2m, 15), (v.Demand[1].Season, v.Demand[1].PricePerKw, v.Demand[1].Minutes));
        Assert.Equal([new LocalDate(2025, 1, 20), new LocalDate(2025, 2, 3)], v.Events!.Dates);
        Assert.Equal((0.5m, new ClockWindow(960, 1200)), (v.Events.AdderPerKwh, v.Events.Window));
        Assert.Equal((30, true), (v.MeterMinutes, v.NetsInsideMeterInterval));
        Assert.Equal(new ExportTerms.RetailNetting(true, Settlement.Carry, 0.03m), v.Export);
        Assert.Equal(new ExportTerms.MonthlyNetting(null, true, 0.02m), versions[1].Export);
        Assert.Equal(
            new ExportTerms.TwoWay
            {
                ChargeWindow = new(600, 900),
                ChargePerKwh = 0.012m,
                FreeKwhPerBill = 190,
                RewardWindow = new(960, 1260),
                RewardPerKwh = 0.023m,
                AnyTimePerKwh = 0.04m,
            },
            versions[2].Export);
        Assert.Equal(new ExportTerms.SellAll(0.11m), versions[3].Export);
        Assert.Equal(500, versions[3].Tiers!.AllowanceKwhPerBill);
        var billing = Assert.IsType<ExportTerms.NetBilling>(versions[4].Export);
        Assert.Equal((0.5m, LeftOver.RollsOver), (billing.CashOutFraction, billing.YearEnd));
        Assert.Equal((1, 0, DayType.Weekday), (billing.Prices[0].Month, billing.Prices[0].Hour, billing.Prices[0].Day));
        Assert.Equal(20m, versions[4].Minimum!.PerBill);
        Assert.IsType<ExportTerms.Nothing>(versions[5].Export);
        Assert.Equal(30, versions[5].MeterMinutes);
    }

    [Fact]
    public void Read_TablesOfTwoParts_AddsThemHourByHour()
    {
        TariffVersion version = TariffFile.Read(Sample.PathOf("export-table.yaml")).Versions[0];
        Assert.Equal([new PricePart("energy", 0.16m)], version.EnergyPrices[0].Parts);
        var export = Assert.IsType<ExportTerms.NetBilling>(version.Export);
        Assert.Equal(2 * 12 * 24, export.Prices.Count);
        Assert.Empty(export.Pays);
        ExportPrice at = Assert.Single(export.Prices, p => p is { Month: 3, Hour: 5, Day: DayType.Weekday });
        // 0.03 + (2 × 24 + 5)/10000, and 0.2 more for delivery: how the sample was made.
        Assert.Equal([new PricePart("supply", 0.0353m), new PricePart("delivery", 0.2353m)], at.Parts);
        at = Assert.Single(export.Prices, p => p is { Month: 12, Hour: 23, Day: DayType.Weekend });
        Assert.Equal([new PricePart("supply", 0.1587m)], at.Parts);
    }
}
