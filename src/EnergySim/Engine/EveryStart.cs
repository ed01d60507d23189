using System.Runtime.CompilerServices;

namespace EnergySim.Engine;

/// <summary>
/// An outage from every interval of the axis, from a given stored energy, each walked to its horizon with the step itself; past the end of the
/// data the walk goes on at their beginning. Nothing is allocated a start.
/// </summary>
/// <remarks>
/// A walk that comes to the very state (energy to the last bit, darkness) in which the walk of the start before was after the same interval goes
/// on as that one did: its future is the same, and is not computed twice. This is exact, and no start is left out.
/// </remarks>
public sealed class EveryStart
{
    private readonly Run _run;
    private readonly StepConstants<Scalar> _constants;
    private readonly StepRow<Scalar> _row;
    private readonly int _horizon;
    private readonly double[] _storedAfter;
    private readonly double[] _unservedKw;
    private readonly Darkness[] _darkAfter;
    private readonly Fault[] _faults;

    /// <param name="offGrid">A run off the grid: the series, plant and wiring of the outage. Its own start and set-points are not asked: the outage row holds.</param>
    /// <param name="horizon">Length of each outage, intervals, ≥ 1.</param>
    /// <exception cref="ArgumentException">The run is not off the grid.</exception>
    public EveryStart(Run offGrid, int horizon)
    {
        ArgumentNullException.ThrowIfNull(offGrid);
        ArgumentOutOfRangeException.ThrowIfLessThan(horizon, 1);
        if (!offGrid.IsOffGrid) throw new ArgumentException("The run is not off the grid.", nameof(offGrid));
        _run = offGrid;
        _horizon = horizon;
        _constants = new StepConstants<Scalar>(offGrid.Plant, offGrid.Site, offGrid.Axis.StepHours, offGrid: true);
        _row = new StepRow<Scalar>(Strategies.SetPoints.Outage(offGrid.Plant), offGrid.Plant);
        _storedAfter = new double[horizon];
        _unservedKw = new double[horizon];
        _darkAfter = new Darkness[horizon];
        _faults = new Fault[horizon];
    }

    [Flags]
    private enum Fault : byte
    {
        None = 0,
        Unserved = 1,
        Energy = 2,
        Dark = 4,
    }

    /// <summary>Walks every start.</summary>
    /// <param name="startKwh">Energy in the cells at the start of each interval, kWh; clamped to what the plant holds.</param>
    /// <exception cref="ArgumentException">Another number of starts than intervals.</exception>
    public StartOutcomes Walk(ReadOnlySpan<double> startKwh)
    {
        int count = _run.Axis.Count;
        if (startKwh.Length != count) throw new ArgumentException($"{startKwh.Length} start energies for {count} intervals.", nameof(startKwh));
        var outcomes = new StartOutcomes(count, _horizon, _run.Axis.StepHours);
        var sums = new Sums();
        // No walk has been before the first: NaN is equal to nothing, so nothing is taken over.
        Array.Fill(_storedAfter, double.NaN);
        Array.Clear(_unservedKw);
        Array.Clear(_faults);
        int firstFault = 0, firstEnergy = 0;
        for (int start = 0; start < count; start++)
        {
            int slot = start % _horizon;
            double energy = Math.Clamp(startKwh[start], _run.Plant.LowestKwh, _run.Plant.HighestKwh);
            // The slot held the start before, whose first interval is no part of this walk; it takes this walk's last one.
            int last = start + _horizon - 1;
            if (start > 0)
            {
                int gone = last % _horizon;
                sums.Leave(_unservedKw[gone], _faults[gone]);
                _unservedKw[gone] = 0;
                _faults[gone] = Fault.None;
                _storedAfter[gone] = double.NaN;
            }
            int joined = Go(start, start, last, slot, energy, Darkness.None, ref sums);
            if (joined < last) Go(last, last, last, last % _horizon, _storedAfter[(last - 1) % _horizon], _darkAfter[(last - 1) % _horizon], ref sums);
            firstFault = First(Fault.Unserved, start, joined, last, firstFault);
            firstEnergy = First(Fault.Energy, start, joined, last, firstEnergy);
            outcomes.LastingIntervals[start] = firstFault - start;
            outcomes.LastingOnEnergyIntervals[start] = firstEnergy - start;
            outcomes.DarkIntervals[start] = sums.Dark;
            outcomes.UnservedKwh[start] = sums.Faults == 0 ? 0 : Math.Max(0, sums.UnservedKw) * _run.Axis.StepHours;
        }
        return outcomes;
    }

    // Walks from one interval to another, and stops where it has come into the walk before; returns the last interval computed.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private int Go(int from, int start, int last, int slot, double storedKwh, Darkness dark, ref Sums sums)
    {
        ReadOnlySpan<double> load = _run.Load.Kw, dc = _run.SolarDc.Kw, ac = _run.SolarAc.Kw;
        var stored = new Scalar(storedKwh);
        var pending = new CauseBook();
        var book = new Nothing();
        int i = from % load.Length;
        for (int at = start; at <= last; at++)
        {
            UnservedByCause causes = OffGrid.Interval(
                in _constants, in _row, new Scalar(load[i]), new Scalar(dc[i]), new Scalar(ac[i]), ref stored, ref dark, ref pending, ref book);
            double unservedKw = causes.Energy + causes.Power + causes.Trip;
            Fault fault = unservedKw > 0 ? Fault.Unserved : Fault.None;
            if (causes.Energy > 0) fault |= Fault.Energy;
            if (pending.IsDark) fault |= Fault.Dark;
            sums.Leave(_unservedKw[slot], _faults[slot]);
            sums.Enter(unservedKw, fault);
            _unservedKw[slot] = unservedKw;
            _faults[slot] = fault;
            bool same = _storedAfter[slot] == stored.Value && _darkAfter[slot] == dark;
            _storedAfter[slot] = stored.Value;
            _darkAfter[slot] = dark;
            if (same) return at;
            if (++slot == _horizon) slot = 0;
            if (++i == load.Length) i = 0;
        }
        return last;
    }

    // The first fault of this walk; what was known of the walk before still holds from where it was joined.
    private int First(Fault fault, int start, int joined, int last, int before)
    {
        int at = start;
        for (; at <= joined; at++)
            if ((_faults[at % _horizon] & fault) != 0) return at;
        if (before > joined) at = Math.Min(before, last);
        for (; at <= last; at++)
            if ((_faults[at % _horizon] & fault) != 0) return at;
        return last + 1;
    }

    private struct Sums
    {
        public double UnservedKw;
        public int Faults, Dark;

        public void Enter(double unservedKw, Fault fault)
        {
            UnservedKw += unservedKw;
            Faults += (int)(fault & Fault.Unserved);
            Dark += (int)(fault & Fault.Dark) >> 2;
            if (Faults == 0) UnservedKw = 0;
        }

        public void Leave(double unservedKw, Fault fault)
        {
            UnservedKw -= unservedKw;
            Faults -= (int)(fault & Fault.Unserved);
            Dark -= (int)(fault & Fault.Dark) >> 2;
            // Nothing is left: what rounding left goes too.
            if (Faults == 0) UnservedKw = 0;
        }
    }

    private struct Nothing : IBook<Scalar>
    {
        public readonly void Cut(LimitSite site, Scalar withheldKw) { }

        public readonly void Flow(LedgerColumn column, Scalar value) { }

        public readonly void Meter(Scalar importKw, Scalar exportKw, Scalar loadKw, Scalar solarKw) { }

        public readonly void Close() { }
    }
}
