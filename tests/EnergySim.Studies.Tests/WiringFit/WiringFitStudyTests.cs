using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Studies.Outages;
using EnergySim.Studies.WiringFit;
using EnergySim.Tariffs;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Studies.Tests.WiringFit;

/// <summary>The demo home in July, by the hour, on an old panel: small enough to run in every way.</summary>
public class WiringFitStudyTests
{
    private const int Hours = 24 * 31;
    private static readonly OutageTerms s_terms = new() { HorizonHours = 48, NamedHours = 24 };
    private static readonly Home s_home = July();
    private static readonly Lazy<WiringComparison> s_result = new(() => WiringFitStudy.Of(s_home, s_terms));

    private static Home July()
    {
        Home demo = Demo.Home;
        var axis = new TimeAxis(demo.Load.Axis.Zone, Instant.FromUtc(2025, 7, 1, 6, 0), 60, Hours);
        int first = (int)((axis.Start - demo.Load.Axis.Start).TotalMinutes / 15);
        Profile Cut(Profile year) => new(axis, Enumerable.Range(0, Hours).Select(h => Enumerable.Range(0, 4).Average(q => year.Kw[first + (4 * h) + q])).ToArray());
        Offer one = demo.Offers[0] with { Name = "one", Units = 1, Price = 10_000, BreakerAmps = null, Strategy = new Strategy { Base = Steering.SelfUse } };
        WayToConnect Way(string name, ConnectionKind kind, KeptRunning keeps = KeptRunning.Nothing, decimal price = 1000, double? setting = null) =>
            new() { Name = name, Connects = kind, Keeps = keeps, SettingAmps = setting, Costs = [new CostItem("all", price, 0, 1)] };
        return demo with
        {
            Load = Cut(demo.Load),
            Solar = demo.Solar! with { Profile = Cut(demo.Solar.Profile), InverterKw = 5 },
            Service = new Service { MainAmps = 100, ExportLimitKw = 4 },
            Agreement = new Agreement { AuthorisedKw = 5, NewTariff = Demo.OnFlat.Tariff },
            Wiring = new WiringPlan
            {
                Panel = new ServicePanel { MainAmps = 100, BusbarAmps = 100 },
                Edition = CodeEdition.Of(2020)!,
                Ways =
                [
                    Way("breaker", ConnectionKind.Breaker, price: 500),
                    Way("low guard", ConnectionKind.GuardedBusbar, setting: 15),
                    Way("guard", ConnectionKind.GuardedBusbar, KeptRunning.WholeHomeAtMeter, 3000),
                    Way("supply", ConnectionKind.SupplySide, price: 1800),
                    Way("dear supply", ConnectionKind.SupplySide, KeptRunning.WholeHomeAtEntrance, 5000),
                    Way("circuits", ConnectionKind.SupplySide, KeptRunning.KeptCircuits, 4000),
                    Way("main", ConnectionKind.SmallerMain),
                ],
            },
            Offers = [one with { ReplacesSolarInverter = true }, one with { Name = "two", Units = 2, ReplacesSolarInverter = true }],
        };
    }

    private static WayResult Way(string name, int offer = 0) => s_result.Value.Offers[offer].Ways.Single(w => w.Fit.Way.Name == name);

    // The same home priced by the comparison study, with the breaker that the rule leaves: one engine, one bill.
    [Fact]
    public void Of_BreakerByTheRule_HasTheBillOfTheComparison()
    {
        WayResult way = Way("breaker");
        // 100/100 → 20 A → 16 A → 3.84 kW (nec_705_12_busbar.csv); the inverter could give 5 kW.
        Assert.Equal((20, 16, true), (way.Fit.BreakerAmps, way.Fit.OutputAmps, way.Fit.IsSetDown));
        Assert.Equal(3.84, way.Run!.Limits.InverterBreakerKw, 9);
        Comparison plain = ComparisonStudy.Of(s_home with { Offers = [s_home.Offers[0] with { BreakerAmps = 20 }] });
        Assert.Equal(plain.Columns[1].AnnualBill, way.Run.AnnualBill);
        Assert.Equal(plain.Columns[0].AnnualBill, s_result.Value.AsItIsBill);
        Assert.Equal(plain.Columns[1].LimitHours[Limit.InverterBreaker], way.Run.Losses.Single(l => l.Limit == Limit.InverterBreaker).Hours);
    }

