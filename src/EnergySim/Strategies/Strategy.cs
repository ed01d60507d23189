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
    public SetPoints Compile(Plant plant, TimeAxis axis, ReadOnlySpan<bool> inTariffPeak = default)
    {
        ArgumentNullException.ThrowIfNull(plant);
        ArgumentNullException.ThrowIfNull(axis);
        CheckShares();
        if (Base == Steering.Planned) throw new ArgumentException("A planned strategy is compiled from the home's series and prices.");
        bool clockPeak = PeakWindows.Count > 0;
        if (Base == Steering.PeakWindow && !clockPeak && inTariffPeak.Length != axis.Count)
            throw new ArgumentException("A peak-window strategy without clock windows needs the tariff's.", nameof(inTariffPeak));

        var rows = new List<SetPointRow>();
        var rowOfSituation = new int[32];
        Array.Fill(rowOfSituation, -1);
        var picks = new int[axis.Count];
        for (int i = 0; i < picks.Length; i++)
        {
            int minute = axis.LocalMinuteOf(i);
            bool peak = Base == Steering.PeakWindow && (clockPeak ? AnyContains(PeakWindows, minute) : inTariffPeak[i]);
            bool night = Overnight is not null && Overnight.Window.Contains(minute);
            bool sale = Sale is not null && Sale.Window.Contains(minute);
            bool storm = Storm is not null && axis.StartOf(i) is var at && at >= Storm.From && at < Storm.To;
            int situation = (peak ? 1 : 0) + (night ? 2 : 0) + (sale ? 4 : 0) + (storm ? 8 : 0);
            if (rowOfSituation[situation] < 0)
            {
                rowOfSituation[situation] = rows.Count;
                rows.Add(Row(plant, peak, night, sale, storm));
            }
            picks[i] = rowOfSituation[situation];
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

    private static bool AnyContains(IReadOnlyList<ClockWindow> windows, int minute)
    {
        foreach (ClockWindow window in windows)
            if (window.Contains(minute)) return true;
        return false;
    }
}
