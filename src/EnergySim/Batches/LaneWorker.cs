using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Tariffs;

namespace EnergySim.Batches;

/// <summary>Runs variants in lanes, with buffers that are used again.</summary>
internal abstract class LaneWorker
{
    /// <summary>Runs variants one group of lanes after another.</summary>
    public abstract void Run(ReadOnlySpan<Variant> variants, ReadOnlySpan<VariantSums> into);
}

/// <summary>The worker over one lane type. Groups go in turns: while one waits for a number, the others compute.</summary>
internal sealed class LaneWorker<T> : LaneWorker where T : struct, ILane<T>
{
    private static readonly int s_most = T.Count == 1 ? 1 : InTurns.Most;

    private readonly BatchLayout _layout;
    private readonly LaneGroup<T>[] _groups = new LaneGroup<T>[s_most];
    private readonly LaneColumns<T>[] _columns = new LaneColumns<T>[s_most];
    private readonly MeterSummer<T>[][] _summers = new MeterSummer<T>[s_most][];
    private readonly LaneFlows<T>[] _flows = new LaneFlows<T>[s_most];

    private readonly LaneRows<T> _rows = new(s_most);

    // What the step takes of each group beside its row: constants, series shared or of each lane's own, energy in the cells (kWh).
    private readonly StepConstants<T>[] _constants = CacheLines.NewArray<StepConstants<T>>(s_most);
    private readonly SharedInput<T>[] _shared = CacheLines.NewArray<SharedInput<T>>(s_most);
    private readonly OwnInput<T>[] _own = new OwnInput<T>[s_most];
    private readonly T[] _storedKwh = CacheLines.NewArray<T>(s_most);
    private readonly BucketBook<T>[] _books = CacheLines.NewArray<BucketBook<T>>(s_most);
    private bool _sharesSeries;

    public LaneWorker(BatchLayout layout)
    {
        _layout = layout;
        for (int g = 0; g < s_most; g++)
        {
            _groups[g] = new LaneGroup<T>();
            _columns[g] = new LaneColumns<T>(layout.OneCalendar is null ? layout.LongestBlock : 0);
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
        _rows.Take(variants);
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
        if (_layout.OneCalendar is TariffCalendar calendar) WalkBuckets(groups, calendar);
        else Walk(groups, 0, warmUp: false);
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
        int change = _rows.Begin(from);
        if (warmUp)
            for (int g = 0; g < groups; g++) _storedKwh[g] = _rows.Current[g].FloorKwh;
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

    // Bucket by bucket, if need be in several stretches.
    private void WalkBuckets(int groups, TariffCalendar calendar)
    {
        double[] prices = calendar.ExportPrices.PricePerKwh[0];
        int change = _rows.Begin(0);
        foreach (BucketRun run in calendar.Runs)
        {
            for (int g = 0; g < groups; g++) _books[g] = new BucketBook<T>(prices, run.Start);
            for (int from = run.Start, end = run.Start + run.Length; from < end;)
            {
                int until = Math.Min(end, from + _layout.LongestBlock);
                if (!_sharesSeries)
                    for (int g = 0; g < groups; g++) _groups[g].LayOwn(ref _own[g], from, until);
                WalkRows(groups, from, until, ref change, ref _books[0]);
                from = until;
            }
            for (int g = 0; g < groups; g++) _summers[g][0].AddStretch(run.Bucket, in _books[g].ImportKw, in _books[g].ExportKw, in _books[g].Value);
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
            WalkRows(groups, from, until, ref change, ref none[0]);
        }
        else if (_layout.Keeps == BatchKeeps.Flows)
        {
            InTurns<FlowsBook<T>> books = default;
            for (int g = 0; g < groups; g++) books[g] = new FlowsBook<T>(_columns[g], _flows[g]);
            WalkRows(groups, from, until, ref change, ref books[0]);
        }
        else if (_layout.Keeps == BatchKeeps.GivenEnergy)
        {
            InTurns<GivenBook<T>> books = default;
            for (int g = 0; g < groups; g++) books[g] = new GivenBook<T>(_columns[g], _flows[g]);
            WalkRows(groups, from, until, ref change, ref books[0]);
        }
        else if (_layout.KeepsGross)
        {
            InTurns<GrossBook<T>> books = default;
            for (int g = 0; g < groups; g++) books[g] = new GrossBook<T>(_columns[g]);
            WalkRows(groups, from, until, ref change, ref books[0]);
        }
        else
        {
            InTurns<NetBook<T>> books = default;
            for (int g = 0; g < groups; g++) books[g] = new NetBook<T>(_columns[g]);
            WalkRows(groups, from, until, ref change, ref books[0]);
        }
    }

    // From change to change of a row.
    private void WalkRows<TBook>(int groups, int from, int until, ref int change, ref TBook books) where TBook : struct, IBook<T>
    {
        while (from < until)
        {
            int end = Math.Min(change, until);
            GridUp<T> grid = default;
            if (_sharesSeries) Step.Walk(in _constants[0], in _rows.Current[0], in _shared[0], from, end, ref grid, ref _storedKwh[0], ref books, groups);
            else Step.Walk(in _constants[0], in _rows.Current[0], in _own[0], from, end, ref grid, ref _storedKwh[0], ref books, groups);
            from = end;
            if (from == change && from < _layout.Axis.Count) change = _rows.Change(from);
        }
    }
}
