using EnergySim.Economics;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.Outages;

namespace EnergySim.Studies.Sweeps;

/// <summary>
/// Works out the rows of a sweep, any stretch of them at a time. Variants that share load, solar and plan are run side by side, and runs that
/// are the same are made once. A row depends on its variant alone, whatever stands beside it and on however many cores.
/// </summary>
public sealed class SweepStudy
{
    /// <summary>Variants read and run together: enough to fill the lanes of all cores, few enough for memory.</summary>
    private const int Slice = 512;

    /// <summary>Series that are kept for the variants to come.</summary>
    private const int KeptSeries = 8;

    private readonly Func<PlannedVariant, SweptHome> _homeOf;
    private readonly bool _needsFlows;
    private readonly List<SweepSeries> _kept = [];

    /// <param name="plan">The plan.</param>
    /// <param name="offers">Names of the offers of all homes.</param>
    /// <param name="homeOf">Reads a variant's home; asked on several threads. It should hand out the same load, solar and plan objects where variants share them.</param>
    /// <exception cref="ArgumentException">The plan's design does not fit.</exception>
    public SweepStudy(SweepPlan plan, IReadOnlyList<string> offers, Func<PlannedVariant, SweptHome> homeOf)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(offers);
        ArgumentNullException.ThrowIfNull(homeOf);
        Variants = new SweepVariants(plan);
        _homeOf = homeOf;
        Columns = ColumnsOf(plan, offers);
        _needsFlows = plan.Outputs.Any(o => o.Measure.Source == MeasureSource.Flows);
        AsksLifetime = plan.Outputs.Any(o => o.Measure.Source == MeasureSource.Lifetime);
        AsksOutages = plan.Outputs.Any(o => o.Measure.Source == MeasureSource.Outages);
    }

    /// <summary>The variants.</summary>
    public SweepVariants Variants { get; }

    /// <summary>The columns of outputs.</summary>
    public IReadOnlyList<SweepColumn> Columns { get; }

    private bool AsksLifetime { get; }

    private bool AsksOutages { get; }

    /// <summary>Rows of a stretch of variants, in order.</summary>
    /// <param name="from">The first variant.</param>
    /// <param name="count">How many.</param>
    /// <param name="cores">How many cores, ≥ 1.</param>
    /// <param name="stop">Asks to stop; what was begun is then given up.</param>
    /// <exception cref="OperationCanceledException">It was asked to stop.</exception>
    public IReadOnlyList<SweepRow> Rows(int from, int count, int cores, CancellationToken stop = default)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(cores, 1);
        var rows = new SweepRow[count];
        for (int at = 0; at < count; at += Slice)
        {
            stop.ThrowIfCancellationRequested();
            RunSlice(from + at, rows.AsMemory(at, Math.Min(Slice, count - at)), cores, stop);
        }
        return rows;
    }

    /// <summary>The columns that a plan's outputs make.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="offers">Names of the offers of all homes.</param>
    public static IReadOnlyList<SweepColumn> ColumnsOf(SweepPlan plan, IReadOnlyList<string> offers)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return [.. plan.Outputs.SelectMany(o => (o.Offer is string one ? [one] : o.Measure.HasAsItIs ? [Installation.AsItIs, .. offers] : offers)
            .Select(name => new SweepColumn($"{PathName.Of(name)}.{o.Measure.Name}", name, o.Measure))).DistinctBy(c => c.Name)];
    }

    private void RunSlice(int from, Memory<SweepRow> rows, int cores, CancellationToken stop)
    {
        var read = new (PlannedVariant Variant, SweptHome Home)[rows.Length];
        var each = new ParallelOptions { MaxDegreeOfParallelism = cores, CancellationToken = stop };
        Parallel.For(0, read.Length, each, i =>
        {
            PlannedVariant variant = Variants[from + i];
            read[i] = (variant, _homeOf(variant));
        });
        var groups = Enumerable.Range(0, read.Length).Where(i => read[i].Home.Error is null).GroupBy(i => SeriesKey.Of(read[i].Home.Home)).Select(g => g.ToArray()).ToArray();
        for (int i = 0; i < read.Length; i++)
            if (read[i].Home.Error is string error) rows.Span[i] = Failed(read[i].Variant, error);
        // A few large groups are spread over the cores within; many small ones are spread as they are.
        if (groups.Length <= cores) foreach (int[] group in groups) RunGroup(group, cores);
        else Parallel.ForEach(groups, each, group => RunGroup(group, 1));

        void RunGroup(int[] group, int coresWithin)
        {
            SweepSeries series;
            try
            {
                series = SeriesOf(read[group[0]].Home.Home);
            }
            catch (ArgumentException fault)
            {
                foreach (int i in group) rows.Span[i] = Failed(read[i].Variant, Sentence(fault));
                return;
            }
            var runs = new SweptRuns(series);
            foreach (int i in group)
                if (runs.Add(read[i].Home.Home) is string error) rows.Span[i] = Failed(read[i].Variant, error);
            runs.Run(coresWithin);
            Parallel.For(0, group.Length, new ParallelOptions { MaxDegreeOfParallelism = coresWithin, CancellationToken = stop }, n =>
            {
                int i = group[n];
                if (rows.Span[i] is null) rows.Span[i] = RowOf(read[i].Variant, read[i].Home, runs);
            });
        }
    }

    private SweepSeries SeriesOf(Home home)
    {
        var key = SeriesKey.Of(home);
        lock (_kept)
        {
            if (_kept.FindIndex(s => s.Key == key) is >= 0 and var at)
            {
                SweepSeries found = _kept[at];
                _kept.RemoveAt(at);
                _kept.Add(found);
                return found;
            }
        }
        var made = new SweepSeries(home, null, _needsFlows);
        lock (_kept)
        {
            _kept.Add(made);
            if (_kept.Count > KeptSeries) _kept.RemoveAt(0);
        }
        return made;
    }

    private SweepRow RowOf(PlannedVariant variant, SweptHome swept, SweptRuns runs)
    {
        try
        {
            Home home = swept.Home;
            LifetimeMoney? money = AsksLifetime ? MoneyOf(home) : null;
            OutageResult? outages = AsksOutages ? OutageStudy.Of(home, swept.Outage) : null;
            var offers = new Dictionary<string, SweptOffer>(StringComparer.Ordinal);
            SweptRun asItIs = runs.Of(null, home.Service), before = asItIs;
            for (int i = -1; i < home.Offers.Count; i++)
            {
                Offer? offer = i < 0 ? null : home.Offers[i];
                SweptRun run = runs.Of(offer, home.Service);
                offers.Add(offer?.Name ?? Installation.AsItIs, new SweptOffer
                {
                    Home = home,
                    Offer = offer,
                    Plant = run.Case.Plant,
                    ClippedKwh = run.ClippedKwh,
                    Bill = run.Bill,
                    AsItIsBill = asItIs.Bill,
                    BillBefore = before.Bill,
                    Flows = run.Flows,
                    Money = i < 0 ? null : money?.Offers[i],
                    Outages = i < 0 ? null : outages?.Offers[i],
                });
                before = run;
            }
            return new SweepRow(variant, [.. Columns.Select(c => offers.TryGetValue(c.Offer, out SweptOffer? at) ? c.Measure.Of(at) : null)], null);
        }
        catch (Exception fault) when (fault is ArgumentException or MissingAssumptionsException)
        {
            return Failed(variant, Sentence(fault));
        }
    }

    private static LifetimeMoney MoneyOf(Home home)
    {
        MoneyTerms terms = home.Money.InNominal();
        return LifetimeMoney.Of(LifetimeRuns.Of(home, terms), terms, LifetimeRuns.PlanOf(home, terms));
    }

    private SweepRow Failed(PlannedVariant variant, string error) => new(variant, new double?[Columns.Count], error);

    internal static string Sentence(Exception fault) => fault.Message.Split('\n')[0].Trim();
}
