using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Wiring;

namespace EnergySim.Tests.Engine;

/// <summary>
/// The nine rules of ENGINE §5 once more, slow and obvious: plain numbers, divisions where the text divides, no sharing with the engine.
/// On the grid only. Keyed by the ledger's column names.
/// </summary>
internal static class ObviousStep
{
    public static Dictionary<string, double> OnGrid(
        Plant p, SiteLimits w, SetPointRow row, double load, double solarDc, double solarAc, ref double stored, double hours)
    {
        double floor = Math.Clamp(row.FloorKwh, p.LowestKwh, p.HighestKwh);
        double gridCeiling = Math.Clamp(row.GridCeilingKwh, p.LowestKwh, p.HighestKwh);
        double ceiling = Math.Max(Math.Clamp(row.SolarCeilingKwh, p.LowestKwh, p.HighestKwh), gridCeiling);
        double sellDown = Math.Clamp(row.SellDownKwh, p.LowestKwh, p.HighestKwh);
        double share = p.UsableKwh > 0 ? (stored - p.LowestKwh) / p.UsableKwh : 0;
        double chargeLimit = p.ChargeLimitKw * At(p.ChargeTaper, share);
        double dischargeLimit = p.DischargeLimitKw * At(p.DischargeTaper, share);
        double acOnBus = w.AcSolarOnBusbar ? solarAc : 0;
        bool outputForbidden = load + p.StandbyKw - (solarAc - acOnBus) > w.BusbarKw;
        double outLimit = outputForbidden ? 0 : Math.Min(p.InverterKw, w.InverterBreakerKw);

        // 1, 2
        double dc = Math.Min(solarDc, p.SolarInputKw);
        double acToLoad = Math.Min(solarAc, load + p.StandbyKw);
        double acLeft = solarAc - acToLoad;
        double need = load + p.StandbyKw - acToLoad;

        // 3
        double first = 0;
        bool gridMayCharge = stored < gridCeiling - 1e-9;
        if (gridMayCharge)
        {
            double houseMustGet = Math.Min(outLimit, Math.Max(0, need - Math.Min(row.ImportTargetKw, w.ImportKw)));
            first = Math.Max(0, Math.Min(dc - (houseMustGet / p.InverterEfficiency), Math.Min(chargeLimit, (gridCeiling - stored) / (p.ChargeEfficiency * hours))));
        }
        double dcToLoad = Math.Min(Math.Min(need, (dc - first) * p.InverterEfficiency), outLimit);
        need -= dcToLoad;
        double dcLeft = dc - first - (dcToLoad / p.InverterEfficiency);

        // 4
        double room = Math.Max(0, (ceiling - stored) / (p.ChargeEfficiency * hours));
        double dcToCells = first + Math.Max(0, Math.Min(dcLeft, Math.Min(chargeLimit, room) - first));
        dcLeft -= dcToCells - first;
        double rectifier = 0;
        if (dcToLoad < 1e-11 && acLeft > 0)
            rectifier = Math.Max(0, Math.Min(Math.Min(acLeft, Math.Min(p.InverterKw, w.InverterBreakerKw)), (Math.Min(chargeLimit, room) - dcToCells) / p.RectifierEfficiency));
        double acToCells = rectifier * p.RectifierEfficiency;
        acLeft -= rectifier;
        double charge = dcToCells + acToCells;

        // 5
        double cellsToLoad = 0;
        if (charge < 1e-11)
        {
            double wanted = Math.Max(0, need - Math.Min(row.ImportTargetKw, w.RelievesImport ? w.ImportKw : double.PositiveInfinity));
            cellsToLoad = new[]
            {
                wanted, dischargeLimit * p.InverterEfficiency, outLimit - dcToLoad,
                Math.Max(0, (stored - floor) * p.DischargeEfficiency * p.InverterEfficiency / hours),
            }.Min();
            need -= cellsToLoad;
        }

        // 6
        double gridToCells = 0;
        if (cellsToLoad < 1e-11 && dcToLoad < 1e-11 && gridMayCharge)
        {
            double ac = new[]
            {
                Math.Min(chargeLimit - charge, ((gridCeiling - stored) / (p.ChargeEfficiency * hours)) - charge) / p.RectifierEfficiency,
                p.InverterKw - rectifier, w.InverterBreakerKw - rectifier, w.BusbarKw - acOnBus - need,
                Math.Min(w.ImportKw, row.ImportTargetKw) - need,
            }.Min();
            ac = Math.Max(0, ac);
            gridToCells = ac * p.RectifierEfficiency;
            rectifier += ac;
            charge += gridToCells;
        }

        // 7
        double soldAc = Math.Min(acLeft, w.ExportKw);
        double sellLimit = Math.Max(0, Math.Min(outLimit, outputForbidden ? 0 : w.BusbarKw - acOnBus) - dcToLoad - cellsToLoad);
        double soldDc = new[] { dcLeft * p.InverterEfficiency, sellLimit, w.ExportKw - soldAc }.Min();
        double curtailedDc = dcLeft - (soldDc / p.InverterEfficiency);
        double curtailedAc = acLeft - soldAc;

        // 8
        double cellsToGrid = 0;
        double down = Math.Max(floor, sellDown);
        if (stored > down && need < 1e-11 && charge < 1e-11)
        {
            cellsToGrid = Math.Max(0, new[]
            {
                ((stored - down) * p.DischargeEfficiency * p.InverterEfficiency / hours) - cellsToLoad,
                (dischargeLimit * p.InverterEfficiency) - cellsToLoad,
                sellLimit - soldDc,
                w.ExportKw - soldAc - soldDc,
            }.Min());
        }

        // 9
        double discharge = cellsToLoad + cellsToGrid;
        stored += hours * ((p.ChargeEfficiency * charge) - (discharge / p.InverterEfficiency / p.DischargeEfficiency));
        double import = need + (gridToCells / p.RectifierEfficiency);
        return new Dictionary<string, double>
        {
            ["clipped_input_kw"] = solarDc - dc,
            ["solar_dc_to_load_kw"] = dcToLoad,
            ["solar_ac_to_load_kw"] = acToLoad,
            ["solar_dc_to_cells_kw"] = dcToCells,
            ["solar_ac_to_cells_kw"] = acToCells,
            ["grid_to_cells_kw"] = gridToCells,
            ["inverter_in_kw"] = rectifier,
            ["inverter_out_kw"] = dcToLoad + cellsToLoad + soldDc + cellsToGrid,
            ["cells_to_load_kw"] = cellsToLoad,
            ["cells_to_grid_kw"] = cellsToGrid,
            ["solar_to_grid_kw"] = soldAc + soldDc,
            ["curtailed_dc_kw"] = curtailedDc,
            ["curtailed_ac_kw"] = curtailedAc,
            ["import_kw"] = import,
            ["export_kw"] = soldAc + soldDc + cellsToGrid,
            ["overload_kw"] = Math.Max(0, import - w.ImportKw),
            ["stored_kwh"] = stored,
        };
    }

    private static double At(Taper taper, double share)
    {
        if (taper.IsNone) return 1;
        var points = taper.Points;
        if (share <= points[0].EnergyFraction) return points[0].LimitFraction;
        for (int i = 1; i < points.Count; i++)
        {
            (double x, double y) = points[i];
            (double x0, double y0) = points[i - 1];
            if (share <= x) return y0 + ((y - y0) * (share - x0) / (x - x0));
        }
        return points[^1].LimitFraction;
    }
}
