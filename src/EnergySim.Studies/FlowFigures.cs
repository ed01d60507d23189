using EnergySim.Engine;
using EnergySim.Equipment;

namespace EnergySim.Studies;

/// <summary>Figures that are made of the sums of flows.</summary>
internal static class FlowFigures
{
    /// <summary>
    /// Share of the house's load and standby met by its own solar, 0–1. What left the cells for the house is the sun's in the share in which
    /// the cells were charged by the sun.
    /// </summary>
    public static double OwnSupplyFraction(RunFlows flows)
    {
        double load = flows.Kwh(LedgerColumn.LoadKw) + flows.Kwh(LedgerColumn.StandbyKw);
        if (load == 0) return 0;
        double fromSun = flows.Kwh(LedgerColumn.SolarDcToCellsKw) + flows.Kwh(LedgerColumn.SolarAcToCellsKw);
        double fromGrid = flows.Kwh(LedgerColumn.GridToCellsKw);
        double share = fromSun + fromGrid > 0 ? fromSun / (fromSun + fromGrid) : 0;
        double direct = flows.Kwh(LedgerColumn.SolarDcToLoadKw) + flows.Kwh(LedgerColumn.SolarAcToLoadKw);
        return (direct + (share * flows.Kwh(LedgerColumn.CellsToLoadKw))) / load;
    }

    /// <summary>Energy out of the cells over usable energy; 0 without cells.</summary>
    public static double EquivalentFullCycles(Plant plant, RunFlows flows)
    {
        if (plant.UsableKwh == 0) return 0;
        double given = flows.Kwh(LedgerColumn.CellsToLoadKw) + flows.Kwh(LedgerColumn.CellsToGridKw);
        return given / (plant.InverterEfficiency * plant.DischargeEfficiency * plant.UsableKwh);
    }

    /// <summary>Solar clipped or curtailed, kWh in the measure of the profile: AC curtailed behind an inverter fed with a DC profile was more before it.</summary>
    public static double CurtailedKwh(HomeSolar? solar, double clippedKwh, RunFlows flows)
    {
        double perAc = solar is { IsDc: true } dc ? 1 / dc.InverterEfficiency : 1;
        return clippedKwh + flows.Kwh(LedgerColumn.ClippedInputKw) + flows.Kwh(LedgerColumn.CurtailedDcKw) + (flows.Kwh(LedgerColumn.CurtailedAcKw) * perAc);
    }
}
