using System.Runtime.CompilerServices;
using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Wiring;

namespace EnergySim.Engine;

/// <summary>What an outage under <see cref="OutageRules"/> carries from one interval to the next.</summary>
internal record struct IslandState
{
    public Darkness Dark;
    public int DarkIntervals;
    public uint Shed;
    public bool GeneratorRuns;
    public double FuelKwh;
}

/// <summary>The step off the grid with what else holds there: it decides what is on, whether a restart is asked for and whether the generator runs.</summary>
internal sealed class Island
{
    private readonly OutageRules _rules;
    private readonly StepConstants<Scalar> _alone, _withGenerator;
    private readonly StepRow<Scalar> _row, _generatorRow;
    private readonly double[][] _parts;
    private readonly double _lowestKwh, _perUsableKwh, _stepHours, _generatorStepKwh;
    private readonly int _byHandIntervals;

    public Island(Plant plant, SiteLimits site, OutageRules rules, double stepHours)
    {
        rules.Validate();
        _rules = rules;
        double heldKwh = rules.HeldBackFraction * plant.UsableKwh;
        Plant above = plant with { RestartKwh = (plant.RestartKwh ?? (0.1 * plant.UsableKwh)) + heldKwh };
        _alone = new StepConstants<Scalar>(above, site, stepHours, offGrid: true);
        SetPointRow row = SetPoints.Outage(plant) with { FloorKwh = plant.LowestKwh + heldKwh };
        _row = new StepRow<Scalar>(row, plant);
        _lowestKwh = plant.LowestKwh;
        _perUsableKwh = plant.UsableKwh > 0 ? 1 / plant.UsableKwh : 0;
        _stepHours = stepHours;
        _byHandIntervals = rules.ByHandAfterHours is double hours ? (int)Math.Ceiling((hours / stepHours) - 1e-9) : int.MaxValue;
        _parts = [.. rules.Sheddable.Select(p => p.Load.Kw.ToArray())];
        if (rules.Generator is not Generator g) return;
        _withGenerator = new StepConstants<Scalar>(above, site, stepHours, offGrid: true, g.Kw, locksOutSeparateSolar: !g.RunsBesideSeparateSolar);
        double stop = plant.LowestKwh + (g.StopAboveFraction * plant.UsableKwh);
        _generatorRow = new StepRow<Scalar>(row with { GridCeilingKwh = stop, ImportTargetKw = double.PositiveInfinity }, plant);
        _generatorStepKwh = g.Kw * stepHours;
    }

    /// <summary>The state at the start of an outage.</summary>
    public IslandState Start => new() { FuelKwh = _rules.Generator?.FuelKwh ?? 0 };

    /// <summary>One interval.</summary>
    /// <param name="index">Its place in the sheddable parts' profiles.</param>
    /// <param name="loadKw">What is on whatever happens, kW AC.</param>
    /// <param name="dcKw">DC solar, kW.</param>
    /// <param name="acKw">AC of a separate solar inverter, kW.</param>
    /// <param name="storedKwh">Energy in the cells.</param>
    /// <param name="state">The rest of the state.</param>
    /// <param name="pending">Room for one interval's clamps.</param>
    /// <param name="book">Takes down clamps and flows.</param>
    /// <param name="shedKw">What is off by rule, kW.</param>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public UnservedByCause Interval<TPending, TBook>(
        int index, double loadKw, double dcKw, double acKw,
        ref Scalar storedKwh, ref IslandState state, ref TPending pending, ref TBook book, out double shedKw)
        where TPending : struct, IPendingBook
        where TBook : struct, IBook<Scalar>
    {
        double share = (storedKwh.Value - _lowestKwh) * _perUsableKwh;
        loadKw += OnOfParts(index, share, ref state, out shedKw);
        SwitchGenerator(share, ref state);
        Restart restart = AskedFor(loadKw, dcKw, acKw, ref state);
        UnservedByCause causes;
        if (state.GeneratorRuns)
        {
            causes = OffGrid.Interval(
                in _withGenerator, in _generatorRow, new Scalar(loadKw), new Scalar(dcKw), new Scalar(acKw), restart, ref storedKwh, ref state.Dark, ref pending, ref book);
            state.FuelKwh -= pending.GeneratorKw * _stepHours;
        }
        else
        {
            causes = OffGrid.Interval(
                in _alone, in _row, new Scalar(loadKw), new Scalar(dcKw), new Scalar(acKw), restart, ref storedKwh, ref state.Dark, ref pending, ref book);
        }
        if (state.Dark == Darkness.None) state.DarkIntervals = 0;
        // Counted only as far as it matters, so that two dark walks can come to the same state.
        else if (state.DarkIntervals < _byHandIntervals && _byHandIntervals != int.MaxValue) state.DarkIntervals++;
        return causes;
    }

    private double OnOfParts(int index, double share, ref IslandState state, out double shedKw)
    {
        double onKw = 0;
        shedKw = 0;
        for (int p = 0; p < _parts.Length; p++)
        {
            SheddableLoad part = _rules.Sheddable[p];
            uint bit = 1u << p;
            if (share < part.OffBelowFraction - 1e-9) state.Shed |= bit;
            else if (share >= part.OnAboveFraction - 1e-9) state.Shed &= ~bit;
            if ((state.Shed & bit) == 0) onKw += _parts[p][index];
            else shedKw += _parts[p][index];
        }
        return onKw;
    }

    private void SwitchGenerator(double share, ref IslandState state)
    {
        if (_rules.Generator is not Generator g) return;
        bool fuelled = state.FuelKwh >= _generatorStepKwh;
        if (state.GeneratorRuns) state.GeneratorRuns = fuelled && share < g.StopAboveFraction - 1e-9;
        else state.GeneratorRuns = fuelled && (state.Dark != Darkness.None || share < g.StartBelowFraction - 1e-9);
    }

    private Restart AskedFor(double loadKw, double dcKw, double acKw, ref IslandState state)
    {
        if (state.Dark == Darkness.None) return Restart.ByRule;
        if (state.GeneratorRuns) return Restart.Now;
        bool itself = state.Dark == Darkness.Trip ? _rules.RestartsAfterTrip : _rules.RestartsAfterEmpty;
        if (!itself && state.DarkIntervals < _byHandIntervals) return Restart.Never;
        return _rules.TriesWithSun && OffGrid.SunCarries(in _alone, loadKw, dcKw, acKw) ? Restart.Now : Restart.ByRule;
    }
}
