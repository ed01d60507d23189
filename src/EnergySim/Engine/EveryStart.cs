using System.Runtime.CompilerServices;
using EnergySim.Strategies;

namespace EnergySim.Engine;

/// <summary>
/// An outage from every interval of the axis, from a given stored energy, each walked to its horizon with the step itself; past the end of the
/// data the walk goes on at their beginning. Nothing is allocated a start.
/// </summary>
/// <remarks>
/// Two things spare work, both exact, and no start is left out. A walk that comes to the very state (energy to the last bit, darkness and the
/// rest) in which the walk of the start before was after the same interval goes on as that one did: its future is the same. And where nothing
/// depends on how much is stored, the step's last line alone is computed (<see cref="FreeIntervals"/>), for several starts side by side as long as
/// that holds for all of them (<see cref="FreeWalk"/>).
/// </remarks>
public sealed class EveryStart
{
    private readonly Run _run;
    private readonly Island? _island;
    private readonly StepConstants<Scalar> _constants;
    private readonly StepRow<Scalar> _row;
    private readonly FreeIntervals? _free;
    private readonly FreeWalk? _walk;
    private readonly double[] _together = new double[LaneWidth.Best];
    private readonly int _horizon;
    private readonly OutageWindow _window;
    private int _firstFault, _firstEnergy;

    /// <param name="offGrid">A run off the grid: the series, plant, wiring and rules of the outage. Its own start and set-points are not asked: the outage row holds.</param>
    /// <param name="horizon">Length of each outage, intervals, ≥ 1.</param>
    /// <exception cref="ArgumentException">The run is not off the grid.</exception>
    public EveryStart(Run offGrid, int horizon)
    {
        ArgumentNullException.ThrowIfNull(offGrid);
        ArgumentOutOfRangeException.ThrowIfLessThan(horizon, 1);
        if (!offGrid.IsOffGrid) throw new ArgumentException("The run is not off the grid.", nameof(offGrid));
        _run = offGrid;
        _horizon = horizon;
        _island = offGrid.Island;
        _constants = new StepConstants<Scalar>(offGrid.Plant, offGrid.Site, offGrid.Axis.StepHours, offGrid: true);
        _row = new StepRow<Scalar>(SetPoints.Outage(offGrid.Plant), offGrid.Plant);
        _free = _island is null ? new FreeIntervals(offGrid, in _constants, in _row) : null;
        _walk = _free is null ? null : FreeWalk.Of(_free);
        _window = new OutageWindow(horizon, _island is not null);
    }

    /// <summary>Walks every start.</summary>
    /// <param name="startKwh">Energy in the cells at the start of each interval, kWh; clamped to what the plant holds.</param>
    /// <exception cref="ArgumentException">Another number of starts than intervals.</exception>
    public StartOutcomes Walk(ReadOnlySpan<double> startKwh)
    {
        int count = _run.Axis.Count;
        if (startKwh.Length != count) throw new ArgumentException($"{startKwh.Length} start energies for {count} intervals.", nameof(startKwh));
        var outcomes = new StartOutcomes(count, _horizon, _run.Axis.StepHours);
        _window.Clear();
        _firstFault = _firstEnergy = 0;
        int start = 0;
        while (start < count)
        {
            int free = start + _together.Length <= count ? WalkTogether(start, startKwh) : start;
            int many = free > start ? _together.Length : 1;
            for (int s = start; s < start + many; s++)
            {
                double energy = many > 1 ? _together[s - start] : Clamped(startKwh[s]);
                WalkOne(s, free, energy, outcomes);
            }
            start += many;
        }
        return outcomes;
    }

    // Brings as many outages as there are lanes to one interval, then side by side as far as they go; gives the interval at which they stand, or
    // the start itself where they can not be brought together.
    private int WalkTogether(int start, ReadOnlySpan<double> startKwh)
    {
        int lanes = _together.Length, meet = start + lanes - 1;
        if (_walk is null || lanes == 1 || _horizon < 2 * lanes) return start;
        ReadOnlySpan<FreeIntervals.Band> bands = _free!.Bands;
        for (int lane = 0; lane < lanes; lane++)
        {
            double stored = Clamped(startKwh[start + lane]);
            for (int at = start + lane; at < meet; at++)
            {
                ref readonly FreeIntervals.Band band = ref bands[at];
                if (!(stored >= band.ServedLowestKwh && stored <= band.HighestKwh)) return start;
                stored += band.ChangeKwh;
            }
            _together[lane] = stored;
        }
        _window.ForgetBefore(start, meet);
        int until = _walk.Go(meet, start + _horizon, _together, _window.StoredAfter);
        _window.PutServed(start, until);
        return until;
    }

