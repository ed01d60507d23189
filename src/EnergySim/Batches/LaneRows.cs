using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Strategies;

namespace EnergySim.Batches;

/// <summary>
/// The set-point rows of groups of variants side by side; those that hold at one time lie one group after another, as the step takes them. Where
/// all change at the same times they are laid out once; else a group's is put together whenever that of one of its lanes changes.
/// </summary>
/// <param name="most">The most groups.</param>
internal sealed class LaneRows<T>(int most) where T : struct, ILane<T>
{
    private readonly SetPoints[] _setPoints = new SetPoints[most * T.Count];
    private readonly Plant[] _plants = new Plant[most * T.Count];
    private readonly StepRow<Scalar>[] _now = new StepRow<Scalar>[most * T.Count];
    private readonly int[] _nextChange = new int[most * T.Count];
    private StepRow<T>[] _rows = CacheLines.NewArray<StepRow<T>>(4 * most);
    private int _groups, _current;
    private bool _shared;

    /// <summary>The rows that hold, one a group.</summary>
    public ReadOnlySpan<StepRow<T>> Current => _rows.AsSpan(_current, _groups);

    /// <summary>Takes other variants, one a lane; the last stands in the lanes that are left over.</summary>
    public void Take(ReadOnlySpan<Variant> variants)
    {
        _groups = (variants.Length + T.Count - 1) / T.Count;
        _shared = true;
        for (int lane = 0; lane < _groups * T.Count; lane++)
        {
            Variant variant = variants[Math.Min(lane, variants.Length - 1)];
            (_setPoints[lane], _plants[lane]) = (variant.SetPoints, variant.Plant);
            _shared &= ReferenceEquals(_setPoints[lane].Clock, _setPoints[0].Clock) && _setPoints[lane].Rows.Length == _setPoints[0].Rows.Length;
        }
        if (!_shared) return;
        int count = _setPoints[0].Rows.Length;
        if (_rows.Length < count * _groups) _rows = CacheLines.NewArray<StepRow<T>>(count * _groups);
        for (int r = 0; r < count; r++)
        {
            for (int lane = 0; lane < _groups * T.Count; lane++) _now[lane] = new StepRow<Scalar>(_setPoints[lane].Rows[r], _plants[lane]);
            for (int g = 0; g < _groups; g++) Put(g, into: (r * _groups) + g);
        }
    }

    /// <summary>Begins at an interval.</summary>
    /// <returns>The interval at which another row holds.</returns>
    public int Begin(int at)
    {
        for (int lane = 0; lane < _groups * T.Count; lane++)
        {
            // The first change that lies beyond.
            int next = Array.BinarySearch(_setPoints[lane].Clock.Changes, at);
            _nextChange[lane] = next < 0 ? ~next : next;
            if (_shared) break;
            _now[lane] = new StepRow<Scalar>(_setPoints[lane][at], _plants[lane]);
        }
        if (!_shared)
            for (int g = 0; g < _groups; g++) Put(g, into: g);
        return Change(at);
    }

    /// <summary>Changes to the rows that hold at an interval where any does.</summary>
    /// <returns>The interval at which another row holds.</returns>
    public int Change(int at)
    {
        if (_shared)
        {
            PickedRows clock = _setPoints[0].Clock;
            _current = clock.RowOf[at] * _groups;
            if (clock.Changes[_nextChange[0]] == at) _nextChange[0]++;
            return clock.Changes[_nextChange[0]];
        }
        _current = 0;
        int until = int.MaxValue;
        for (int g = 0; g < _groups; g++)
        {
            bool changes = false;
            for (int lane = g * T.Count; lane < (g + 1) * T.Count; lane++)
            {
                int[] all = _setPoints[lane].Clock.Changes;
                if (all[_nextChange[lane]] == at)
                {
                    _nextChange[lane]++;
                    _now[lane] = new StepRow<Scalar>(_setPoints[lane][at], _plants[lane]);
                    changes = true;
                }
                until = Math.Min(until, all[_nextChange[lane]]);
            }
            if (changes) Put(g, into: g);
        }
        return until;
    }

    private void Put(int group, int into) => _rows[into] = new StepRow<T>(_now.AsSpan(group * T.Count, T.Count));
}
