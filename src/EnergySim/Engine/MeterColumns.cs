namespace EnergySim.Engine;

/// <summary>
/// What the site's meters saw, one value an interval, mean kW ≥ 0: the only thing that bills are made from.
/// </summary>
public sealed class MeterColumns
{
    /// <param name="count">Number of intervals.</param>
    public MeterColumns(int count) =>
        (Import, Export, Solar, Load) = (new double[count], new double[count], new double[count], new double[count]);

    /// <summary>Bought.</summary>
    public ReadOnlySpan<double> ImportKw => Import;

    /// <summary>Sold.</summary>
    public ReadOnlySpan<double> ExportKw => Export;

    /// <summary>Solar put to use or sold, as AC: AC solar not curtailed + ηinv × DC solar neither clipped nor curtailed.</summary>
    public ReadOnlySpan<double> SolarKw => Solar;

    /// <summary>What the house and the plant's standby drew.</summary>
    public ReadOnlySpan<double> LoadKw => Load;

    internal double[] Load { get; }

    internal double[] Import { get; }

    internal double[] Export { get; }

    internal double[] Solar { get; }
}
