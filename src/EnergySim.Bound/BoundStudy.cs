using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Strategies;
using EnergySim.Studies;
using EnergySim.Studies.Control;
using EnergySim.Tariffs;

namespace EnergySim.Bound;

/// <summary>
/// The cheapest span that anyone with perfect foresight could reach with a plant, behind its wiring, under a plan and the agreement's rule on
/// the battery, as a linear programme with some choices. A strategy's saving is quoted as a share of it. Where it is not exact it is too good,
/// never too high, and says what it leaves open.
/// </summary>
public static class BoundStudy
{
    /// <summary>The bound of one installation.</summary>
    /// <param name="run">The plant, its wiring and its series; its set-points are not asked.</param>
    /// <param name="calendar">The plan on the run's axis.</param>
    /// <param name="rule">The agreement's rule on the battery.</param>
    /// <param name="startKwh">Energy at the start, kWh; null = free, and the span ends with no less than it began with.</param>
    /// <param name="leastEndKwh">Least energy at the end, kWh, where the start is given.</param>
    public static BoundResult Of(Run run, TariffCalendar calendar, IntegrityRule rule = IntegrityRule.None, double? startKwh = null, double leastEndKwh = 0)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(calendar);
        (Programme programme, PlantProgramme plant) = Build(run, calendar, rule, startKwh, leastEndKwh);
        var search = new Search(programme, plant, values => (double)Unrounded(calendar, plant.MeterOf(values)), CentsOf(calendar));
        search.Run();
        double[] best = search.Best;
        double start = best[plant.Start];
        SetPoints schedule = Schedule.Of(run, plant, best);
        var replay = new Run(run.Load, run.SolarDc, run.SolarAc, run.Plant, run.Site, schedule, Math.Clamp(start, run.Plant.LowestKwh, run.Plant.HighestKwh));
        decimal replayBill = Unrounded(calendar, replay.Sums().Meter);
        List<string> open = [.. search.LeftOpen];
        if ((double)replayBill - search.Bound > CentsOf(calendar) && plant.BuysAndSells(best)) open.Add("an hour is bought or sold");
        if (!run.Plant.ChargeTaper.IsNone || !run.Plant.DischargeTaper.IsNone) open.Add("power tapers near full and empty");
        return new BoundResult
        {
            Bill = search.Bound,
            StartKwh = start,
            EndKwh = best[plant.Stored[^1]],
            SimultaneousKwh = plant.BothKwh(best),
            Schedule = schedule,
            Replay = replay,
            ReplayBill = replayBill,
            LeftOpen = open,
        };
    }

    /// <summary>
    /// The bounds of a home's offers beside their strategies. Each bound starts with the energy its strategy starts with and ends with no less
    /// than it, so that no strategy can be below its bound.
    /// </summary>
    /// <param name="home">The home.</param>
    public static IReadOnlyList<BoundQuote> Of(Home home)
    {
        ArgumentNullException.ThrowIfNull(home);
        var calendar = new TariffCalendar(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw);
        IReadOnlyList<Installation> installations = Installation.Of(home, calendar);
        double asItIs = UnroundedBill(installations[0].Run.Sums(), calendar);
        var bounds = new List<BoundQuote>();
        for (int o = 0; o < home.Offers.Count; o++)
        {
            Run run = installations[o + 1].Run;
            RunSums sums = run.Sums();
            BoundResult bound = Of(run, calendar, home.Offers[o].Strategy.Integrity, sums.StartKwh, sums.EndKwh);
            bounds.Add(new BoundQuote
            {
                Name = installations[o + 1].Name,
                AsItIsBill = asItIs,
                StrategyBill = UnroundedBill(sums, calendar),
                Bill = bound.Bill,
                ReplayBill = (double)bound.ReplayBill,
                SimultaneousKwh = bound.SimultaneousKwh,
                LeftOpen = bound.LeftOpen,
            });
        }
        return bounds;
    }

    internal static (Programme Programme, PlantProgramme Plant) Build(Run run, TariffCalendar calendar, IntegrityRule rule, double? startKwh, double leastEndKwh)
    {
        var programme = new Programme();
        var plant = new PlantProgramme(programme, run, rule, startKwh, leastEndKwh);
        var bills = new BillProgramme(programme, new MeterProgramme(programme, plant, calendar, run), calendar);
        bills.Add();
        programme.Objective.Plus(bills.Total);
        return (programme, plant);
    }

    private static double UnroundedBill(RunSums sums, TariffCalendar calendar) => (double)Unrounded(calendar, sums.Meter);

    private static decimal Unrounded(TariffCalendar calendar, MeterColumns meter) => Biller.Bill(MeterSums.Of(calendar, meter)).Bills.Sum(b => b.Unrounded);

    // Bills round credit to the cent when it is earned, and lines that others are taken of; the programme rounds nothing.
    private static double CentsOf(TariffCalendar calendar) => 0.01 * calendar.Bills.Count * (1 + calendar.ExportPrices.Parts.Count);
}

/// <summary>The bound of one installation.</summary>
public sealed record BoundResult
{
    /// <summary>
    /// What the bills come to, money, before rounding, to within 1e-7 of it. The least that can be reached lies between this and
    /// <see cref="ReplayBill"/>; they part only by what <see cref="LeftOpen"/> names, and by cents.
    /// </summary>
    public required double Bill { get; init; }

    /// <summary>Energy at the start, kWh.</summary>
    public required double StartKwh { get; init; }

    /// <summary>Energy at the end, kWh.</summary>
    public required double EndKwh { get; init; }

    /// <summary>Energy charged while the same amount was discharged, kWh: what the programme's straight line between the two directions was used for. 0 = a schedule that a battery can run.</summary>
    public required double SimultaneousKwh { get; init; }

    /// <summary>The cheapest operation as set-points.</summary>
    public required SetPoints Schedule { get; init; }

    /// <summary>The engine's run of it.</summary>
    public required Run Replay { get; init; }

    /// <summary>What the bills of the replay come to, money, before rounding: the best that the engine is shown to reach.</summary>
    public required decimal ReplayBill { get; init; }

    /// <summary>
    /// What the bound leaves open, so that it may be below what can be reached: rules that no row can say and that were not settled by
    /// trying both ways. Empty = it is exact, but for cents.
    /// </summary>
    public required IReadOnlyList<string> LeftOpen { get; init; }
}
