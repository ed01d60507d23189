using System.Runtime.CompilerServices;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Time;
using EnergySim.Wiring;

namespace EnergySim.Engine;

/// <summary>
/// A plant, behind its wiring, steered by set-points through load and solar. <see cref="Sums"/> keeps sums only; <see cref="Ledger"/> records
/// every flow. Both walk the same step.
/// </summary>
public sealed class Run
{
    /// <summary>The part of the span, at its end, that is run first so that the start energy is one the set-points lead to, h.</summary>
    public const int WarmUpHours = 336;

    private readonly StepConstants<Scalar> _constants;
    private readonly StepRow<Scalar>[] _rows;

    /// <param name="load">The house, kW AC.</param>
    /// <param name="solarDc">DC solar at the battery inverter's inputs; null = none.</param>
    /// <param name="solarAc">AC of a separate solar inverter; null = none.</param>
    /// <param name="plant">The equipment.</param>
    /// <param name="site">The wiring.</param>
    /// <param name="setPoints">What is wanted, one row an interval; null = the outage row throughout.</param>
    /// <param name="startKwh">Energy at the start, kWh; null = what the last 336 h of the span lead to (off the grid: the lowest).</param>
    /// <param name="offGrid">True when the grid is down for the whole span.</param>
    /// <param name="rules">What else holds off the grid; the outage row then holds throughout. Null = the plain step.</param>
    /// <exception cref="ArgumentException">The series are not on one axis, rules stand without an outage or beside set-points, the set-points have another length, or a number is out of range.</exception>
    public Run(
        Profile load, Profile? solarDc, Profile? solarAc, Plant plant, SiteLimits site, SetPoints? setPoints, double? startKwh = null, bool offGrid = false,
        OutageRules? rules = null)
    {
        ArgumentNullException.ThrowIfNull(load);
        ArgumentNullException.ThrowIfNull(plant);
        ArgumentNullException.ThrowIfNull(site);
        Load = load;
        SolarDc = OnAxis(solarDc, nameof(solarDc));
        SolarAc = OnAxis(solarAc, nameof(solarAc));
        Plant = plant;
        Site = site;
        SetPoints = setPoints ?? SetPoints.Always(SetPoints.Outage(plant), load.Axis.Count);
        if (SetPoints.Count != load.Axis.Count)
            throw new ArgumentException($"{SetPoints.Count} set-point rows for {load.Axis.Count} intervals.", nameof(setPoints));
        if (startKwh is double start) plant.CheckLevel(start);
        StartKwh = startKwh;
        IsOffGrid = offGrid;
        _constants = new StepConstants<Scalar>(plant, site, load.Axis.StepHours, offGrid);
        _rows = new StepRow<Scalar>[SetPoints.Rows.Length];
        if (rules is { IsNone: false })
        {
            if (!offGrid || setPoints is not null) throw new ArgumentException("Outage rules hold off the grid, with the outage's own set-points.", nameof(rules));
            foreach (SheddableLoad part in rules.Sheddable) OnAxis(part.Load, part.Name);
            Rules = rules;
            Island = new Island(plant, site, rules, load.Axis.StepHours);
        }
        for (int i = 0; i < _rows.Length; i++) _rows[i] = new StepRow<Scalar>(SetPoints.Rows[i], plant);
    }

    /// <summary>The house.</summary>
    public Profile Load { get; }

    /// <summary>DC solar at the battery inverter's inputs.</summary>
    public Profile SolarDc { get; }

    /// <summary>AC of a separate solar inverter.</summary>
    public Profile SolarAc { get; }

    /// <summary>The equipment.</summary>
    public Plant Plant { get; }

    /// <summary>The wiring.</summary>
    public SiteLimits Site { get; }

    /// <summary>What is wanted.</summary>
    public SetPoints SetPoints { get; }

    /// <summary>Stated start energy, or null for the warm-up.</summary>
    public double? StartKwh { get; }

    /// <summary>True when the grid is down.</summary>
    public bool IsOffGrid { get; }

    /// <summary>What else holds off the grid; <see cref="OutageRules.None"/> = the plain step.</summary>
    public OutageRules Rules { get; } = OutageRules.None;

    /// <summary>The walker under <see cref="Rules"/>; null = the plain step.</summary>
    internal Island? Island { get; }

    /// <summary>The intervals.</summary>
    public TimeAxis Axis => Load.Axis;

    /// <summary>Runs and keeps sums. Nothing is allocated per interval.</summary>
    /// <param name="meter">Columns to fill, to reuse them; null = new ones.</param>
    public RunSums Sums(MeterColumns? meter = null)
    {
        meter ??= new MeterColumns(Axis.Count);
        if (meter.Import.Length != Axis.Count) throw new ArgumentException("The meter columns have another length than the axis.", nameof(meter));
        double start = StartEnergy();
        var book = new SumsBook(meter);
        Walked walked = Walk(0, start, ref book);
        return SumsOf(in book, start, walked, meter);
    }

