using System.Collections.Concurrent;
using System.Globalization;
using EnergySim.Batches;
using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Sweeps;

/// <summary>What variants must have in common to be run side by side: load, solar, tariff and account.</summary>
internal readonly record struct SeriesKey(Profile Load, HomeSolar? Solar, Tariff Tariff, string Account)
{
    public static SeriesKey Of(Home home) => new(
        home.Load, home.Solar, home.Tariff, string.Create(CultureInfo.InvariantCulture, $"{string.Join(' ', home.Account.ReadDates)}; {home.Account.Anniversary}"));
}

/// <summary>A run that is asked for by one variant or more, and what it came to.</summary>
internal sealed class SweptRun
{
    public required Variant Case { get; init; }

    public required double ClippedKwh { get; init; }

    public decimal Bill { get; set; }

    public RunFlows? Flows { get; set; }
}

/// <summary>Series that many variants share, with the plan laid onto them once; runs what is asked of them side by side.</summary>
internal sealed class SweepSeries
{
    private readonly SiteSeries _site;
    private readonly Batch _batch;
    private readonly List<VariantSums> _sums = [];

    /// <param name="home">A home with these series.</param>
    /// <param name="calendar">Its plan, laid; null = to be laid.</param>
    /// <param name="keepsFlows">True to keep the sums of every flow.</param>
    /// <exception cref="ArgumentException">The plan does not fit the axis.</exception>
    public SweepSeries(Home home, TariffCalendar? calendar, bool keepsFlows)
    {
        Key = SeriesKey.Of(home);
        _site = new SiteSeries(home, calendar ?? new TariffCalendar(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw));
        _batch = new Batch(home.Load.Axis, [_site.Calendar], keepsFlows ? BatchKeeps.Flows : BatchKeeps.Meters);
        KeepsFlows = keepsFlows;
    }

    public SeriesKey Key { get; }

    public TariffCalendar Calendar => _site.Calendar;

    private bool KeepsFlows { get; }

    /// <summary>The run of an offer, or of the home as it is.</summary>
    /// <exception cref="ArgumentException">It can not be run.</exception>
    public SweptRun RunOf(Offer? offer, Service service)
    {
        (Variant variant, double clippedKwh) = offer is null ? _site.AsItIs(service) : _site.Of(offer, service);
        variant.Check(Calendar.Axis);
        return new SweptRun { Case = variant, ClippedKwh = clippedKwh };
    }

    /// <summary>Runs and bills; each run stands for itself, so that the number of cores changes nothing.</summary>
    public void Run(IReadOnlyList<SweptRun> runs, int cores)
    {
        // Room for flows is read after the runs; sums of meters are billed and used again.
        while (_sums.Count < runs.Count) _sums.Add(_batch.NewSums());
        VariantSums[] into = KeepsFlows ? [.. runs.Select(_ => _batch.NewSums())] : [.. _sums.Take(runs.Count)];
        Variant[] cases = [.. runs.Select(r => r.Case)];
        if (cores == 1) _batch.Run(cases, into);
        else _batch.Run(cases, into, cores);
        var each = new ParallelOptions { MaxDegreeOfParallelism = cores };
        Parallel.ForEach(Partitioner.Create(0, runs.Count), each, range =>
        {
            for (int i = range.Item1; i < range.Item2; i++)
            {
                runs[i].Bill = Biller.Total(into[i].Meters[0]);
                if (KeepsFlows) runs[i].Flows = into[i].Flows;
            }
        });
    }
}
