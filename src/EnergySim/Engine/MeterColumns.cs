namespace EnergySim.Engine;

/// <summary>
/// What the site's meters saw, one value an interval, mean kW ≥ 0: the only thing that bills are made from.
/// </summary>
public sealed class MeterColumns
{
    /// <param name="count">Number of intervals.</param>
    public MeterColumns(int count) =>
        (Import, Export, Solar, Load) = (new double[count], new double[count], new double[count], new double[count]);

    /// <summary>Columns beside a ledger, sharing its import and export; its book fills them.</summary>
    internal MeterColumns(Ledger ledger)
    {
        (Import, Export) = (ledger.Columns[(int)LedgerColumn.ImportKw], ledger.Columns[(int)LedgerColumn.ExportKw]);
        (Solar, Load) = (GC.AllocateUninitializedArray<double>(Import.Length), GC.AllocateUninitializedArray<double>(Import.Length));
    }

    /// <summary>Columns of what real meters saw, of one length, mean kW ≥ 0.</summary>
    /// <param name="importKw">Bought.</param>
    /// <param name="exportKw">Sold.</param>
    /// <param name="loadKw">House and standby; asked for only where all load is bought.</param>
    /// <param name="solarKw">Solar as AC; asked for only where all solar is sold.</param>
    /// <exception cref="ArgumentException">The columns differ in length.</exception>
    public static MeterColumns Of(ReadOnlySpan<double> importKw, ReadOnlySpan<double> exportKw, ReadOnlySpan<double> loadKw, ReadOnlySpan<double> solarKw)
    {
        if (exportKw.Length != importKw.Length || loadKw.Length != importKw.Length || solarKw.Length != importKw.Length)
            throw new ArgumentException("The meter columns differ in length.", nameof(importKw));
        var columns = new MeterColumns(importKw.Length);
        importKw.CopyTo(columns.Import);
        exportKw.CopyTo(columns.Export);
        loadKw.CopyTo(columns.Load);
        solarKw.CopyTo(columns.Solar);
        return columns;
    }

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
