using System.Runtime.CompilerServices;
using EnergySim.Billing;
using EnergySim.Engine;

namespace EnergySim.Batches;

/// <summary>Runs variants in lanes, with buffers that are used again.</summary>
internal abstract class LaneWorker
{
    /// <summary>Runs variants one group of lanes after another.</summary>
    public abstract void Run(ReadOnlySpan<Variant> variants, ReadOnlySpan<VariantSums> into);
}

/// <summary>The worker over one lane type. Two groups go in lockstep: while one waits for a number, the other computes.</summary>
internal sealed class LaneWorker<T> : LaneWorker where T : struct, ILane<T>
{
    private readonly BatchLayout _layout;
    private readonly LaneGroup<T>[] _groups = new LaneGroup<T>[2];
    private readonly MeterSummer<T>[][] _summers = new MeterSummer<T>[2][];
    private readonly LaneFlows<T>[] _flows = new LaneFlows<T>[2];

    public LaneWorker(BatchLayout layout)
    {
        _layout = layout;
        for (int g = 0; g < _groups.Length; g++)
        {
            _groups[g] = new LaneGroup<T>(layout.LongestBlock);
            _summers[g] = [.. layout.Calendars.Select(c => new MeterSummer<T>(c))];
            _flows[g] = new LaneFlows<T>();
        }
    }

    /// <inheritdoc/>
    public override void Run(ReadOnlySpan<Variant> variants, ReadOnlySpan<VariantSums> into)
    {
        while (!variants.IsEmpty)
        {
            int count = Math.Min(variants.Length, 2 * T.Count);
            RunGroups(variants[..count], into[..count]);
            variants = variants[count..];
            into = into[count..];
        }
    }

    private void RunGroups(ReadOnlySpan<Variant> variants, ReadOnlySpan<VariantSums> into)
    {
        int groups = variants.Length > T.Count ? 2 : 1;
        for (int g = 0; g < groups; g++)
        {
            _groups[g].Take(variants[(g * T.Count)..], _layout.Axis.StepHours);
            _flows[g].Clear();
            foreach (MeterSummer<T> summer in _summers[g]) summer.Clear();
        }
        Span<LaneGroup<T>> active = _groups.AsSpan(0, groups);
        if (active[0].WarmsUp || active[^1].WarmsUp) Walk(active, _layout.WarmUpFrom, warmUp: true);
        foreach (LaneGroup<T> group in active) group.StartAsStated();
        for (int v = 0; v < into.Length; v++) into[v].StartKwh = LaneGroup<T>.Lanes(ref active[v / T.Count].StoredKwh)[v % T.Count];
        Walk(active, 0, warmUp: false);
        for (int v = 0; v < into.Length; v++) TakeSums(v / T.Count, v % T.Count, into[v]);
    }

    private void TakeSums(int group, int lane, VariantSums into)
    {
        into.EndKwh = LaneGroup<T>.Lanes(ref _groups[group].StoredKwh)[lane];
        for (int c = 0; c < _summers[group].Length; c++) _summers[group][c].CopyTo(lane, into.MeterArray[c]);
        if (_layout.KeepsFlows) _flows[group].CopyTo(lane, into.Flows, _layout.Axis.StepHours);
    }

    private void Walk(Span<LaneGroup<T>> groups, int from, bool warmUp)
    {
        bool shares = true;
        int change = int.MaxValue;
        foreach (LaneGroup<T> group in groups)
        {
            shares &= group.SharesSeries;
            change = Math.Min(change, group.Rows.Begin(from));
            if (warmUp) group.StartAtFloor();
        }
        foreach (int end in _layout.BlockEnds)
        {
            if (end <= from) continue;
            if (!shares)
                foreach (LaneGroup<T> group in groups) group.LayOwn(from, end);
            WalkBlock(groups, shares, warmUp, from, end, ref change);
            if (!warmUp)
                for (int g = 0; g < groups.Length; g++) Sum(g, from, end - from);
            from = end;
        }
    }

    private void Sum(int group, int from, int count)
    {
        LaneColumns<T> columns = _groups[group].Columns;
        foreach (MeterSummer<T> summer in _summers[group])
            summer.Add(from, columns.Import.AsSpan(0, count), columns.Export.AsSpan(0, count), columns.Load.AsSpan(0, count), columns.Solar.AsSpan(0, count));
    }

    private void WalkBlock(Span<LaneGroup<T>> groups, bool shares, bool warmUp, int from, int until, ref int change)
    {
        LaneGroup<T> one = groups[0], two = groups[^1];
        if (warmUp)
        {
            SilentBook<T> none = default;
            WalkRows(groups, shares, from, until, ref change, none, none);
        }
        else if (_layout.KeepsFlows) WalkRows(groups, shares, from, until, ref change, new FlowsBook<T>(one.Columns, _flows[0]), new FlowsBook<T>(two.Columns, _flows[1]));
        else if (_layout.KeepsGross) WalkRows(groups, shares, from, until, ref change, new GrossBook<T>(one.Columns), new GrossBook<T>(two.Columns));
        else WalkRows(groups, shares, from, until, ref change, new NetBook<T>(one.Columns), new NetBook<T>(two.Columns));
    }

    // From change to change of a row.
    private void WalkRows<TBook>(Span<LaneGroup<T>> groups, bool shares, int from, int until, ref int change, TBook bookOne, TBook bookTwo)
        where TBook : struct, IBook<T>
    {
        LaneGroup<T> one = groups[0], two = groups[^1];
        while (from < until)
        {
            int end = Math.Min(change, until);
            if (groups.Length == 1)
            {
                if (shares) Go(one, in one.Shared, from, end, ref bookOne);
                else Go(one, in one.Own, from, end, ref bookOne);
            }
            else if (shares) GoTwo(one, two, in one.Shared, in two.Shared, from, end, ref bookOne, ref bookTwo);
            else GoTwo(one, two, in one.Own, in two.Own, from, end, ref bookOne, ref bookTwo);
            from = end;
            if (from != change || from == _layout.Axis.Count) continue;
            change = int.MaxValue;
            foreach (LaneGroup<T> group in groups) change = Math.Min(change, group.Rows.Change(from));
        }
    }

    private static void Go<TInput, TBook>(LaneGroup<T> group, in TInput input, int from, int until, ref TBook book)
        where TInput : struct, IInput<T> where TBook : struct, IBook<T>
    {
        GridUp<T> grid = default;
        Step.Walk(in group.Constants, in group.Rows.Current, in input, from, until, ref grid, ref group.StoredKwh, ref book);
    }

    // Interval by interval in turns.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void GoTwo<TInput, TBook>(
        LaneGroup<T> one, LaneGroup<T> two, in TInput inputOne, in TInput inputTwo, int from, int until, ref TBook bookOne, ref TBook bookTwo)
        where TInput : struct, IInput<T> where TBook : struct, IBook<T>
    {
        GridUp<T> grid = default;
        ref readonly StepRow<T> rowOne = ref one.Rows.Current, rowTwo = ref two.Rows.Current;
        for (int i = from; i < until; i++)
        {
            Step.Walk(in one.Constants, in rowOne, in inputOne, i, i + 1, ref grid, ref one.StoredKwh, ref bookOne);
            Step.Walk(in two.Constants, in rowTwo, in inputTwo, i, i + 1, ref grid, ref two.StoredKwh, ref bookTwo);
        }
    }
}
