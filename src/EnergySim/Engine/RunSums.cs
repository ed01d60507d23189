namespace EnergySim.Engine;

/// <summary>The sums of a run, kWh, hours and counts.</summary>
public sealed class RunSums
{
    internal RunSums(in SumsBook book, double startKwh, double endKwh, double stepHours, UnservedByCause unservedKwh, MeterColumns meter)
    {
        Flows.Fill(book.SumKw, book.WithheldKw, book.BoundIntervals, stepHours);
        DarkIntervals = (int)book.SumKw[(int)LedgerColumn.Dark];
        StartKwh = startKwh;
        EndKwh = endKwh;
        UnservedKwh = unservedKwh;
        Meter = meter;
    }

    /// <summary>Energy in the cells at the start of the span, kWh.</summary>
    public double StartKwh { get; }

    /// <summary>Energy in the cells at its end, kWh.</summary>
    public double EndKwh { get; }

    /// <summary>Number of dark intervals.</summary>
    public int DarkIntervals { get; }

    /// <summary>What the meters saw.</summary>
    public MeterColumns Meter { get; }

    /// <summary>House load not served, by what withheld it, kWh.</summary>
    public UnservedByCause UnservedKwh { get; }

    /// <summary>House load that was off by a rule of the outage, kWh. It was not asked for, and is not unserved.</summary>
    public double ShedKwh { get; internal init; }

    /// <summary>The sums of flows and limits.</summary>
    public RunFlows Flows { get; } = new();

    /// <inheritdoc cref="RunFlows.Kwh"/>
    public double Kwh(LedgerColumn flow) => Flows.Kwh(flow);

    /// <inheritdoc cref="RunFlows.WithheldKwh"/>
    public double WithheldKwh(LimitSite site) => Flows.WithheldKwh(site);

    /// <inheritdoc cref="RunFlows.BoundHours"/>
    public double BoundHours(Limit limit) => Flows.BoundHours(limit);
}
