using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Tariffs;

namespace EnergySim.Batches;

/// <summary>What a batch keeps of one variant. Made by <see cref="Batch.NewSums"/>, and filled anew by each <c>Run</c> it is handed to.</summary>
public sealed class VariantSums
{
    private readonly RunFlows? _flows;

    internal VariantSums(IReadOnlyList<TariffCalendar> calendars, RunFlows? flows)
    {
        MeterArray = [.. calendars.Select(c => new MeterSums(c))];
        _flows = flows;
    }

    /// <summary>What the meters saw, one a calendar of the batch, in its order: <c>Biller.Bill(sums.Meters[0])</c>, or <c>Biller.Total</c> where only that is asked.</summary>
    public IReadOnlyList<MeterSums> Meters => MeterArray;

    /// <summary>Energy in the cells at the start of the span, kWh.</summary>
    public double StartKwh { get; internal set; }

    /// <summary>Energy in the cells at its end, kWh.</summary>
    public double EndKwh { get; internal set; }

    /// <summary>What the cells gave to house and grid, kWh AC; 0 where the batch keeps meters only.</summary>
    public double GivenKwh { get; internal set; }

    /// <summary>The sums of flows and limits.</summary>
    /// <exception cref="InvalidOperationException">The batch does not keep them.</exception>
    public RunFlows Flows => _flows ?? throw new InvalidOperationException("The batch keeps no flows: make it with BatchKeeps.Flows.");

    internal MeterSums[] MeterArray { get; }
}
