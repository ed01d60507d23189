using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Wiring;

namespace EnergySim.Tests.Engine;

/// <summary>What must hold in every interval of every run (ENGINE §5), to 1e-9; made to be asked of a thousand million intervals.</summary>
internal static class StepInvariants
{
    private const double Tolerance = 1e-9;
    private static readonly LedgerColumn[] s_columns = Enum.GetValues<LedgerColumn>();

    /// <summary>Fails with the first thing that does not hold.</summary>
    public static void Check(RandomCase random, Ledger l, bool offGrid = false)
    {
        if (Fault(random, l, offGrid) is string fault) Assert.Fail(fault);
    }

    private static string? Fault(RandomCase random, Ledger l, bool offGrid = false)
    {
        foreach (LedgerColumn column in s_columns)
            foreach (double value in l[column])
                if (!(value >= 0 && double.IsFinite(value))) return $"{column} is {value}";
        double stored = random.StartKwh;
        for (int i = 0; i < l.Axis.Count; i++)
        {
            if (Fault(random.Plant, random.Site, l, i, offGrid) is string fault) return $"interval {i}, limits {l.LimitsOf(i)}: {fault}";
            if (StoredFault(random.Plant, l, i, ref stored) is string gap) return $"interval {i}, limits {l.LimitsOf(i)}: {gap}";
        }
        return null;
    }

    private static string? Fault(Plant p, SiteLimits w, Ledger l, int i, bool offGrid)
    {
        double import = l[LedgerColumn.ImportKw][i], export = l[LedgerColumn.ExportKw][i], output = l[LedgerColumn.InverterOutKw][i], input = l[LedgerColumn.InverterInKw][i];
        double load = l[LedgerColumn.LoadKw][i], standby = l[LedgerColumn.StandbyKw][i], unserved = l[LedgerColumn.UnservedKw][i];
        double ac = l[LedgerColumn.SolarAcKw][i] - l[LedgerColumn.CurtailedAcKw][i];
        double fromCells = l[LedgerColumn.CellsToLoadKw][i] + l[LedgerColumn.CellsToGridKw][i];

        // AC: all that comes in goes out. Off the grid standby may be partly unmet, before the house is.
        double supply = import + output + ac + (offGrid ? unserved : 0), use = load + standby + input + export;
        double unmetStandby = offGrid && load <= unserved ? p.StandbyKw : 0;
        if (supply > use + Tolerance || supply < use - unmetStandby - Tolerance) return $"AC {supply} for {use}";

        // DC: solar taken in = to the cells + curtailed + what the inverter drew for it; the rectifier likewise.
        double dc = l[LedgerColumn.SolarDcToCellsKw][i] + l[LedgerColumn.CurtailedDcKw][i] + l[LedgerColumn.ClippedInputKw][i] + ((output - fromCells) / p.InverterEfficiency);
        if (Math.Abs(l[LedgerColumn.SolarDcKw][i] - dc) > Tolerance) return $"DC {l[LedgerColumn.SolarDcKw][i]} for {dc}";
        double rectified = l[LedgerColumn.SolarAcToCellsKw][i] + l[LedgerColumn.GridToCellsKw][i];
        if (Math.Abs(rectified - (input * p.RectifierEfficiency)) > Tolerance) return $"rectifier {rectified} for {input}";

        double charge = l[LedgerColumn.SolarDcToCellsKw][i] + rectified, discharge = fromCells / p.InverterEfficiency;
        // Once in some ten million intervals a flow of 1e-11 is left beside its opposite: where a flow of the cells just under it counts as none.
        if (Math.Min(charge, discharge) > Tolerance) return $"charges {charge:R} and discharges {discharge:R}";
        if (Math.Min(import, export) > Tolerance) return $"buys {import:R} and sells {export:R}";
        if (Math.Min(input, output) > Tolerance) return $"both directions: in {input:R}, out {output:R}";
        if (charge > p.ChargeLimitKw + Tolerance || discharge > p.DischargeLimitKw + Tolerance) return $"cell power {charge} {discharge}";
        if (Math.Max(input, output) > Math.Min(p.InverterKw, w.InverterBreakerKw) + Tolerance) return $"inverter {input} {output}";
        if (export > (offGrid ? 0 : w.ExportKw) + Tolerance) return $"export {export}";
        if (offGrid ? import != 0 : unserved != 0) return $"import {import}, unserved {unserved}";
        if (unserved > load || (l[LedgerColumn.Dark][i] > 0 && unserved != load)) return $"unserved {unserved} of {load}";

        // What the guard does not control it cannot hold: house load bought, and solar of the separate inverter.
        double onBus = w.AcSolarOnBusbar ? ac : 0, bus = import + output + onBus, uncontrolled = Math.Max(load + standby, onBus);
        return bus > Math.Max(w.BusbarKw, output > 0 ? 0 : uncontrolled) + Tolerance && bus > w.BusbarKw + Tolerance ? $"busbar {bus}" : null;
    }

    private static string? StoredFault(Plant p, Ledger l, int i, ref double stored)
    {
        double charge = l[LedgerColumn.SolarDcToCellsKw][i] + l[LedgerColumn.SolarAcToCellsKw][i] + l[LedgerColumn.GridToCellsKw][i];
        double discharge = (l[LedgerColumn.CellsToLoadKw][i] + l[LedgerColumn.CellsToGridKw][i]) / p.InverterEfficiency;
        double expected = stored + (l.Axis.StepHours * ((p.ChargeEfficiency * charge) - (discharge / p.DischargeEfficiency)));
        stored = l[LedgerColumn.StoredKwh][i];
        if (Math.Abs(stored - expected) > Tolerance) return $"stored {stored} for {expected}";
        return stored < p.LowestKwh - Tolerance || stored > p.HighestKwh + Tolerance ? $"stored {stored}" : null;
    }
}
