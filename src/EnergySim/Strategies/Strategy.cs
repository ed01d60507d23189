using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Tariffs;
using EnergySim.Time;

namespace EnergySim.Strategies;

/// <summary>What the battery does when nothing more is said.</summary>
public enum Steering
{
    /// <summary>Always full, for backup.</summary>
    Hold,

    /// <summary>Solar first into the house, then into the cells; the cells serve the house whenever it would buy.</summary>
    SelfUse,

    /// <summary>Self-use inside the peak window; outside it the cells only charge.</summary>
    PeakWindow,

    /// <summary>The cells hold import at a level.</summary>
    DemandShaving,

    /// <summary>Each day is planned at its start, on the days before it and the rate sheet.</summary>
    Planned,
}

/// <summary>A rule that a net-metering agreement puts on a battery, enforced in every interval.</summary>
public enum IntegrityRule
{
    /// <summary>None.</summary>
    None,

    /// <summary>The battery charges only from solar.</summary>
    SolarOnly,

    /// <summary>The battery never exports (solar may still be sold).</summary>
    NeverExports,
}

/// <summary>
/// What a battery is told to do. It is compiled, before a run, into <see cref="SetPoints"/>: the base rows, then overnight charging, selling,
/// events, storm preparation and the integrity rule, each over what stands.
/// </summary>
public sealed record Strategy
{
    /// <summary>What it does when nothing more is said.</summary>
    public required Steering Base { get; init; }

    /// <summary>Share of usable energy kept for outages while the grid is up, 0–1.</summary>
    public double ReserveFraction { get; init; } = 0.2;

    /// <summary>The peak windows of every day, local clock. Empty: the window is the tariff's.</summary>
    public IReadOnlyList<ClockWindow> PeakWindows { get; init; } = [];

    /// <summary>Names of the tariff's periods that make the peak window. Empty: the dearest period of each season.</summary>
    public IReadOnlyList<string> PeakPeriods { get; init; } = [];

    /// <summary>Peak window: true when energy is kept for the dearest hours of the window where it is expected not to last through all of them.</summary>
    public bool KeepsForDearest { get; init; }

    /// <summary>Demand shaving: the import to hold, kW ≥ 0.</summary>
    public double ShaveToKw { get; init; }

    /// <summary>Demand shaving: the share of usable energy to which the grid refills below that import, 0–1.</summary>
    public double RefillFraction { get; init; }

    /// <summary>Demand shaving: true when the level rises to each highest demand that was not held, until the bill ends; outside the hours in which demand is counted the cells only charge.</summary>
    public bool Ratchets { get; init; }

    /// <summary>Charging from the grid, if any.</summary>
    public OvernightCharge? Overnight { get; init; }

    /// <summary>Selling from the battery, if any.</summary>
    public BatterySale? Sale { get; init; }

    /// <summary>True when the cells sell in any hour that pays better than every use until they are filled again.</summary>
    public bool SellsByPrice { get; init; }

    /// <summary>What is done for the utility's events, if anything.</summary>
    public EventResponse? Events { get; init; }

    /// <summary>Planned: true when the plan may sell from the cells.</summary>
    public bool PlansToSell { get; init; }

    /// <summary>Storm preparation, if any.</summary>
    public StormPreparation? Storm { get; init; }

    /// <summary>The agreement's rule, if any.</summary>
    public IntegrityRule Integrity { get; init; }

    /// <summary>True when the past and prices are asked (<see cref="Compile(Plant, StrategyClock, StrategyFacts)"/>).</summary>
    public bool AsksFacts => KeepsForDearest || SellsByPrice || Overnight is { LikeDays: > 0 };

    /// <summary>Compiles the strategy for a plant onto an axis.</summary>
    /// <param name="plant">For its lowest and highest energy.</param>
    /// <param name="axis">The intervals.</param>
    /// <param name="inTariffPeak">For each interval whether the tariff's peak window holds; needed where the strategy names no clock windows.</param>
    /// <exception cref="ArgumentException">A share lies outside 0–1, or the tariff's window is needed and missing.</exception>
    public SetPoints Compile(Plant plant, TimeAxis axis, ReadOnlySpan<bool> inTariffPeak = default) => Compile(plant, StrategyClock.Of(this, axis, inTariffPeak));

