using System.Runtime.CompilerServices;

namespace EnergySim.Engine;

/// <summary>Whether the house is dark, and why.</summary>
internal enum Darkness
{
    /// <summary>It is served.</summary>
    None,

    /// <summary>The battery was empty with load unmet.</summary>
    Energy,

    /// <summary>The inverter tripped on overload.</summary>
    Trip,
}

/// <summary>What a dark plant may do at the start of an interval.</summary>
internal enum Restart
{
    /// <summary>Restart if the restart rule of the step says so.</summary>
    ByRule,

    /// <summary>Restart.</summary>
    Now,

    /// <summary>Stay dark.</summary>
    Never,
}

/// <summary>
/// The step when the grid is down: the same rules with no import and no export, and around them darkness, restart and trip (ENGINE §5).
/// </summary>
internal static class OffGrid
{
    /// <summary>An interval off the grid.</summary>
    /// <param name="plant">What does not change during the run, made with the grid down.</param>
    /// <param name="row">What is wanted; normally the outage row.</param>
    /// <param name="loadKw">House, kW AC.</param>
    /// <param name="solarDcKw">DC solar at the battery inverter's inputs, kW.</param>
    /// <param name="solarAcKw">AC of the separate solar inverter, kW.</param>
    /// <param name="restart">What a dark plant may do.</param>
    /// <param name="storedKwh">Energy in the cells at the start; at the end on return.</param>
    /// <param name="dark">Whether the interval before left the house dark; what this one leaves on return.</param>
    /// <param name="pending">Room for one interval's clamps; its content does not matter.</param>
    /// <param name="book">Takes down clamps and flows.</param>
    /// <returns>What of the house was not served, by cause.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static UnservedByCause Interval<TPending, TBook>(
        in StepConstants<Scalar> plant, in StepRow<Scalar> row, Scalar loadKw, Scalar solarDcKw, Scalar solarAcKw, Restart restart,
        ref Scalar storedKwh, ref Darkness dark, ref TPending pending, ref TBook book)
        where TPending : struct, IPendingBook
        where TBook : struct, IBook<Scalar>
    {
        if (dark != Darkness.None && (restart == Restart.Now || (restart == Restart.ByRule && Restarts(in plant, loadKw, solarDcKw, storedKwh)))) dark = Darkness.None;
        if (dark == Darkness.None)
        {
            Scalar start = storedKwh;
            bool refused = plant.SeparateSolarTooLarge || plant.SeparateSolarLockedOut;
            GridDown outcome = Served(in plant, in row, loadKw, solarDcKw, refused ? default : solarAcKw, ref storedKwh, ref pending);
            if (!plant.SeparateSolarFollows && outcome.CurtailedAcKw.Value > 0)
            {
                // It does not throttle: it trips, and gives nothing in this interval.
                storedKwh = start;
                refused = true;
                outcome = Served(in plant, in row, loadKw, solarDcKw, default, ref storedKwh, ref pending);
            }
            // What a generator gives, if one runs, is where the grid's import would be.
            double unservedKw = Math.Min(Math.Max(0, outcome.UnmetKw - plant.ImportKw), loadKw);
            UnservedByCause causes = pending.Causes(unservedKw);
            bool trips = !plant.ManagesLoad && (causes.Power > Step.TinyKw || (plant.HasGenerator && causes.Energy > Step.TinyKw));
            if (!trips)
            {
                bool atFloor = storedKwh.Value <= row.FloorKwh.Value + Step.ToleranceKwh;
                if (pending.WantsEnergy && atFloor && !plant.HasGenerator) dark = Darkness.Energy;
                if (plant.SeparateSolarTooLarge) pending.Cut(LimitSite.Rule2OneToOne, solarAcKw);
                pending.Flow(LedgerColumn.LoadKw, loadKw);
                pending.Flow(LedgerColumn.StandbyKw, plant.StandbyKw);
                pending.Flow(LedgerColumn.SolarAcKw, solarAcKw);
                pending.Flow(LedgerColumn.CurtailedAcKw, refused ? solarAcKw : outcome.CurtailedAcKw);
                pending.Flow(LedgerColumn.UnservedKw, unservedKw);
                if (plant.HasGenerator) pending.Flow(LedgerColumn.ImportKw, Math.Min(outcome.UnmetKw, plant.ImportKw));
                pending.PassOn(ref book);
                return causes;
            }
            storedKwh = start;
            dark = Darkness.Trip;
        }
        StayDark(in plant, loadKw, solarDcKw, solarAcKw, ref storedKwh, ref pending);
        pending.Cut(dark == Darkness.Trip ? LimitSite.Trip : LimitSite.Dark, loadKw);
        pending.PassOn(ref book);
        return dark == Darkness.Trip ? new UnservedByCause { Trip = loadKw.Value } : new UnservedByCause { Energy = loadKw.Value };
    }

    /// <summary>True when all solar together covers standby and house: that of a separate inverter too, once somebody forms a grid for it.</summary>
    public static bool SunCarries(in StepConstants<Scalar> plant, double loadKw, double solarDcKw, double solarAcKw)
    {
        double dcKw = Math.Min(Math.Min(solarDcKw, plant.SolarInputKw) * plant.InverterEfficiency, plant.ThroughInverterKw);
        return dcKw + (plant.SeparateSolarTooLarge ? 0 : solarAcKw) >= plant.StandbyKw + loadKw;
    }

    private static bool Restarts(in StepConstants<Scalar> plant, Scalar loadKw, Scalar solarDcKw, Scalar storedKwh)
    {
        if (storedKwh >= plant.RestartAboveKwh) return true;
        return Math.Min(Math.Min(solarDcKw, plant.SolarInputKw) * plant.InverterEfficiency, plant.ThroughInverterKw) >= plant.StandbyKw + loadKw;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static GridDown Served<TPending>(
        in StepConstants<Scalar> plant, in StepRow<Scalar> row, Scalar loadKw, Scalar solarDcKw, Scalar solarAcKw,
        ref Scalar storedKwh, ref TPending pending)
        where TPending : struct, IPendingBook
    {
        pending.Clear();
        GridDown grid = default;
        Step.Walk(in plant, in row, new OneInput(loadKw, solarDcKw, solarAcKw), 0, 1, ref grid, ref storedKwh, ref pending);
        return grid;
    }

    // Nothing is served and standby is not drawn; DC solar charges the cells if it can wake them.
    private static void StayDark<TPending>(
        in StepConstants<Scalar> plant, Scalar loadKw, Scalar solarDcKw, Scalar solarAcKw, ref Scalar storedKwh, ref TPending pending)
        where TPending : struct, IPendingBook
    {
        pending.Clear();
        double dcKw = Math.Min(solarDcKw, plant.SolarInputKw);
        pending.Cut(LimitSite.Rule1SolarInput, solarDcKw - dcKw);
        double toCellsKw = 0;
        if (plant.WakesBySolar && dcKw > 0)
        {
            double limitKw = plant.ChargeLimitKw;
            if (!plant.ChargeTaper.IsNone) limitKw *= plant.ChargeTaper.At((storedKwh - plant.LowestKwh) * plant.UsablePerKwh);
            double roomKw = Math.Max(0, (plant.HighestKwh - storedKwh) * plant.RoomKwPerKwh);
            double chargeKw = Math.Min(dcKw, limitKw);
            pending.Cut(LimitSite.Rule4DcChargeRate, dcKw - chargeKw);
            toCellsKw = Cleaned(Math.Min(chargeKw, roomKw));
            pending.Cut(LimitSite.Rule4DcFull, chargeKw - toCellsKw);
            storedKwh = Math.Min(plant.HighestKwh, storedKwh + (plant.StepHours * (plant.ChargeEfficiency * toCellsKw)));
        }
        pending.Flow(LedgerColumn.LoadKw, loadKw);
        pending.Flow(LedgerColumn.SolarDcKw, solarDcKw);
        pending.Flow(LedgerColumn.SolarAcKw, solarAcKw);
        pending.Flow(LedgerColumn.ClippedInputKw, Cleaned(solarDcKw - dcKw));
        pending.Flow(LedgerColumn.SolarDcToCellsKw, toCellsKw);
        pending.Flow(LedgerColumn.CurtailedDcKw, Cleaned(dcKw - toCellsKw));
        pending.Flow(LedgerColumn.CurtailedAcKw, solarAcKw);
        pending.Flow(LedgerColumn.UnservedKw, loadKw);
        pending.Flow(LedgerColumn.StoredKwh, storedKwh);
        pending.Flow(LedgerColumn.Dark, 1);
    }

    private static double Cleaned(double kw) => kw > Step.TinyKw ? kw : 0;
}