    /// <summary>Runs and records every flow of every interval.</summary>
    public Ledger Ledger()
    {
        var ledger = new Ledger(Axis);
        // On the grid two of the meters' columns are the ledger's own; off it the ledger's import is a generator's.
        MeterColumns meter = IsOffGrid ? new MeterColumns(Axis.Count) : new MeterColumns(ledger);
        double start = StartEnergy();
        var book = new LedgerBook(ledger, meter);
        Walked walked = Walk(0, start, ref book);
        ledger.Sums = SumsOf(in book.Sums, start, walked, meter);
        return ledger;
    }

    /// <summary>Runs on the grid; gives what the cells hold at each interval's start, kWh.</summary>
    /// <param name="meter">Columns to fill with what the meters see.</param>
    internal double[] Held(MeterColumns meter)
    {
        double[] held = new double[Axis.Count];
        held[0] = StartEnergy();
        var book = new HeldBook(held, meter);
        Walk(0, held[0], ref book);
        return held;
    }

    private RunSums SumsOf(in SumsBook book, double startKwh, Walked walked, MeterColumns meter) =>
        new(in book, startKwh, walked.EndKwh, Axis.StepHours, walked.UnservedKwh, meter) { ShedKwh = walked.ShedKwh };

    private double StartEnergy()
    {
        if (StartKwh is double start) return Math.Clamp(start, Plant.LowestKwh, Plant.HighestKwh);
        if (IsOffGrid) return Plant.LowestKwh;
        int from = Math.Max(0, Axis.Count - (WarmUpHours * 60 / Axis.StepMinutes));
        var book = new NoBook();
        return Walk(from, _rows[SetPoints.Picks[from]].FloorKwh.Value, ref book).EndKwh;
    }

    private Walked Walk<TBook>(int from, double startKwh, ref TBook book) where TBook : struct, IBook<Scalar>
    {
        if (!IsOffGrid) return new Walked(WalkOnGrid(from, startKwh, ref book), default, 0);
        return Island is null ? WalkOffGrid(from, startKwh, ref book) : WalkIsland(Island, from, startKwh, ref book);
    }

    private double WalkOnGrid<TBook>(int from, double startKwh, ref TBook book) where TBook : struct, IBook<Scalar>
    {
        PickedRows clock = SetPoints.Clock;
        var input = new SeriesInput(Load.Array, SolarDc.Array, SolarAc.Array);
        var stored = new Scalar(startKwh);
        GridUp<Scalar> grid = default;
        foreach (int change in clock.Changes)
        {
            if (change <= from) continue;
            Step.Walk(in _constants, in _rows[clock.RowOf[from]], in input, from, change, ref grid, ref stored, ref book);
            from = change;
        }
        return stored.Value;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private Walked WalkOffGrid<TBook>(int from, double startKwh, ref TBook book) where TBook : struct, IBook<Scalar>
    {
        ReadOnlySpan<double> load = Load.Kw, dc = SolarDc.Kw, ac = SolarAc.Kw;
        ReadOnlySpan<int> picks = SetPoints.Picks;
        ReadOnlySpan<StepRow<Scalar>> rows = _rows;
        var stored = new Scalar(startKwh);
        var pending = new PendingBook();
        var unserved = new UnservedByCause();
        Darkness dark = Darkness.None;
        for (int i = from; i < load.Length; i++)
        {
            UnservedByCause now = OffGrid.Interval(
                in _constants, in rows[picks[i]], new Scalar(load[i]), new Scalar(dc[i]), new Scalar(ac[i]), Restart.ByRule, ref stored, ref dark, ref pending, ref book);
            unserved.Add(in now, Axis.StepHours);
        }
        return new Walked(stored.Value, unserved, 0);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private Walked WalkIsland<TBook>(Island island, int from, double startKwh, ref TBook book) where TBook : struct, IBook<Scalar>
    {
        ReadOnlySpan<double> load = Load.Kw, dc = SolarDc.Kw, ac = SolarAc.Kw;
        var stored = new Scalar(startKwh);
        var pending = new PendingBook();
        var unserved = new UnservedByCause();
        double shedKwh = 0;
        IslandState state = island.Start;
        for (int i = from; i < load.Length; i++)
        {
            UnservedByCause now = island.Interval(i, load[i], dc[i], ac[i], ref stored, ref state, ref pending, ref book, out double shedKw);
            unserved.Add(in now, Axis.StepHours);
            shedKwh += shedKw * Axis.StepHours;
        }
        return new Walked(stored.Value, unserved, shedKwh);
    }

    private Profile OnAxis(Profile? profile, string name)
    {
        if (profile is null) return Profile.Zero(Load.Axis);
        if (!profile.Axis.IsSameAs(Load.Axis)) throw new ArgumentException("The series is not on the load's axis.", name);
        return profile;
    }

    // What a walk leaves behind it beside its book.
    private readonly record struct Walked(double EndKwh, UnservedByCause UnservedKwh, double ShedKwh);
}