    private double Clamped(double kwh) => Math.Clamp(kwh, _run.Plant.LowestKwh, _run.Plant.HighestKwh);

    // Walks an outage on from an interval up to which it is known to be free and served.
    private void WalkOne(int start, int from, double storedKwh, StartOutcomes outcomes)
    {
        int last = start + _horizon - 1;
        // The slot held the start before, whose first interval is no part of this walk; it takes this walk's last one.
        if (start > 0 && from <= last) _window.Forget(last % _horizon);
        int joined = last;
        if (from <= last)
        {
            joined = Go(from, last, storedKwh, _island?.Start ?? default);
            if (joined < last)
            {
                int before = (last - 1) % _horizon;
                Go(last, last, _window.StoredAfter[before], _window.StateAfter(before));
            }
        }
        _firstFault = _window.First(OutageWindow.Fault.Unserved, start, joined, last, _firstFault);
        _firstEnergy = _window.First(OutageWindow.Fault.Energy, start, joined, last, _firstEnergy);
        outcomes.LastingIntervals[start] = _firstFault - start;
        outcomes.LastingOnEnergyIntervals[start] = _firstEnergy - start;
        outcomes.DarkIntervals[start] = _window.DarkIntervals;
        outcomes.UnservedKwh[start] = _window.UnservedKw * _run.Axis.StepHours;
    }

    // Walks from one interval to another, and stops where it has come into the walk before; returns the last interval computed.
    private int Go(int from, int last, double storedKwh, IslandState state) =>
        _island is null ? GoPlain(from, last, storedKwh, state.Dark) : GoIsland(_island, from, last, storedKwh, state);

    [MethodImpl(MethodImplOptions.NoInlining)]
    private int GoPlain(int from, int last, double storedKwh, Darkness dark)
    {
        ReadOnlySpan<FreeIntervals.Band> bands = _free!.Bands;
        Span<double> storedAfter = _window.StoredAfter;
        Span<Darkness> darkAfter = _window.DarkAfter;
        int slot = from % _horizon, i = from % bands.Length;
        for (int at = from; at <= last; at++)
        {
            ref readonly FreeIntervals.Band band = ref bands[i];
            if (storedKwh >= band.LowestKwh && storedKwh <= band.HighestKwh && dark == Darkness.None)
            {
                storedKwh += band.ChangeKwh;
                OutageWindow.Fault fault = band.UnservedKw > 0 ? OutageWindow.Fault.Unserved : OutageWindow.Fault.None;
                if (band.WantsEnergy) fault |= OutageWindow.Fault.Energy;
                _window.Put(slot, band.UnservedKw, fault);
            }
            else
            {
                storedKwh = ByTheStep(i, slot, storedKwh, ref dark);
            }
            bool same = storedAfter[slot] == storedKwh && darkAfter[slot] == dark;
            storedAfter[slot] = storedKwh;
            darkAfter[slot] = dark;
            if (same) return at;
            if (++slot == _horizon) slot = 0;
            if (++i == bands.Length) i = 0;
        }
        return last;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private double ByTheStep(int i, int slot, double storedKwh, ref Darkness dark)
    {
        var stored = new Scalar(storedKwh);
        var pending = new CauseBook();
        var book = new NoBook();
        UnservedByCause causes = OffGrid.Interval(
            in _constants, in _row, new Scalar(_run.Load.Kw[i]), new Scalar(_run.SolarDc.Kw[i]), new Scalar(_run.SolarAc.Kw[i]), Restart.ByRule,
            ref stored, ref dark, ref pending, ref book);
        _window.Put(slot, in causes, pending.IsDark);
        return stored.Value;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private int GoIsland(Island island, int from, int last, double storedKwh, IslandState state)
    {
        ReadOnlySpan<double> load = _run.Load.Kw, dc = _run.SolarDc.Kw, ac = _run.SolarAc.Kw;
        var stored = new Scalar(storedKwh);
        var pending = new CauseBook();
        var book = new NoBook();
        int slot = from % _horizon, i = from % load.Length;
        for (int at = from; at <= last; at++)
        {
            UnservedByCause causes = island.Interval(i, load[i], dc[i], ac[i], ref stored, ref state, ref pending, ref book, out _);
            _window.Put(slot, in causes, pending.IsDark);
            if (_window.IsSameAndKeeps(slot, stored.Value, in state)) return at;
            if (++slot == _horizon) slot = 0;
            if (++i == load.Length) i = 0;
        }
        return last;
    }
}