    [Fact]
    public void Of_LossOfALimit_IsTheBillWithIt_LessTheBillWithoutIt()
    {
        LimitLoss loss = Way("breaker").Run!.Losses.Single(l => l.Limit == Limit.InverterBreaker);
        Comparison free = ComparisonStudy.Of(s_home with { Offers = [s_home.Offers[0] with { BreakerAmps = null }] });
        Assert.Equal(Way("breaker").Run!.AnnualBill - free.Columns[1].AnnualBill, loss.BillCost);
        Assert.True(loss is { Hours: > 0, ThrottledDischargeKwh: > 0 } && loss.CurtailedKwh > 0 && loss.BillCost > 0);
        // What an export cap withholds is curtailed; nothing else is.
        LimitLoss export = Way("supply", 1).Run!.Losses.Single(l => l.Limit == Limit.Export);
        Assert.True(export.CurtailedKwh > 0);
        Assert.Equal((0, 0), (export.ThrottledChargeKwh, export.ThrottledDischargeKwh));
    }

    [Fact]
    public void Of_EachWay_NeverExceedsItsLimitsInAnyInterval()
    {
        foreach (OfferWays offer in s_result.Value.Offers)
        {
            foreach (WayResult way in offer.Ways.Where(w => w.Run is not null))
            {
                SiteLimits site = way.Run!.Limits;
                var calendar = new TariffCalendar(s_home.Tariff, s_home.Load.Axis, s_home.Account, s_home.Load.Kw);
                Ledger ledger = Installation.Of(WayHome.Of(s_home, offer.Offer, way.Fit), calendar)[1].Run.Ledger();
                for (int i = 0; i < ledger.Axis.Count; i++)
                {
                    double output = ledger[LedgerColumn.InverterOutKw][i];
                    Assert.True(output <= site.InverterBreakerKw + 1e-9 && ledger[LedgerColumn.InverterInKw][i] <= site.InverterBreakerKw + 1e-9);
                    Assert.True(output <= (way.Fit.OutputAmps * 0.24) + 1e-9);
                    Assert.True(ledger[LedgerColumn.ExportKw][i] <= 4 + 1e-9);
                    if (output > 0) Assert.True(ledger[LedgerColumn.ImportKw][i] + output <= site.BusbarKw + 1e-9, way.Fit.Way.Name);
                }
            }
        }
    }

    [Fact]
    public void Of_Ways_AreRankedAndTheDominatedMarked()
    {
        OfferWays offer = s_result.Value.Offers[0];
        decimal[] costs = [.. offer.Ways.Where(w => w.Run is not null).Select(w => w.Run!.YearsCost)];
        Assert.Equal(costs.Order(), costs);
        Assert.Equal(costs[0], offer.Cheapest!.Run!.YearsCost);
        foreach (WayResult way in offer.Ways.Where(w => w.Run is not null))
            Assert.Equal(way.Price + (10 * way.Run!.AnnualBill), way.Run.YearsCost);
        // Two ways of one whole-home backup: the dearer is dominated; the cheapest of all never is.
        Assert.NotNull(Way("dear supply").DominatedBy);
        Assert.Null(offer.Cheapest.DominatedBy);
        // A smaller main without a load calculation is not run, and comes last.
        Assert.Equal((Standing.Unknown, null), (offer.Ways[^1].Fit.Standing, offer.Ways[^1].Run));
    }

    [Fact]
    public void Of_WhatIsKept_HasPowerAndHours_WhatIsNot_HasNone()
    {
        Assert.Null(Way("supply").Run!.Backup);
        WayBackup whole = Way("guard").Run!.Backup!, half = Way("circuits").Run!.Backup!;
        // 5 kW at the cells × 0.96 = 4.8 kW AC.
        Assert.Equal((4.8, 1, 0.5), (Math.Round(whole.PowerKw, 9), whole.KeptFraction, half.KeptFraction));
        Assert.True(half.Survival.HoursLastedBy(0.5) > whole.Survival.HoursLastedBy(0.5));
        // The same outages as the outage study sees.
        OutageResult outages = OutageStudy.Of(s_home with { Offers = [s_home.Offers[0]] }, s_terms);
        Assert.Equal(outages.Offers[0].Any.HoursLastedBy(0.5), whole.Survival.HoursLastedBy(0.5));
        Assert.Equal(3, Way("guard").BackupVerdicts.Count);
    }

    [Fact]
    public void Of_Inverters_AskTheAgreement()
    {
        InverterResult[] two = [.. s_result.Value.Offers[1].Inverters];
        Assert.Equal([(InverterChoice.Keep, true), (InverterChoice.Replace, false), (InverterChoice.Split, false)], two.Select(i => (i.Choice, i.KeepsAgreement!.Value)));
        Assert.Equal("10 kW > 5 kW authorised + lesser of 0.5 and 1 kW = 5.5 kW", two[1].AgreementArithmetic);
        foreach (InverterResult choice in two)
        {
            Assert.Equal(choice.NewBill - choice.Bill, choice.AgreementWorth);
            Assert.Equal(choice.KeepsAgreement == true ? choice.Bill : choice.NewBill, choice.BillThatHolds);
        }
        // Storage counted: 5 kW + 10 kW lose it too.
        WiringComparison counted = WiringFitStudy.Of(s_home with { Agreement = s_home.Agreement! with { CountsStorage = true } }, s_terms);
        Assert.Equal((15, false), (counted.Offers[1].Inverters[0].CapacityKw, counted.Offers[1].Inverters[0].KeepsAgreement));
    }

