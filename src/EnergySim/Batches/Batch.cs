using EnergySim.Engine;
using EnergySim.Tariffs;
using EnergySim.Time;

namespace EnergySim.Batches;

/// <summary>
/// Runs many variants of a home on one axis, side by side in the lanes of the processor, and keeps sums. A variant gives the same bits here as
/// in a run of its own, whatever stands beside it and on however many cores.
/// </summary>
public sealed class Batch
{
    private readonly BatchLayout _layout;
    private readonly Func<LaneWorker> _newWorker;
    private readonly Stack<LaneWorker> _idle = new();

    /// <param name="axis">The intervals of all series and rows.</param>
    /// <param name="calendars">The plans that the meters are summed for, on that axis; may be empty.</param>
    /// <param name="keeps">What is kept.</param>
    /// <exception cref="ArgumentException">A calendar is on another axis.</exception>
    public Batch(TimeAxis axis, IReadOnlyList<TariffCalendar> calendars, BatchKeeps keeps = BatchKeeps.Meters)
        : this(axis, calendars, keeps, Lanes)
    {
    }

    /// <summary>A batch whose lanes are so many, whatever the processor has.</summary>
    internal Batch(TimeAxis axis, IReadOnlyList<TariffCalendar> calendars, BatchKeeps keeps, int width)
    {
        ArgumentNullException.ThrowIfNull(axis);
        ArgumentNullException.ThrowIfNull(calendars);
        foreach (TariffCalendar calendar in calendars)
            if (!calendar.Axis.IsSameAs(axis)) throw new ArgumentException($"{calendar.Tariff.Name} is laid on another axis.", nameof(calendars));
        Axis = axis;
        Calendars = [.. calendars];
        _layout = new BatchLayout(axis, Calendars, keeps);
        _newWorker = width switch
        {
            8 => () => new LaneWorker<Lanes8>(_layout),
            4 => () => new LaneWorker<Lanes4>(_layout),
            1 => () => new LaneWorker<Scalar>(_layout),
            _ => throw new ArgumentOutOfRangeException(nameof(width), width, "Lanes are 1, 4 or 8 wide."),
        };
    }

    /// <summary>How many variants go side by side on this processor.</summary>
    public static int Lanes => LaneWidth.Best;

    /// <summary>The intervals.</summary>
    public TimeAxis Axis { get; }

    /// <summary>The plans.</summary>
    public IReadOnlyList<TariffCalendar> Calendars { get; }

    /// <summary>Room for the sums of one variant, to be filled as often as one likes.</summary>
    public VariantSums NewSums() => new(Calendars, _layout.Keeps == BatchKeeps.Flows ? new RunFlows() : null);

    /// <summary>Runs variants on this core. Nothing is allocated once a call of the kind has been made. May be called on several threads at once.</summary>
    /// <param name="variants">The variants, checked by <see cref="Variant.Check"/> before; otherwise this throws.</param>
    /// <param name="into">Where the sums go, one a variant.</param>
    /// <exception cref="ArgumentException">Another number of sums than variants, or a variant that does not pass its check.</exception>
    public void Run(ReadOnlySpan<Variant> variants, ReadOnlySpan<VariantSums> into)
    {
        if (variants.Length != into.Length) throw new ArgumentException($"{into.Length} sums for {variants.Length} variants.", nameof(into));
        foreach (Variant variant in variants) variant.Check(Axis);
        LaneWorker? worker;
        lock (_idle) _idle.TryPop(out worker);
        worker ??= _newWorker();
        worker.Run(variants, into);
        lock (_idle) _idle.Push(worker);
    }

    /// <summary>Runs variants on several cores: each takes stretches of them by index, so that the number of cores changes nothing but the time.</summary>
    /// <param name="variants">The variants.</param>
    /// <param name="into">Where the sums go, one a variant.</param>
    /// <param name="cores">How many cores, ≥ 1.</param>
    /// <exception cref="ArgumentException">As on one core.</exception>
    public void Run(ReadOnlyMemory<Variant> variants, ReadOnlyMemory<VariantSums> into, int cores)
    {
        if (variants.Length != into.Length) throw new ArgumentException($"{into.Length} sums for {variants.Length} variants.", nameof(into));
        ArgumentOutOfRangeException.ThrowIfLessThan(cores, 1);
        // Whole groups of lanes, as many at a time as go in turns where there are enough.
        int stretch = Math.Min(InTurns.Most * Lanes, Lanes * ((variants.Length + (cores * Lanes) - 1) / (cores * Lanes)));
        if (variants.Length > 0) Parallel.For(0, (variants.Length + stretch - 1) / stretch, new ParallelOptions { MaxDegreeOfParallelism = cores }, n =>
        {
            int from = n * stretch, count = Math.Min(stretch, variants.Length - from);
            Run(variants.Span.Slice(from, count), into.Span.Slice(from, count));
        });
    }
}
