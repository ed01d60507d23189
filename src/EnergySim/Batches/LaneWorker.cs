using EnergySim.Billing;
using EnergySim.Engine;

namespace EnergySim.Batches;

/// <summary>Runs variants in lanes, with buffers that are used again.</summary>
internal abstract class LaneWorker
{
    /// <summary>Runs variants one group of lanes after another.</summary>
    public abstract void Run(ReadOnlySpan<Variant> variants, ReadOnlySpan<VariantSums> into);
}

/// <summary>The worker over one lane type. Two groups go in turns: while one waits for a number, the other computes.</summary>
internal sealed class LaneWorker<T> : LaneWorker where T : struct, ILane<T>
{
    private static readonly int s_most = T.Count == 1 ? 1 : 2;

    private readonly BatchLayout _layout;
    private readonly LaneGroup<T>[] _groups = new LaneGroup<T>[s_most];
    private readonly LaneColumns<T>[] _columns = new LaneColumns<T>[s_most];
    private readonly MeterSummer<T>[][] _summers = new MeterSummer<T>[s_most][];
    private readonly LaneFlows<T>[] _flows = new LaneFlows<T>[s_most];

    // What the step takes of each group: constants, the row that holds, series shared or of each lane's own, energy in the cells (kWh).
    private InTurns<StepConstants<T>> _constants;
    private InTurns<StepRow<T>> _rows;
    private InTurns<SharedInput<T>> _shared;
    private InTurns<OwnInput<T>> _own;
    private InTurns<T> _storedKwh;
    private bool _sharesSeries;

    public LaneWorker(BatchLayout layout)
    {
        _layout = layout;
        for (int g = 0; g < s_most; g++)
        {
            _groups[g] = new LaneGroup<T>();
            _columns[g] = new LaneColumns<T>(layout.LongestBlock);
            _own[g] = new OwnInput<T> { Load = new T[layout.LongestBlock], SolarDc = new T[layout.LongestBlock], SolarAc = new T[layout.LongestBlock] };
            _summers[g] = [.. layout.Calendars.Select(c => new MeterSummer<T>(c))];
            _flows[g] = new LaneFlows<T>();
        }
    }

    /// <inheritdoc/>
    public override void Run(ReadOnlySpan<Variant> variants, ReadOnlySpan<VariantSums> into)
    {
        while (!variants.IsEmpty)
        {
            int count = Math.Min(variants.Length, s_most * T.Count);
            RunGroups(variants[..count], into[..count]);
            variants = variants[count..];
            into = into[count..];
        }
    }

    private void RunGroups(ReadOnlySpan<Variant> variants, ReadOnlySpan<VariantSums> into)
    {
        int groups = (variants.Length + T.Count - 1) / T.Count;
        bool warmsUp = false;
        _sharesSeries = true;
        for (int g = 0; g < groups; g++)
        {
            _constants[g] = _groups[g].Take(variants[(g * T.Count)..], _layout.Axis.StepHours);
            _sharesSeries &= _groups[g].TrySharedSeries(out _shared[g]);
            warmsUp |= _groups[g].WarmsUp;
            _flows[g].Clear();
            foreach (MeterSummer<T> summer in _summers[g]) summer.Clear();
        }
        if (warmsUp) Walk(groups, _layout.WarmUpFrom, warmUp: true);
        for (int g = 0; g < groups; g++) _groups[g].StartAsStated(ref _storedKwh[g]);
        for (int v = 0; v < into.Length; v++) into[v].StartKwh = StoredOf(v);
        Walk(groups, 0, warmUp: false);
        for (int v = 0; v < into.Length; v++) TakeSums(v, into[v]);
    }

    private double StoredOf(int variant) => LaneGroup<T>.Lanes(ref _storedKwh[variant / T.Count])[variant % T.Count];

