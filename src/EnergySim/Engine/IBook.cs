namespace EnergySim.Engine;

/// <summary>Takes down what a step decides. Flows and clamps that are not told are zero.</summary>
/// <typeparam name="T">One case or several.</typeparam>
internal interface IBook<T> where T : struct, ILane<T>
{
    /// <summary>True when the book wants to know of clamps and flows: the step then walks through the limits of a rule one by one. False: it may take the least of them at once.</summary>
    static abstract bool KeepsFlows { get; }

    /// <summary>True when the book, even if it keeps no flows, wants to know what load and solar came to.</summary>
    static abstract bool KeepsGross { get; }

    /// <summary>A limit withheld so many kW (0 or less where it did not bind).</summary>
    void Cut(LimitSite site, T withheldKw);

    /// <summary>A flow of the interval, kW ≥ 0, or the energy at its end, kWh. Told once an interval.</summary>
    void Flow(LedgerColumn column, T value);

    /// <summary>What the site's meters see on the grid, kW: bought, sold, house and standby, solar put to use or sold (as AC).</summary>
    void Meter(T importKw, T exportKw, T loadKw, T solarKw);

    /// <summary>The interval is decided.</summary>
    void Close();
}
