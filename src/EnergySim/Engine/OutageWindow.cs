using System.Buffers;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace EnergySim.Engine;

/// <summary>
/// The intervals of one outage in a ring that the next outage, one interval later, goes on with: the state after each, what was unserved in
/// each, and the sums of all.
/// </summary>
internal sealed class OutageWindow
{
    // All bytes that hold the flag.
    private static readonly SearchValues<byte> s_unserved = Holding(Fault.Unserved), s_energy = Holding(Fault.Energy);

    private readonly int _horizon;
    private readonly double[] _storedAfter;
    private readonly Darkness[] _darkAfter;
    private readonly IslandState[] _stateAfter;
    private readonly double[] _unservedKw;
    private readonly Fault[] _faults;
    private double _sumKw;
    private int _faultCount, _energyCount;

    /// <param name="horizon">Length of an outage, intervals.</param>
    /// <param name="keepsState">True when more than darkness is carried from interval to interval.</param>
    public OutageWindow(int horizon, bool keepsState)
    {
        _horizon = horizon;
        _storedAfter = new double[horizon];
        _darkAfter = new Darkness[horizon];
        _stateAfter = keepsState ? new IslandState[horizon] : [];
        _unservedKw = new double[horizon];
        _faults = new Fault[horizon];
    }

    [Flags]
    internal enum Fault : byte
    {
        None = 0,
        Unserved = 1,
        Energy = 2,
        Dark = 4,
    }

    /// <summary>Energy after each interval; NaN where no walk has been.</summary>
    public Span<double> StoredAfter => _storedAfter;

    /// <summary>Darkness after each interval.</summary>
    public Span<Darkness> DarkAfter => _darkAfter;

    /// <summary>House load not served, kW summed over the intervals.</summary>
    public double UnservedKw => _faultCount == 0 ? 0 : Math.Max(0, _sumKw);

    /// <summary>Dark intervals.</summary>
    public int DarkIntervals { get; private set; }

    /// <summary>The state after the interval of a slot, but for the stored energy.</summary>
    public IslandState StateAfter(int slot) => _stateAfter.Length > 0 ? _stateAfter[slot] : new IslandState { Dark = _darkAfter[slot] };

    /// <summary>Forgets all walks.</summary>
    public void Clear()
    {
        // NaN is equal to nothing, so nothing is taken over.
        Array.Fill(_storedAfter, double.NaN);
        Array.Clear(_unservedKw);
        Array.Clear(_faults);
        (_sumKw, _faultCount, _energyCount, DarkIntervals) = (0, 0, 0, 0);
    }

    /// <summary>Empties a slot.</summary>
    public void Forget(int slot)
    {
        Put(slot, 0, Fault.None);
        _storedAfter[slot] = double.NaN;
    }

    /// <summary>Forgets the energies after intervals that no outage to come begins before.</summary>
    public void ForgetBefore(int from, int until)
    {
        for (int at = from; at < until; at++) _storedAfter[at % _horizon] = double.NaN;
    }

    /// <summary>Puts down that nothing was unserved in some intervals, at most as many as the horizon is long.</summary>
    public void PutServed(int from, int until)
    {
        while (from < until)
        {
            int slot = from % _horizon, count = Math.Min(until - from, _horizon - slot);
            _darkAfter.AsSpan(slot, count).Clear();
            Span<Fault> faults = _faults.AsSpan(slot, count);
            for (int at = faults.IndexOfAnyExcept(Fault.None); at >= 0; at = faults.IndexOfAnyExcept(Fault.None)) Exchange(slot + at, 0, Fault.None);
            from += count;
        }
    }

    /// <summary>Puts what an interval left unserved into its slot.</summary>
    public void Put(int slot, in UnservedByCause causes, bool isDark)
    {
        double unservedKw = causes.Energy + causes.Power + causes.Trip;
        Fault fault = unservedKw > 0 ? Fault.Unserved : Fault.None;
        if (causes.Energy > 0) fault |= Fault.Energy;
        if (isDark) fault |= Fault.Dark;
        Put(slot, unservedKw, fault);
    }

    /// <summary>Puts what an interval left unserved into its slot.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Put(int slot, double unservedKw, Fault fault)
    {
        if ((fault | _faults[slot]) != Fault.None) Exchange(slot, unservedKw, fault);
    }

    /// <summary>True when the state is the one kept in the slot; keeps the new one.</summary>
    public bool IsSameAndKeeps(int slot, double storedKwh, in IslandState state)
    {
        bool same = _storedAfter[slot] == storedKwh && _stateAfter[slot] == state;
        _storedAfter[slot] = storedKwh;
        _stateAfter[slot] = state;
        return same;
    }

    /// <summary>The first interval of a walk with a fault; what was known of the walk before holds from where it was joined.</summary>
    public int First(Fault fault, int start, int joined, int last, int before)
    {
        if ((fault == Fault.Energy ? _energyCount : _faultCount) == 0) return last + 1;
        int found = Search(fault, start, joined);
        if (found <= joined) return found;
        return Search(fault, before > joined ? Math.Min(before, last) : joined + 1, last);
    }

    private int Search(Fault fault, int from, int last)
    {
        SearchValues<byte> sought = fault == Fault.Energy ? s_energy : s_unserved;
        while (from <= last)
        {
            int slot = from % _horizon, count = Math.Min(last + 1 - from, _horizon - slot);
            int at = MemoryMarshal.AsBytes(_faults.AsSpan(slot, count)).IndexOfAny(sought);
            if (at >= 0) return from + at;
            from += count;
        }
        return last + 1;
    }

    private static SearchValues<byte> Holding(Fault fault) => SearchValues.Create([.. Enumerable.Range(0, 8).Select(b => (byte)b).Where(b => ((Fault)b & fault) != 0)]);

    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Exchange(int slot, double unservedKw, Fault fault)
    {
        Fault gone = _faults[slot];
        _sumKw += unservedKw - _unservedKw[slot];
        _faultCount += (int)(fault & Fault.Unserved) - (int)(gone & Fault.Unserved);
        _energyCount += ((int)(fault & Fault.Energy) - (int)(gone & Fault.Energy)) >> 1;
        DarkIntervals += ((int)(fault & Fault.Dark) - (int)(gone & Fault.Dark)) >> 2;
        // Nothing is left: what rounding left goes too.
        if (_faultCount == 0) _sumKw = 0;
        _unservedKw[slot] = unservedKw;
        _faults[slot] = fault;
    }
}
