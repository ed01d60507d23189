namespace EnergySim.Engine;

/// <summary>
/// Every flow of one interval, mean kW, all ≥ 0, and the energy at its end. The names are those of the ledger's columns.
/// </summary>
/// <typeparam name="T">One case or several.</typeparam>
internal struct Flows<T> where T : struct, ILane<T>
{
    /// <summary>What the house uses, AC.</summary>
    public T LoadKw;

    /// <summary>The plant's own consumption, AC; zero while dark.</summary>
    public T StandbyKw;

    /// <summary>DC solar at the inputs before they clip.</summary>
    public T SolarDcKw;

    /// <summary>AC of the separate solar inverter.</summary>
    public T SolarAcKw;

    /// <summary>DC solar above what the inputs take.</summary>
    public T ClippedInputKw;

    /// <summary>DC solar to the house through the inverter, AC.</summary>
    public T SolarDcToLoadKw;

    /// <summary>AC solar to the house, AC.</summary>
    public T SolarAcToLoadKw;

    /// <summary>DC solar to the cells, DC at their terminals.</summary>
    public T SolarDcToCellsKw;

    /// <summary>AC solar to the cells, DC at their terminals.</summary>
    public T SolarAcToCellsKw;

    /// <summary>Grid to the cells, DC at their terminals.</summary>
    public T GridToCellsKw;

    /// <summary>AC drawn by the rectifier.</summary>
    public T InverterInKw;

    /// <summary>AC put out by the inverter.</summary>
    public T InverterOutKw;

    /// <summary>Cells to the house, AC.</summary>
    public T CellsToLoadKw;

    /// <summary>Cells to the grid, AC.</summary>
    public T CellsToGridKw;

    /// <summary>Solar to the grid, AC.</summary>
    public T SolarToGridKw;

    /// <summary>DC solar not used, kW DC.</summary>
    public T CurtailedDcKw;

    /// <summary>AC solar not used, AC.</summary>
    public T CurtailedAcKw;

    /// <summary>Bought at the meter.</summary>
    public T ImportKw;

    /// <summary>Sold at the meter.</summary>
    public T ExportKw;

    /// <summary>Off the grid: house load not served.</summary>
    public T UnservedKw;

    /// <summary>On the grid: import above the cap.</summary>
    public T OverloadKw;

    /// <summary>Energy in the cells at the interval's end, kWh.</summary>
    public T StoredKwh;

    /// <summary>1 while dark, else 0.</summary>
    public T Dark;
}

/// <summary>Takes down what a step decides: every clamp as it binds, then the flows.</summary>
/// <typeparam name="T">One case or several.</typeparam>
internal interface IBook<T> where T : struct, ILane<T>
{
    /// <summary>A limit withheld so many kW (0 or less where it did not bind).</summary>
    void Cut(LimitSite site, T withheldKw);

    /// <summary>The interval is decided.</summary>
    void Close(in Flows<T> flows);
}
