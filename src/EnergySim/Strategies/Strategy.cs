using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Tariffs;
using EnergySim.Time;
using NodaTime;

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

/// <summary>Charging from the grid in a window of every day.</summary>
/// <param name="Window">When, local clock.</param>
/// <param name="ToFraction">Up to which share of usable energy, 0–1.</param>
public sealed record OvernightCharge(ClockWindow Window, double ToFraction);

/// <summary>Selling from the battery in a window of every day.</summary>
/// <param name="Window">When, local clock.</param>
/// <param name="DownToFraction">Down to which share of usable energy, 0–1.</param>
public sealed record BatterySale(ClockWindow Window, double DownToFraction);

/// <summary>Filling up ahead of a storm, from the grid too, and keeping it.</summary>
/// <param name="From">Start.</param>
/// <param name="To">End.</param>
/// <param name="ToFraction">Up to which share of usable energy, 0–1.</param>
public sealed record StormPreparation(Instant From, Instant To, double ToFraction);

/// <summary>
/// What a battery is told to do. It is compiled, before a run, into <see cref="SetPoints"/>: the base rows, then overnight charging, selling,
/// storm preparation and the integrity rule, each over what stands.
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

    /// <summary>Demand shaving: the import to hold, kW ≥ 0.</summary>
    public double ShaveToKw { get; init; }

    /// <summary>Demand shaving: the share of usable energy to which the grid refills below that import, 0–1.</summary>
    public double RefillFraction { get; init; }

    /// <summary>Charging from the grid, if any.</summary>
    public OvernightCharge? Overnight { get; init; }

    /// <summary>Selling from the battery, if any.</summary>
    public BatterySale? Sale { get; init; }

    /// <summary>Planned: true when the plan may sell from the cells.</summary>
    public bool PlansToSell { get; init; }

    /// <summary>Storm preparation, if any.</summary>
    public StormPreparation? Storm { get; init; }

    /// <summary>The agreement's rule, if any.</summary>
    public IntegrityRule Integrity { get; init; }

    /// <summary>Compiles the strategy for a plant onto an axis.</summary>
    /// <param name="plant">For its lowest and highest energy.</param>
    /// <param name="axis">The intervals.</param>
    /// <param name="inTariffPeak">For each interval whether the tariff's peak window holds; needed where the strategy names no clock windows.</param>
    /// <exception cref="ArgumentException">A share lies outside 0–1, or the tariff's window is needed and missing.</exception>
    public SetPoints Compile(Plant plant, TimeAxis axis, ReadOnlySpan<bool> inTariffPeak = default) => Compile(plant, StrategyClock.Of(this, axis, inTariffPeak));

    /// <summary>Compiles the strategy for a plant, where its windows are laid onto the axis already: a few rows, and no work an interval.</summary>
    /// <param name="plant">For its lowest and highest energy.</param>
    /// <param name="clock">Made by <see cref="StrategyClock.Of"/> of a strategy with the same windows; levels and shares may differ.</param>
    /// <exception cref="ArgumentException">A share lies outside 0–1, or the clock was laid for other windows.</exception>
    public SetPoints Compile(Plant plant, StrategyClock clock)
    {
        ArgumentNullException.ThrowIfNull(plant);
        ArgumentNullException.ThrowIfNull(clock);
        CheckShares();
        if (!clock.Fits(this)) throw new ArgumentException("The clock was laid for a strategy with other windows.", nameof(clock));
        var rows = new SetPointRow[clock.Situations.Count];
        for (int r = 0; r < rows.Length; r++)
        {
            Situation now = clock.Situations[r];
            rows[r] = Row(plant, now.HasFlag(Situation.Peak), now.HasFlag(Situation.Night), now.HasFlag(Situation.Sale), now.HasFlag(Situation.Storm));
        }
        return new SetPoints(rows, clock.Picks);
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

    private SetPointRow Row(Plant plant, bool peak, bool night, bool sale, bool storm)
    {
        double Level(double share) => plant.LowestKwh + (share * plant.UsableKwh);
        double full = plant.HighestKwh, never = double.PositiveInfinity, hold = double.PositiveInfinity;
        double reserve = Level(ReserveFraction);
        SetPointRow row = Base switch
        {
            Steering.Hold => new(full, full, 0, hold, never),
            Steering.SelfUse => new(reserve, full, 0, 0, never),
            Steering.PeakWindow => new(reserve, full, 0, peak ? 0 : hold, never),
            _ => new(reserve, full, RefillFraction > 0 ? Level(RefillFraction) : 0, ShaveToKw, never),
        };
        if (night) row = row with { GridCeilingKwh = Level(Overnight!.ToFraction), ImportTargetKw = hold };
        if (sale)
        {
            double down = Level(Sale!.DownToFraction);
            row = row with { SellDownKwh = down, SolarCeilingKwh = Math.Min(row.SolarCeilingKwh, down) };
        }
        if (storm)
        {
            double level = Level(Storm!.ToFraction);
            row = new(level, full, level, hold, never);
        }
        if (Integrity == IntegrityRule.SolarOnly) row = row with { GridCeilingKwh = 0 };
        if (Integrity == IntegrityRule.NeverExports) row = row with { SellDownKwh = never };
        return row;
    }

    private void CheckShares()
    {
        Check(ReserveFraction, nameof(ReserveFraction));
        Check(RefillFraction, nameof(RefillFraction));
        Check(Overnight?.ToFraction ?? 0, nameof(Overnight));
        Check(Sale?.DownToFraction ?? 0, nameof(Sale));
        Check(Storm?.ToFraction ?? 0, nameof(Storm));
        if (!(ShaveToKw >= 0)) throw new ArgumentOutOfRangeException(nameof(ShaveToKw), ShaveToKw, "The import to hold is at least 0 kW.");

        static void Check(double share, string name)
        {
            if (!(share is >= 0 and <= 1)) throw new ArgumentOutOfRangeException(name, share, "A share of usable energy lies between 0 and 1.");
        }
    }
}
