using System.Globalization;
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
    /// <exception cref="ArgumentException">The series are not on one axis, the set-points have another length, or a number is out of range.</exception>
    public Run(
        Profile load, Profile? solarDc, Profile? solarAc, Plant plant, SiteLimits site, SetPoints? setPoints, double? startKwh = null, bool offGrid = false)
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
        if (startKwh is double start && !(start >= plant.LowestKwh - Step.ToleranceKwh && start <= plant.HighestKwh + Step.ToleranceKwh))
            throw new ArgumentOutOfRangeException(nameof(startKwh), start, string.Create(CultureInfo.InvariantCulture, $"The start lies between {plant.LowestKwh} and {plant.HighestKwh} kWh."));
        StartKwh = startKwh;
        IsOffGrid = offGrid;
        _constants = new StepConstants<Scalar>(plant, site, load.Axis.StepHours, offGrid);
        _rows = new StepRow<Scalar>[SetPoints.Rows.Length];
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

    /// <summary>The intervals.</summary>
    public TimeAxis Axis => Load.Axis;

    /// <summary>Runs and keeps sums. Nothing is allocated per interval.</summary>
    /// <param name="meter">Columns to fill, to reuse them; null = new ones.</param>
    public RunSums Sums(MeterColumns? meter = null)
    {
        meter ??= new MeterColumns(Axis.Count);
        if (meter.Import.Length != Axis.Count) throw new ArgumentException("The meter columns have another length than the axis.", nameof(meter));
        double start = StartEnergy(meter);
        var book = new SumsBook();
        (double end, UnservedByCause unserved) = Walk(0, start, meter, ref book);
        return new RunSums(in book, start, end, Axis.StepHours, unserved, meter);
    }

    /// <summary>Runs and records every flow of every interval.</summary>
    public Ledger Ledger()
    {
        var meter = new MeterColumns(Axis.Count);
        double start = StartEnergy(meter);
        var ledger = new Ledger(Axis);
        var book = new LedgerBook(ledger);
        (double end, UnservedByCause unserved) = Walk(0, start, meter, ref book);
        ledger.Sums = new RunSums(in book.Sums, start, end, Axis.StepHours, unserved, meter);
        return ledger;
    }

    private double StartEnergy(MeterColumns meter)
    {
        if (StartKwh is double start) return Math.Clamp(start, Plant.LowestKwh, Plant.HighestKwh);
        if (IsOffGrid) return Plant.LowestKwh;
        int from = Math.Max(0, Axis.Count - (WarmUpHours * 60 / Axis.StepMinutes));
        var book = new NoBook();
        return Walk(from, _rows[SetPoints.Picks[from]].FloorKwh.Value, meter, ref book).EndKwh;
    }

    private (double EndKwh, UnservedByCause UnservedKwh) Walk<TBook>(int from, double startKwh, MeterColumns meter, ref TBook book)
        where TBook : struct, IBook<Scalar> =>
        IsOffGrid ? WalkOffGrid(from, startKwh, ref book) : (WalkOnGrid(from, startKwh, meter, ref book), default);

    [MethodImpl(MethodImplOptions.NoInlining)]
    private double WalkOnGrid<TBook>(int from, double startKwh, MeterColumns meter, ref TBook book) where TBook : struct, IBook<Scalar>
    {
        ReadOnlySpan<double> load = Load.Kw, dc = SolarDc.Kw, ac = SolarAc.Kw;
        ReadOnlySpan<int> picks = SetPoints.Picks;
        ReadOnlySpan<StepRow<Scalar>> rows = _rows;
        var stored = new Scalar(startKwh);
        var metered = new MeteredBook<TBook>(book, meter, from);
        for (int i = from; i < load.Length; i++)
            Step.OnGrid(in _constants, in rows[picks[i]], new Scalar(load[i]), new Scalar(dc[i]), new Scalar(ac[i]), ref stored, ref metered);
        book = metered.Inner;
        return stored.Value;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private (double EndKwh, UnservedByCause UnservedKwh) WalkOffGrid<TBook>(int from, double startKwh, ref TBook book) where TBook : struct, IBook<Scalar>
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
                in _constants, in rows[picks[i]], new Scalar(load[i]), new Scalar(dc[i]), new Scalar(ac[i]), ref stored, ref dark, ref pending, ref book);
            unserved.Add(in now, Axis.StepHours);
        }
        return (stored.Value, unserved);
    }

    private Profile OnAxis(Profile? profile, string name)
    {
        if (profile is null) return Profile.Zero(Load.Axis);
        if (!profile.Axis.IsSameAs(Load.Axis)) throw new ArgumentException("The series is not on the load's axis.", name);
        return profile;
    }

    private struct NoBook : IBook<Scalar>
    {
        public readonly void Cut(LimitSite site, Scalar withheldKw) { }

        public readonly void Flow(LedgerColumn column, Scalar value) { }

        public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) { }

        public readonly void Close() { }
    }

    // Writes down what the meters see, in front of the book that keeps the rest.
    private struct MeteredBook<TBook>(TBook inner, MeterColumns meter, int index) : IBook<Scalar>
        where TBook : struct, IBook<Scalar>
    {
        public TBook Inner = inner;
        private readonly double[] _import = meter.Import, _export = meter.Export, _solar = meter.Solar, _load = meter.Load;
        private int _index = index;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Cut(LimitSite site, Scalar withheldKw) => Inner.Cut(site, withheldKw);

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Flow(LedgerColumn column, Scalar value) => Inner.Flow(column, value);

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw)
        {
            _import[_index] = importKw.Value;
            _export[_index] = exportKw.Value;
            _load[_index] = loadKw.Value;
            _solar[_index] = solarKw.Value;
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Close()
        {
            _index++;
            Inner.Close();
        }
    }
}