    // TRADE §2.1: growth ≤ max(10 %, 1 kW), or the lesser of them: conflicting practice, so an input.
    [Theory]
    [InlineData(GrowthRule.Lesser, 8.36)]
    [InlineData(GrowthRule.Greater, 8.6)]
    public void MostKw_ByEitherReading(GrowthRule rule, double kw) => Assert.Equal(kw, new Agreement { AuthorisedKw = 7.6, GrowthRule = rule }.MostKw, 9);

    [Fact]
    public void Of_StorageRule_IsEnforcedAndPriced()
    {
        Offer selling = s_home.Offers[0] with { Strategy = new Strategy { Base = Steering.SelfUse, Sale = new BatterySale(new ClockWindow(17 * 60, 20 * 60), 0.2) } };
        Home ruled = s_home with { Offers = [selling], Agreement = s_home.Agreement! with { StorageRule = IntegrityRule.NeverExports } };
        InverterResult replace = WiringFitStudy.Of(ruled, s_terms).Offers[0].Inverters[1];
        InverterResult free = WiringFitStudy.Of(s_home with { Offers = [selling] }, s_terms).Offers[0].Inverters[1];
        Assert.Null(free.StorageRuleCost);
        Assert.Equal(free.Way, replace.Way);
        Assert.Equal(replace.Bill, free.Bill + replace.StorageRuleCost);
    }

    [Fact]
    public void Sheet_OfAGuardedWay_HasEverySettingWithItsTest()
    {
        SetPointSheet sheet = SetPointSheet.Of(s_home, s_result.Value, s_result.Value.Offers[0], "low guard");
        SheetLine Line(string name) => sheet.Lines.Single(l => l.Name == name);
        Assert.Equal((15d, 3.6), (Line("Guarded busbar").Amps!.Value, Line("Guarded busbar").Kw!.Value));
        Assert.Equal((80d, 19.2), (Math.Round(Line("Import from the grid, most").Amps!.Value, 6), Math.Round(Line("Import from the grid, most").Kw!.Value, 6)));
        Assert.Equal("20%, 2 of 10 kWh", Line("Reserve").Setting);
        Assert.All(sheet.Lines, l => Assert.NotEmpty(l.Test));
        Assert.Equal("To be confirmed by a licensed electrician and the local authority.", sheet.Cautions[0]);
        Assert.Throws<ArgumentException>(() => SetPointSheet.Of(s_home, s_result.Value, s_result.Value.Offers[0], "main"));
        Assert.Throws<ArgumentException>(() => SetPointSheet.Of(s_home, s_result.Value, s_result.Value.Offers[0], "moon"));
    }

    // The demo's weekday peak, 16:00 to 21:00, as the person who programs it needs it.
    [Fact]
    public void Sheet_OfAPeakWindow_SaysClockTimes()
    {
        Home peak = s_home with { Offers = [s_home.Offers[0] with { Strategy = new Strategy { Base = Steering.PeakWindow } }] };
        WiringComparison result = WiringFitStudy.Of(peak, s_terms);
        SheetLine window = SetPointSheet.Of(peak, result, result.Offers[0], null).Lines.Single(l => l.Name == "Discharge window");
        Assert.Equal("16:00–21:00, Monday to Friday in months 7, by Evening peak", window.Setting);
    }

    [Fact]
    public void Of_HomeWithoutWiring_Throws() => Assert.Throws<ArgumentException>(() => WiringFitStudy.Of(s_home with { Wiring = null }));

    // Half the panels on each side: together they are the whole profile.
    [Fact]
    public void Split_GivesEachSideItsShare()
    {
        var calendar = new TariffCalendar(s_home.Tariff, s_home.Load.Axis, s_home.Account, s_home.Load.Kw);
        Offer split = s_home.Offers[0] with { ReplacesSolarInverter = false, SplitFraction = 0.25 };
        Run run = Installation.Of(s_home with { Offers = [split] }, calendar)[1].Run;
        double all = s_home.Solar!.Profile.EnergyKwh;
        Assert.Equal(0.25 * all, run.SolarDc.EnergyKwh, 6);
        Assert.Equal(0.75 * all * s_home.Solar.InverterEfficiency, run.SolarAc.EnergyKwh, 6);
        Assert.Throws<ArgumentException>(() => Installation.Of(s_home with { Offers = [split with { ReplacesSolarInverter = true }] }, calendar));
    }
}
