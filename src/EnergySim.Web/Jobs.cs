using System.Globalization;
using EnergySim.Bound;
using EnergySim.Files;
using EnergySim.Studies.Causes;
using EnergySim.Studies.Control;
using EnergySim.Studies.Outages;
using EnergySim.Studies.Visit;
using Microsoft.AspNetCore.Http;

namespace EnergySim.Web;

/// <summary>What long work is asked.</summary>
internal enum JobKind
{
    /// <summary>What perfect foresight would save, and how near each strategy comes.</summary>
    Bound,

    /// <summary>Every start of every year of weather, with what each reserve saves and lasts.</summary>
    Starts,

    /// <summary>The homeowner's report, PDF.</summary>
    Report,
}

/// <summary>Long work on a home.</summary>
internal sealed record JobRequest : VisitRequest
{
    /// <summary>Which.</summary>
    public required JobKind Kind { get; init; }
}

/// <summary>How far long work is.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Kind">What it is.</param>
/// <param name="State"><c>waiting</c>, <c>running</c>, <c>done</c>, <c>cancelled</c> or <c>failed</c>.</param>
/// <param name="DoneFraction">Share of its parts that are done, 0–1.</param>
/// <param name="Part">What is being done.</param>
/// <param name="Problem">Why it failed; null = it did not.</param>
internal sealed record JobState(string Id, JobKind Kind, string State, double DoneFraction, string Part, string? Problem);

/// <summary>Long work, one at a time in the background; a few results are kept.</summary>
internal sealed class Jobs(OpenHomes homes, Library library) : IDisposable
{
    private const int MostKept = 8;

    private readonly SemaphoreSlim _turn = new(1, 1);
    private readonly Lock _lock = new();
    private readonly List<Job> _jobs = [];

    /// <summary>Begins work.</summary>
    /// <exception cref="ArgumentException">The home or a choice does not fit.</exception>
    public JobState Begin(JobRequest request)
    {
        (OpenHome open, VisitHome visit) = homes.Visit(request);
        var job = new Job(request.Kind, request.Kind == JobKind.Report ? HomeownerPages.PartsOf(open, visit, request) : PartsOf(request.Kind, visit), library);
        lock (_lock)
        {
            if (_jobs.Count(j => !j.IsOver) >= MostKept) throw new ArgumentException("So much long work is waiting already; cancel some.");
            _jobs.Add(job);
            if (_jobs.Count > MostKept && _jobs.FindIndex(j => j.IsOver) is >= 0 and int old) _jobs.RemoveAt(old);
        }
        _ = Task.Run(() => job.Run(_turn));
        return job.State();
    }

    /// <exception cref="FileNotFoundException">There is no such work.</exception>
    public Job Of(string id)
    {
        lock (_lock)
        {
            return _jobs.Find(j => j.Id == id) ?? throw new FileNotFoundException($"There is no work \"{id}\".");
        }
    }

    public void Dispose()
    {
        lock (_lock)
        {
            foreach (Job job in _jobs) job.Cancel();
        }
    }

    // Each part is short enough that a cancel between two of them is soon enough.
    private static JobParts PartsOf(JobKind kind, VisitHome visit)
    {
        int count = visit.Home.Offers.Count;
        if (kind == JobKind.Bound)
        {
            var bounds = new List<BoundQuote>();
            (string, Action)[] parts = [.. Enumerable.Range(0, count).Select(i => ($"perfect foresight for {visit.Home.Offers[i].Name}", (Action)(() => bounds.AddRange(BoundStudy.Of(visit.With(i))))))];
            return new JobParts(parts, stream => StrategiesJson.Write(stream, StrategyComparison.Of(visit.Home), CauseStudy.Of(visit.Home), bounds));
        }
        OutageResult? result = null;
        ReserveFrontier? frontier = null;
        return new JobParts(
            [
                (string.Create(CultureInfo.InvariantCulture, $"every start of {visit.Terms.WeatherYears.Count + 1} years of weather"), () => result = OutageStudy.Of(visit.Home, visit.Terms, visit.Connected)),
                ("what each reserve saves and lasts", () => frontier = ReserveFrontier.Of(visit.Home, visit.Terms)),
            ],
            stream => OutageJson.Write(stream, result!, frontier));
    }
}

/// <summary>The parts of long work, in order, and what writes their result.</summary>
internal sealed record JobParts(IReadOnlyList<(string Words, Action Work)> Parts, Action<Stream> Write)
{
    /// <summary>What the result is.</summary>
    public string Type { get; init; } = "application/json";
}

/// <summary>One piece of long work.</summary>
internal sealed class Job(JobKind kind, JobParts parts, Library library) : IDisposable
{
    private readonly CancellationTokenSource _cancel = new();
    private volatile string _state = "waiting", _part = "";
    private volatile string? _problem;
    private volatile int _done;
    private byte[]? _result;

    public string Id { get; } = Guid.NewGuid().ToString("N", CultureInfo.InvariantCulture);

    public bool IsOver => _state is "done" or "cancelled" or "failed";

    public JobState State() => new(Id, kind, _state, _state == "done" ? 1 : (double)_done / parts.Parts.Count, _part, _problem);

    public void Dispose() => _cancel.Dispose();

    public JobState Cancel()
    {
        _cancel.Cancel();
        if (!IsOver) _state = "cancelled";
        return State();
    }

    public IResult Result() => _state == "done" ? Results.Bytes(_result!, parts.Type)
        : Results.Json(new RefusedAnswer([$"the work is {_state}: there is no result"]), statusCode: StatusCodes.Status409Conflict);

    public async Task Run(SemaphoreSlim turn)
    {
        try
        {
            await turn.WaitAsync(_cancel.Token).ConfigureAwait(false);
            try
            {
                _state = "running";
                foreach ((string words, Action work) in parts.Parts)
                {
                    _cancel.Token.ThrowIfCancellationRequested();
                    _part = words;
                    work();
                    _done++;
                }
                _cancel.Token.ThrowIfCancellationRequested();
                using var stream = new MemoryStream();
                parts.Write(stream);
                _result = stream.ToArray();
                _state = "done";
            }
            finally
            {
                turn.Release();
            }
        }
        catch (OperationCanceledException)
        {
            _state = "cancelled";
        }
#pragma warning disable CA1031 // Whatever it is, it is told where the work is watched.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            _problem = fault is ProblemsException problems ? string.Join(' ', library.Told(problems)) : fault.Message;
            _state = "failed";
        }
    }
}