    private void TakeSums(int variant, VariantSums into)
    {
        (int group, int lane) = Math.DivRem(variant, T.Count);
        into.EndKwh = StoredOf(variant);
        for (int c = 0; c < _summers[group].Length; c++) _summers[group][c].CopyTo(lane, into.MeterArray[c]);
        into.GivenKwh = _flows[group].GivenKwh(lane, _layout.Axis.StepHours);
        if (_layout.Keeps == BatchKeeps.Flows) _flows[group].CopyTo(lane, into.Flows, _layout.Axis.StepHours);
    }

    private void Walk(int groups, int from, bool warmUp)
    {
        int change = int.MaxValue;
        for (int g = 0; g < groups; g++)
        {
            change = Math.Min(change, _groups[g].Rows.Begin(from));
            _rows[g] = _groups[g].Rows.Current;
            if (warmUp) _storedKwh[g] = _rows[g].FloorKwh;
        }
        foreach (int end in _layout.BlockEnds)
        {
            if (end <= from) continue;
            if (!_sharesSeries)
                for (int g = 0; g < groups; g++) _groups[g].LayOwn(ref _own[g], from, end);
            WalkBlock(groups, warmUp, from, end, ref change);
            if (!warmUp)
                for (int g = 0; g < groups; g++) Sum(g, from, end - from);
            from = end;
        }
    }

    private void Sum(int group, int from, int count)
    {
        LaneColumns<T> columns = _columns[group];
        foreach (MeterSummer<T> summer in _summers[group])
            summer.Add(from, columns.Import.AsSpan(0, count), columns.Export.AsSpan(0, count), columns.Load.AsSpan(0, count), columns.Solar.AsSpan(0, count));
    }

    private void WalkBlock(int groups, bool warmUp, int from, int until, ref int change)
    {
        if (warmUp)
        {
            InTurns<SilentBook<T>> none = default;
            WalkRows(groups, from, until, ref change, ref none);
        }
        else if (_layout.Keeps == BatchKeeps.Flows)
        {
            InTurns<FlowsBook<T>> books = default;
            for (int g = 0; g < groups; g++) books[g] = new FlowsBook<T>(_columns[g], _flows[g]);
            WalkRows(groups, from, until, ref change, ref books);
        }
        else if (_layout.Keeps == BatchKeeps.GivenEnergy)
        {
            InTurns<GivenBook<T>> books = default;
            for (int g = 0; g < groups; g++) books[g] = new GivenBook<T>(_columns[g], _flows[g]);
            WalkRows(groups, from, until, ref change, ref books);
        }
        else if (_layout.KeepsGross)
        {
            InTurns<GrossBook<T>> books = default;
            for (int g = 0; g < groups; g++) books[g] = new GrossBook<T>(_columns[g]);
            WalkRows(groups, from, until, ref change, ref books);
        }
        else
        {
            InTurns<NetBook<T>> books = default;
            for (int g = 0; g < groups; g++) books[g] = new NetBook<T>(_columns[g]);
            WalkRows(groups, from, until, ref change, ref books);
        }
    }

    // From change to change of a row.
    private void WalkRows<TBook>(int groups, int from, int until, ref int change, ref InTurns<TBook> books) where TBook : struct, IBook<T>
    {
        while (from < until)
        {
            int end = Math.Min(change, until);
            GridUp<T> grid = default;
            if (_sharesSeries) Step.Walk(in _constants[0], in _rows[0], in _shared[0], from, end, ref grid, ref _storedKwh[0], ref books[0], groups);
            else Step.Walk(in _constants[0], in _rows[0], in _own[0], from, end, ref grid, ref _storedKwh[0], ref books[0], groups);
            from = end;
            if (from != change || from == _layout.Axis.Count) continue;
            change = int.MaxValue;
            for (int g = 0; g < groups; g++)
            {
                change = Math.Min(change, _groups[g].Rows.Change(from));
                _rows[g] = _groups[g].Rows.Current;
            }
        }
    }
}
