using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Strategies;

namespace EnergySim.Batches;

/// <summary>
/// The set-point rows of variants side by side. Where all change at the same times the rows are laid out once; else a row is put together
/// whenever one of them changes.
/// </summary>
internal sealed class LaneRows<T> where T : struct, ILane<T>
{
    private readonly SetPoints[] _setPoints = new SetPoints[T.Count];
    private readonly Plant[] _plants = new Plant[T.Count];
    private readonly StepRow<Scalar>[] _now = new StepRow<Scalar>[T.Count];
    private readonly int[] _nextChange = new int[T.Count];
    private StepRow<T>[] _rows = new StepRow<T>[4];
    private bool _shared;
    private int _current;

    /// <summary>The row that holds.</summary>
    public ref readonly StepRow<T> Current => ref _rows[_current];

    /// <summary>Takes other variants, one a lane.</summary>
    public void Take(ReadOnlySpan<Variant> variants)
    {
        _shared = true;
        for (int lane = 0; lane < T.Count; lane++)
        {
            (_setPoints[lane], _plants[lane]) = (variants[lane].SetPoints, variants[lane].Plant);
            _shared &= ReferenceEquals(_setPoints[lane].Clock, _setPoints[0].Clock) && _setPoints[lane].Rows.Length == _setPoints[0].Rows.Length;
        }
        if (!_shared) return;
        int count = _setPoints[0].Rows.Length;
        if (_rows.Length < count) _rows = new StepRow<T>[count];
        for (int r = 0; r < count; r++)
        {
            for (int lane = 0; lane < T.Count; lane++) _now[lane] = new StepRow<Scalar>(_setPoints[lane].Rows[r], _plants[lane]);
            _rows[r] = new StepRow<T>(_now);
        }
    }

    /// <summary>Begins at an interval.</summary>
    /// <returns>The interval at which another row holds.</returns>
    public int Begin(int at)
    {
        for (int lane = 0; lane < T.Count; lane++)
        {
            // The first change that lies beyond.
            int next = Array.BinarySearch(_setPoints[lane].Clock.Changes, at);
            _nextChange[lane] = next < 0 ? ~next : next;
            if (_shared) break;
            PutRow(lane, at);
        }
        return Change(at);
    }

    /// <summary>Changes to the row that holds at an interval where one does.</summary>
    /// <returns>The interval at which another row holds.</returns>
    public int Change(int at)
    {
        int until = int.MaxValue;
        for (int lane = 0; lane < T.Count; lane++)
        {
            int[] changes = _setPoints[lane].Clock.Changes;
            if (changes[_nextChange[lane]] == at)
            {
                _nextChange[lane]++;
                if (!_shared) PutRow(lane, at);
            }
            until = Math.Min(until, changes[_nextChange[lane]]);
            if (_shared) break;
        }
        if (_shared)
        {
            _current = _setPoints[0].Clock.RowOf[at];
        }
        else
        {
            _current = 0;
            _rows[0] = new StepRow<T>(_now);
        }
        return until;
    }

    private void PutRow(int lane, int at) => _now[lane] = new StepRow<Scalar>(_setPoints[lane][at], _plants[lane]);
}
