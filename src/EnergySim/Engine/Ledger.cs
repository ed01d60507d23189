using EnergySim.Time;

namespace EnergySim.Engine;

/// <summary>The number columns of a ledger, in order. All mean kW ≥ 0 over the interval, but stored energy: kWh at its end.</summary>
public enum LedgerColumn
{
    /// <summary>What the house uses, AC.</summary>
    LoadKw,

    /// <summary>The plant's own consumption, AC.</summary>
    StandbyKw,

    /// <summary>DC solar at the inputs before they clip.</summary>
    SolarDcKw,

    /// <summary>AC of the separate solar inverter.</summary>
    SolarAcKw,

    /// <summary>DC solar above what the inputs take.</summary>
    ClippedInputKw,

    /// <summary>DC solar to the house, AC.</summary>
    SolarDcToLoadKw,

    /// <summary>AC solar to the house.</summary>
    SolarAcToLoadKw,

    /// <summary>DC solar to the cells, DC at their terminals.</summary>
    SolarDcToCellsKw,

    /// <summary>AC solar to the cells, DC at their terminals.</summary>
    SolarAcToCellsKw,

    /// <summary>Grid to the cells, DC at their terminals.</summary>
    GridToCellsKw,

    /// <summary>AC drawn by the rectifier.</summary>
    InverterInKw,

    /// <summary>AC put out by the inverter.</summary>
    InverterOutKw,

    /// <summary>Cells to the house, AC.</summary>
    CellsToLoadKw,

    /// <summary>Cells to the grid, AC.</summary>
    CellsToGridKw,

    /// <summary>Solar to the grid, AC.</summary>
    SolarToGridKw,

    /// <summary>DC solar not used, DC.</summary>
    CurtailedDcKw,

    /// <summary>AC solar not used.</summary>
    CurtailedAcKw,

    /// <summary>Bought at the meter.</summary>
    ImportKw,

    /// <summary>Sold at the meter.</summary>
    ExportKw,

    /// <summary>Off the grid: house load not served.</summary>
    UnservedKw,

    /// <summary>On the grid: import above the cap.</summary>
    OverloadKw,

    /// <summary>Energy in the cells at the interval's end, kWh.</summary>
    StoredKwh,

    /// <summary>1 while dark, else 0.</summary>
    Dark,
}

/// <summary>Every flow of every interval of a run, in columns.</summary>
public sealed class Ledger
{
    /// <summary>Number of columns.</summary>
    public const int ColumnCount = 23;

    private static readonly string[] s_names =
    [
        "load_kw", "standby_kw", "solar_dc_kw", "solar_ac_kw", "clipped_input_kw", "solar_dc_to_load_kw", "solar_ac_to_load_kw",
        "solar_dc_to_cells_kw", "solar_ac_to_cells_kw", "grid_to_cells_kw", "inverter_in_kw", "inverter_out_kw", "cells_to_load_kw",
        "cells_to_grid_kw", "solar_to_grid_kw", "curtailed_dc_kw", "curtailed_ac_kw", "import_kw", "export_kw", "unserved_kw",
        "overload_kw", "stored_kwh", "dark",
    ];

    internal readonly double[][] Columns = new double[ColumnCount][];
    internal readonly ulong[] Sites;

    // Its book clears what it fills.
    internal Ledger(TimeAxis axis)
    {
        Axis = axis;
        for (int c = 0; c < ColumnCount; c++) Columns[c] = GC.AllocateUninitializedArray<double>(axis.Count);
        Sites = GC.AllocateUninitializedArray<ulong>(axis.Count);
    }

    /// <summary>The intervals.</summary>
    public TimeAxis Axis { get; }

    /// <summary>The sums of the same run.</summary>
    public RunSums Sums { get; internal set; } = null!;

    /// <summary>One column, a value an interval.</summary>
    public ReadOnlySpan<double> this[LedgerColumn column] => Columns[(int)column];

    /// <summary>The name of a column in files (ENGINE §5).</summary>
    public static string NameOf(LedgerColumn column) => s_names[(int)column];

    /// <summary>True when a limit bound at that site of the step in the interval.</summary>
    public bool Bound(int index, LimitSite site) => (Sites[index] >> (int)site & 1) != 0;

    /// <summary>Names of the limits that bound in an interval, each once, in order, joined by <c>;</c>.</summary>
    public string LimitsOf(int index) => Limits.NamesOf(Sites[index]);
}
