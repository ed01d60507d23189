using CsCheck;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Tariffs;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Tests.Strategies;

public class EveningPlannerTests
{
    private static readonly TimeAxis s_axis = TimeAxis.OfDates(DateTimeZoneProviders.Tzdb["America/New_York"], new LocalDate(2025, 3, 1), new LocalDate(2025, 3, 22), 60);

    private static readonly Plant s_plant = new()
    {
        HighestKwh = 10,
        ChargeLimitKw = 5,
        DischargeLimitKw = 5,
        InverterKw = 5,
        ChargeEfficiency = 0.97,
        DischargeEfficiency = 0.97,
        InverterEfficiency = 0.96,
        RectifierEfficiency = 0.96,
    };

    private static readonly PlannerTerms s_terms = new() { ReserveFraction = 0.2, ChargesFromGrid = true, SellsFromBattery = false };

    private static MarginalPrices Prices(decimal night = 0.10m, decimal day = 0.40m, decimal sell = 0.03m) => new(new TariffCalendar(
        new Tariff
        {
            Name = "two prices",
            Zone = s_axis.Zone,
            Versions =
            [
                new TariffVersion
                {
                    Effective = new LocalDate(2025, 1, 1),
                    Periods = [new PeriodRule("day") { Window = new ClockWindow(960, 1260) }, new PeriodRule("night") { Window = new ClockWindow(1260, 960) }],
                    EnergyPrices = [new EnergyPrice { Period = "day", Parts = [new PricePart("energy", day)] }, new EnergyPrice { Period = "night", Parts = [new PricePart("energy", night)] }],
                    Export = new ExportTerms.NetBilling { Prices = [new ExportPrice { Parts = [new PricePart("energy", sell)] }] },
                },
            ],
        },
        s_axis));

    private static Profile Of(Func<int, double> kw) => new(s_axis, [.. Enumerable.Range(0, s_axis.Count).Select(kw)]);

    [Fact]
    public void Plan_WhenTheFutureIsAnother_DecidesTheSameUntilThen() => FixedSeed.Check(
        Gen.Select(Gen.Double[0, 4].Array[s_axis.Count], Gen.Double[0, 5].Array[s_axis.Count], Gen.Double[0, 6].Array[s_axis.Count], Gen.Int[1, 19]), 25, drawn =>
    {
        // TRADE.md §6.2, case 8: when tomorrow's data are altered, today's decisions are unchanged.
        (double[] load, double[] sun, double[] other, int day) = drawn;
        int cut = Enumerable.Range(0, s_axis.Count).First(i => s_axis.LocalDateOf(i) == new LocalDate(2025, 3, 1).PlusDays(day));
        SetPoints plan = EveningPlanner.Plan(s_plant, Of(i => load[i]), Of(i => sun[i]), Prices(), s_terms);
        SetPoints altered = EveningPlanner.Plan(s_plant, Of(i => i < cut ? load[i] : other[i]), Of(i => i < cut ? sun[i] : other[^(i + 1)]), Prices(), s_terms);
        int nextDay = Enumerable.Range(0, s_axis.Count).First(i => s_axis.LocalDateOf(i) == new LocalDate(2025, 3, 1).PlusDays(day + 1));
        for (int i = 0; i < nextDay; i++) Assert.Equal(plan[i], altered[i]);
    });

    [Fact]
    public void Plan_OfLikeDaysAndTwoPrices_FillsByNightWhatTheDayNeeds()
    {
        // 1 kW at all times: five dear hours need 5 / (0.97 × 0.96) = 5.37 kWh above the reserve of 2; straight lines between levels of 0.2 kWh blur that by a few.
        SetPoints plan = EveningPlanner.Plan(s_plant, Of(_ => 1), null, Prices(), s_terms);
        int last = s_axis.Count - 48;
        SetPointRow beforePeak = plan[Enumerable.Range(last, 24).First(i => s_axis.LocalMinuteOf(i) == 900)];
        Assert.InRange(beforePeak.GridCeilingKwh, 7.37, 8.2);
        SetPointRow inPeak = plan[Enumerable.Range(last, 24).First(i => s_axis.LocalMinuteOf(i) == 1200)];
        Assert.Equal((2.0, 0.0, 0.0), (inPeak.FloorKwh, inPeak.ImportTargetKw, inPeak.GridCeilingKwh));
    }

    [Fact]
    public void Plan_WhereLossesEatTheGain_DoesNotBuyToUse() =>
        // TRADE.md §6.2, case 7: 0.35 is above 0.40 × the round trip of 0.97² × 0.96² = 0.867.
        Assert.All(EveningPlanner.Plan(s_plant, Of(_ => 1), null, Prices(night: 0.35m), s_terms).Rows[24..].ToArray(), r => Assert.Equal(0, r.GridCeilingKwh));

    [Fact]
    public void Plan_SellsOnlyWhereItMayAndPays()
    {
        PlannerTerms sells = s_terms with { SellsFromBattery = true };
        Assert.Contains(EveningPlanner.Plan(s_plant, Of(_ => 0.1), null, Prices(sell: 0.30m), sells).Rows.ToArray(), r => !double.IsInfinity(r.SellDownKwh));
        Assert.All(EveningPlanner.Plan(s_plant, Of(_ => 0.1), null, Prices(sell: 0.30m), s_terms).Rows.ToArray(), r => Assert.Equal(double.PositiveInfinity, r.SellDownKwh));
    }

    [Fact]
    public void Plan_ChargedFromSolarOnly_NeverAsksTheGrid() =>
        Assert.All(EveningPlanner.Plan(s_plant, Of(_ => 1), Of(_ => 1), Prices(), s_terms with { ChargesFromGrid = false }).Rows.ToArray(), r => Assert.Equal(0, r.GridCeilingKwh));

    [Fact]
    public void Plan_OfAnything_CanBeRun() => FixedSeed.Check(
        Gen.Select(Gen.Double[0, 6].Array[s_axis.Count], Gen.Double[0, 8].Array[s_axis.Count], Gen.Int[1, 60], Gen.Bool), 25, drawn =>
    {
        (double[] load, double[] sun, int sell, bool sells) = drawn;
        SetPoints plan = EveningPlanner.Plan(s_plant, Of(i => load[i]), Of(i => sun[i]), Prices(sell: 0.01m * sell), s_terms with { SellsFromBattery = sells });
        plan.CheckNoCycling();
        Assert.All(plan.Rows.ToArray(), r => Assert.InRange(r.FloorKwh, 2 - 1e-9, 10 + 1e-9));
    });
}