    /// <summary>Compiles the strategy for a plant, where its windows are laid onto the axis already: a few rows, and no work an interval.</summary>
    /// <param name="plant">For its lowest and highest energy.</param>
    /// <param name="clock">Made by <see cref="StrategyClock.Of"/> of a strategy with the same windows; levels and shares may differ.</param>
    /// <exception cref="ArgumentException">A share lies outside 0–1, the clock was laid for other windows, or a rule asks the past, prices or the meter.</exception>
    public SetPoints Compile(Plant plant, StrategyClock clock)
    {
        RowRules rules = RulesFor(plant, clock);
        if (AsksFacts || Ratchets) throw new ArgumentException("The strategy has a rule that asks the past, prices or the meter.");
        var rows = new SetPointRow[clock.Situations.Count];
        for (int r = 0; r < rows.Length; r++) rows[r] = rules.Of(clock.Situations[r], rules.Plain);
        return new SetPoints(rows, clock.Picks);
    }

    /// <summary>Compiles the strategy where a rule asks the past and prices: a row an hour of each local day. Of the series only days before the day decided on are asked.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="clock">Made by <see cref="StrategyClock.Of"/> on the axis of the series.</param>
    /// <param name="facts">The series and prices.</param>
    /// <exception cref="ArgumentException">A share lies outside 0–1, or the clock was laid for other windows.</exception>
    public SetPoints Compile(Plant plant, StrategyClock clock, StrategyFacts facts)
    {
        ArgumentNullException.ThrowIfNull(facts);
        RowRules rules = RulesFor(plant, clock);
        HourLevels[] levels = ExpectedNeeds.Of(this, plant, rules, clock, facts);
        TimeAxis axis = facts.Load.Axis;
        int firstDay = axis.LocalDayOf(0), lastHour = -1;
        Situation last = Situation.None;
        var rows = new List<SetPointRow>(levels.Length);
        var picks = new int[axis.Count];
        for (int i = 0; i < picks.Length; i++)
        {
            int hour = ((axis.LocalDayOf(i) - firstDay) * 24) + (axis.LocalMinuteOf(i) / 60);
            Situation now = clock.SituationAt(i);
            if (hour != lastHour || now != last) rows.Add(rules.Of(now, levels[hour]));
            (lastHour, last) = (hour, now);
            picks[i] = rows.Count - 1;
        }
        return new SetPoints(rows, picks);
    }

    /// <summary>Compiles a planned strategy.</summary>
    /// <param name="plant">The plant.</param>
    /// <param name="load">The house.</param>
    /// <param name="solar">All solar, as AC; null = none.</param>
    /// <param name="prices">What a kWh is worth at the meter.</param>
    public SetPoints CompilePlan(Plant plant, Profile load, Profile? solar, MarginalPrices prices)
    {
        CheckShares();
        return EveningPlanner.Plan(plant, load, solar, prices, new PlannerTerms
        {
            ReserveFraction = ReserveFraction,
            ChargesFromGrid = Integrity != IntegrityRule.SolarOnly,
            SellsFromBattery = PlansToSell && Integrity != IntegrityRule.NeverExports,
        });
    }

    internal RowRules RulesFor(Plant plant, StrategyClock clock)
    {
        ArgumentNullException.ThrowIfNull(plant);
        ArgumentNullException.ThrowIfNull(clock);
        CheckShares();
        if (!clock.Fits(this)) throw new ArgumentException("The clock was laid for a strategy with other windows.", nameof(clock));
        return new RowRules(this, plant);
    }

    private void CheckShares()
    {
        Check(ReserveFraction, nameof(ReserveFraction));
        Check(RefillFraction, nameof(RefillFraction));
        Check(Overnight?.ToFraction ?? 0, nameof(Overnight));
        Check(Sale?.DownToFraction ?? 0, nameof(Sale));
        Check(Storm?.ToFraction ?? 0, nameof(Storm));
        Check(Events?.ToFraction ?? 0, nameof(Events));
        if (!(ShaveToKw >= 0)) throw new ArgumentOutOfRangeException(nameof(ShaveToKw), ShaveToKw, "The import to hold is at least 0 kW.");

        static void Check(double share, string name)
        {
            if (!(share is >= 0 and <= 1)) throw new ArgumentOutOfRangeException(name, share, "A share of usable energy lies between 0 and 1.");
        }
    }
}
