using System.Runtime.CompilerServices;

namespace EnergySim.Engine;

/// <summary>
/// One interval: what is allowed of what is wanted, and the only code that changes stored energy. The rules are those of ENGINE §5 in
/// their order. Written once over a lane type; it neither allocates, throws, nor looks at a price. Where a rule has several limits the
/// least of them is asked first: when even that does not bind, none is walked through.
/// </summary>
internal static class Step
{
    /// <summary>Levels count as reached within this many kWh.</summary>
    public const double ToleranceKwh = 1e-9;

    /// <summary>Flows up to this many kW are rounding, and zero.</summary>
    public const double TinyKw = 1e-11;

    /// <summary>Rules 1–9 over intervals in which one row holds. What differs on and off the grid, the grid says.</summary>
    /// <remarks>
    /// The loop, and the turns that groups of lanes take in it, are in here because the JIT has a budget for inlining, which grows with the
    /// method: as a part of any loop elsewhere the rules would be a call, and part of their operators too.
    /// </remarks>
    /// <param name="plants">What does not change during the run, made with the grid up or down.</param>
    /// <param name="rows">What is wanted.</param>
    /// <param name="inputs">Load and solar.</param>
    /// <param name="from">The first interval.</param>
    /// <param name="until">The one after the last.</param>
    /// <param name="grid">Up or down.</param>
    /// <param name="storedKwh">Energy in the cells at the start; at the end on return.</param>
    /// <param name="books">Takes down clamps and flows.</param>
    /// <param name="groups">Lanes only: how many groups go in turns, interval by interval; each reference is then the first of so many.</param>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Walk<T, TInput, TGrid, TBook>(
        in StepConstants<T> plants, in StepRow<T> rows, in TInput inputs, int from, int until, ref TGrid grid, ref T storedKwh, ref TBook books, int groups = 1)
        where T : struct, ILane<T> where TInput : struct, IInput<T> where TGrid : struct, IGrid<T> where TBook : struct, IBook<T>
    {
        T zero = T.All(0), tiny = plants.TinyKw, boundless = plants.BoundlessKw;
        T carried = storedKwh;
        // One case is quicker where branches foretell what does not bind; several would seldom agree.
        bool takesLeast = !TBook.KeepsFlows && T.Count > 1;
        for (int i = from; i < until; i++)
        {
            // One case has no turns to take, and keeps its energy in a register. What the turns move on are not the references that the rules
            // use: the JIT would copy those before each use.
            ref StepConstants<T> plantNow = ref Unsafe.AsRef(in plants);
            ref StepRow<T> rowNow = ref Unsafe.AsRef(in rows);
            ref TInput inputNow = ref Unsafe.AsRef(in inputs);
            ref TBook bookNow = ref books;
            ref T storedNow = ref storedKwh;
            int left = groups;
        turn:
            // The turns are a loop, written so that the rules need not stand one deeper.
            ref readonly StepConstants<T> plant = ref T.Count == 1 ? ref plants : ref plantNow;
            ref readonly StepRow<T> row = ref T.Count == 1 ? ref rows : ref rowNow;
            ref readonly TInput input = ref T.Count == 1 ? ref inputs : ref inputNow;
            ref TBook book = ref T.Count == 1 ? ref books : ref bookNow;
            T stored = T.Count == 1 ? carried : storedNow;
            input.Read(i, out T loadKw, out T solarDcKw, out T solarAcKw);
            T chargeLimitKw = plant.ChargeLimitKw, dischargeLimitKw = plant.DischargeLimitKw;
            if (plant.Tapers)
            {
                T usableShare = (stored - plant.LowestKwh) * plant.UsablePerKwh;
                if (!plant.ChargeTaper.IsNone) chargeLimitKw *= plant.ChargeTaper.At(usableShare);
                if (!plant.DischargeTaper.IsNone) dischargeLimitKw *= plant.DischargeTaper.At(usableShare);
            }
            T needKw = loadKw + plant.StandbyKw;
            T busbarKw = boundless, guardedKw = boundless, sellBusbarKw = boundless;
            // What inverter, breaker and busbar let out together, to the house and to the grid.
            T throughKw = plant.ThroughInverterKw, sellThroughKw = throughKw;
            if (plant.GuardsBusbar)
            {
                guardedKw = plant.BusbarKw - (solarAcKw * plant.AcOnBusbar);
                busbarKw = grid.Busbar(in plant, loadKw, solarAcKw);
                sellBusbarKw = T.Min(busbarKw, guardedKw);
                throughKw = T.Min(throughKw, busbarKw);
                sellThroughKw = T.Min(throughKw, guardedKw);
            }
            T outKw = zero, chargeKw = zero, rectifierKw = zero, toGridKw = zero, dcLeftKw = zero, acLeftKw = zero, dcKw = zero, curtailedAcKw = zero;
            T wantsGrid = zero, gridRoomKw = zero;
            bool acIsLeft = false;
            if (row.ChargesFromGrid)
            {
                wantsGrid = T.WhereAbove(row.GridCeilingKwh - T.All(ToleranceKwh), stored, T.All(1), zero);
                gridRoomKw = T.Max(zero, (row.GridCeilingKwh - stored) * plant.RoomKwPerKwh) * wantsGrid;
            }

            if (T.AnyAbove(solarDcKw + solarAcKw, zero))
            {
                // 1. The inputs clip.
                book.Flow(LedgerColumn.SolarDcKw, solarDcKw);
                book.Flow(LedgerColumn.SolarAcKw, solarAcKw);
                dcKw = T.Min(solarDcKw, plant.SolarInputKw);
                book.Cut(LimitSite.Rule1SolarInput, solarDcKw - dcKw);
                if (TBook.KeepsFlows) book.Flow(LedgerColumn.ClippedInputKw, T.OnlyAbove(solarDcKw - dcKw, tiny));

                // 2. AC solar to the house.
                T acToLoadKw = T.Min(solarAcKw, needKw);
                book.Flow(LedgerColumn.SolarAcToLoadKw, acToLoadKw);
                acLeftKw = solarAcKw - acToLoadKw;
                needKw -= acToLoadKw;

                // 3. DC solar to the cells first while they may also be filled from the grid, as long as the house's import stays in bounds; else to the house.
                T firstKw = zero;
                if (row.ChargesFromGrid)
                {
                    T mustKw = T.Max(zero, needKw - T.Min(row.ImportTargetKw, plant.ImportKw));
                    mustKw = T.Min(T.Min(mustKw, plant.InverterKw), T.Min(plant.InverterBreakerKw, T.Max(zero, busbarKw)));
                    firstKw = T.OnlyAbove(T.Min(T.Min(T.Max(zero, dcKw - (mustKw * plant.PerInverterEfficiency)), chargeLimitKw), gridRoomKw), tiny);
                }
                T toHouseKw = T.Min(needKw, (dcKw - firstKw) * plant.InverterEfficiency);
                if (takesLeast)
                {
                    toHouseKw = T.Min(toHouseKw, throughKw);
                }
                else if (T.AnyAbove(toHouseKw, throughKw))
                {
                    toHouseKw = OneByOne(LimitSite.Rule3Inverter, toHouseKw, plant.InverterKw, ref book);
                    toHouseKw = OneByOne(LimitSite.Rule3InverterBreaker, toHouseKw, plant.InverterBreakerKw, ref book);
                    toHouseKw = OneByOne(LimitSite.Rule3Busbar, toHouseKw, busbarKw, ref book);
                }
                // Before the flow is cleaned: solar too small to be one must not turn up as charge, which would block discharge.
                dcLeftKw = T.OnlyAbove(dcKw - firstKw - (toHouseKw * plant.PerInverterEfficiency), tiny);
                toHouseKw = T.OnlyAbove(toHouseKw, tiny);
                book.Flow(LedgerColumn.SolarDcToLoadKw, toHouseKw);
                outKw = toHouseKw;
                needKw -= toHouseKw;

                // 4. What is left charges the cells, DC first.
                T roomKw = T.Max(zero, (row.CeilingKwh - stored) * plant.RoomKwPerKwh);
                T dcChargeKw = dcLeftKw;
                T takesKw = T.Min(chargeLimitKw, roomKw) - firstKw;
                if (takesLeast)
                {
                    dcChargeKw = T.OnlyAbove(T.Within(dcChargeKw, takesKw), tiny);
                }
                else if (T.AnyAbove(dcChargeKw, takesKw))
                {
                    dcChargeKw = OneByOne(LimitSite.Rule4DcChargeRate, dcChargeKw, chargeLimitKw - firstKw, ref book);
                    dcChargeKw = T.OnlyAbove(OneByOne(LimitSite.Rule4DcFull, dcChargeKw, roomKw - firstKw, ref book), tiny);
                }
                dcLeftKw = T.OnlyAbove(dcLeftKw - dcChargeKw, tiny);
                dcChargeKw += firstKw;
                book.Flow(LedgerColumn.SolarDcToCellsKw, dcChargeKw);
                chargeKw = dcChargeKw;
                acIsLeft = T.AnyAbove(acLeftKw, zero);
                if (acIsLeft)
                {
                    T wantKw = acLeftKw;
                    T mostKw = T.Min(plant.ThroughInverterKw, (T.Min(chargeLimitKw, roomKw) - dcChargeKw) * plant.PerRectifierEfficiency);
                    if (takesLeast)
                    {
                        wantKw = T.Within(wantKw, mostKw);
                    }
                    else if (T.AnyAbove(wantKw, mostKw))
                    {
                        wantKw = OneByOne(LimitSite.Rule4AcInverter, wantKw, plant.InverterKw, ref book);
                        wantKw = OneByOne(LimitSite.Rule4AcInverterBreaker, wantKw, plant.InverterBreakerKw, ref book);
                        wantKw = OneByOne(LimitSite.Rule4AcChargeRate, wantKw, (chargeLimitKw - dcChargeKw) * plant.PerRectifierEfficiency, ref book);
                        wantKw = OneByOne(LimitSite.Rule4AcFull, wantKw, (roomKw - dcChargeKw) * plant.PerRectifierEfficiency, ref book);
                    }
                    rectifierKw = T.OnlyAbove(wantKw, tiny);
                    T acChargeKw = rectifierKw * plant.RectifierEfficiency;
                    book.Flow(LedgerColumn.SolarAcToCellsKw, acChargeKw);
                    chargeKw += acChargeKw;
                    acLeftKw -= rectifierKw;
                }
            }

            // 5. The cells serve the house, unless something was charged.
            T dischargeKw = zero;
            T wantedKw = needKw - T.Min(row.ImportTargetKw, plant.ReliefKw);
            wantedKw = T.WhereAbove(chargeKw, zero, zero, T.Max(zero, wantedKw));
            if (T.AnyAbove(wantedKw, zero))
            {
                T aboveFloorKw = (stored - row.FloorKwh) * plant.OutKwPerKwh;
                T mostKw = T.Min(T.Min(dischargeLimitKw, throughKw - outKw), aboveFloorKw);
                if (takesLeast)
                {
                    wantedKw = T.Within(wantedKw, mostKw);
                }
                else if (T.AnyAbove(wantedKw, mostKw))
                {
                    wantedKw = OneByOne(LimitSite.Rule5DischargeRate, wantedKw, dischargeLimitKw, ref book);
                    wantedKw = OneByOne(LimitSite.Rule5Inverter, wantedKw, plant.InverterKw - outKw, ref book);
                    wantedKw = OneByOne(LimitSite.Rule5InverterBreaker, wantedKw, plant.InverterBreakerKw - outKw, ref book);
                    wantedKw = OneByOne(LimitSite.Rule5Busbar, wantedKw, busbarKw - outKw, ref book);
                    wantedKw = OneByOne(LimitSite.Rule5Floor, wantedKw, aboveFloorKw, ref book);
                }
                dischargeKw = T.OnlyAbove(wantedKw, tiny);
                book.Flow(LedgerColumn.CellsToLoadKw, dischargeKw);
                needKw = T.WhereAbove(dischargeKw, zero, T.OnlyAbove(needKw - dischargeKw, tiny), needKw);
                outKw += dischargeKw;
            }

            // 6. The grid charges.
            T gridKw = zero;
            if (row.ChargesFromGrid)
            {
                T wantKw = T.WhereAbove(outKw, tiny, zero, T.Max(zero, gridRoomKw - chargeKw) * wantsGrid);
                wantKw *= plant.PerRectifierEfficiency;
                if (T.AnyAbove(wantKw, zero))
                {
                    T rateKw = (chargeLimitKw - chargeKw) * plant.PerRectifierEfficiency;
                    T mostKw = T.Min(rateKw, T.Min(plant.ThroughInverterKw - rectifierKw, T.Min(guardedKw, T.Min(plant.ImportKw, row.ImportTargetKw)) - needKw));
                    if (takesLeast)
                    {
                        wantKw = T.Within(wantKw, mostKw);
                    }
                    else if (T.AnyAbove(wantKw, mostKw))
                    {
                        wantKw = OneByOne(LimitSite.Rule6ChargeRate, wantKw, rateKw, ref book);
                        wantKw = OneByOne(LimitSite.Rule6Inverter, wantKw, plant.InverterKw - rectifierKw, ref book);
                        wantKw = OneByOne(LimitSite.Rule6InverterBreaker, wantKw, plant.InverterBreakerKw - rectifierKw, ref book);
                        wantKw = OneByOne(LimitSite.Rule6Busbar, wantKw, guardedKw - needKw, ref book);
                        wantKw = OneByOne(LimitSite.Rule6Import, wantKw, plant.ImportKw - needKw, ref book);
                        wantKw = OneByOne(LimitSite.Rule6ImportTarget, wantKw, row.ImportTargetKw - needKw, ref book);
                    }
                    gridKw = T.OnlyAbove(wantKw, tiny);
                    T gridChargeKw = gridKw * plant.RectifierEfficiency;
                    book.Flow(LedgerColumn.GridToCellsKw, gridChargeKw);
                    chargeKw += gridChargeKw;
                    rectifierKw += gridKw;
                }
            }

            // 7. What solar is left is sold, or curtailed.
            if (T.AnyAbove(acLeftKw + dcLeftKw, zero))
            {
                T soldAcKw = zero;
                if (acIsLeft)
                {
                    T wholeKw = T.Min(acLeftKw, plant.ExportKw);
                    book.Cut(LimitSite.Rule7AcExport, acLeftKw - wholeKw);
                    soldAcKw = T.OnlyAbove(wholeKw, tiny);
                    if (TBook.KeepsFlows || TBook.KeepsGross)
                    {
                        curtailedAcKw = T.OnlyAbove(acLeftKw - soldAcKw, tiny);
                        book.Flow(LedgerColumn.CurtailedAcKw, curtailedAcKw);
                    }
                }
                T soldKw = dcLeftKw * plant.InverterEfficiency;
                T mostKw = T.Min(sellThroughKw - outKw, plant.ExportKw - soldAcKw);
                if (takesLeast)
                {
                    soldKw = T.Within(soldKw, mostKw);
                }
                else if (T.AnyAbove(soldKw, mostKw))
                {
                    soldKw = OneByOne(LimitSite.Rule7Inverter, soldKw, plant.InverterKw - outKw, ref book);
                    soldKw = OneByOne(LimitSite.Rule7InverterBreaker, soldKw, plant.InverterBreakerKw - outKw, ref book);
                    soldKw = OneByOne(LimitSite.Rule7Busbar, soldKw, sellBusbarKw - outKw, ref book);
                    soldKw = OneByOne(LimitSite.Rule7DcExport, soldKw, plant.ExportKw - soldAcKw, ref book);
                }
                soldKw = T.OnlyAbove(soldKw, tiny);
                if (TBook.KeepsFlows || TBook.KeepsGross)
                {
                    T curtailedDcKw = T.OnlyAbove(dcLeftKw - (soldKw * plant.PerInverterEfficiency), tiny);
                    book.Flow(LedgerColumn.CurtailedDcKw, curtailedDcKw);
                    dcKw -= curtailedDcKw;
                }
                toGridKw = soldAcKw + soldKw;
                book.Flow(LedgerColumn.SolarToGridKw, toGridKw);
                outKw += soldKw;
            }

            // 8. The cells sell what lies above the sell-down level.
            if (row.Sells)
            {
                T wantKw = T.Max(zero, ((stored - row.SellDownKwh) * plant.OutKwPerKwh) - dischargeKw);
                wantKw = T.WhereAbove(chargeKw + needKw, tiny, zero, wantKw);
                if (T.AnyAbove(wantKw, zero))
                {
                    T mostKw = T.Min(sellThroughKw - outKw, T.Min(dischargeLimitKw - dischargeKw, plant.ExportKw - toGridKw));
                    if (takesLeast)
                    {
                        wantKw = T.Within(wantKw, mostKw);
                    }
                    else if (T.AnyAbove(wantKw, mostKw))
                    {
                        wantKw = OneByOne(LimitSite.Rule8DischargeRate, wantKw, dischargeLimitKw - dischargeKw, ref book);
                        wantKw = OneByOne(LimitSite.Rule8Inverter, wantKw, plant.InverterKw - outKw, ref book);
                        wantKw = OneByOne(LimitSite.Rule8InverterBreaker, wantKw, plant.InverterBreakerKw - outKw, ref book);
                        wantKw = OneByOne(LimitSite.Rule8Busbar, wantKw, sellBusbarKw - outKw, ref book);
                        wantKw = OneByOne(LimitSite.Rule8Export, wantKw, plant.ExportKw - toGridKw, ref book);
                    }
                    wantKw = T.OnlyAbove(wantKw, tiny);
                    book.Flow(LedgerColumn.CellsToGridKw, wantKw);
                    dischargeKw += wantKw;
                    outKw += wantKw;
                    toGridKw += wantKw;
                }
            }

            // 9. The books are closed.
            stored += plant.StepHours * ((plant.ChargeEfficiency * chargeKw) - (dischargeKw * plant.PerInverterEfficiency * plant.PerDischargeEfficiency));
            stored = T.Min(plant.HighestKwh, T.Max(plant.LowestKwh, stored));
            book.Flow(LedgerColumn.StoredKwh, stored);
            book.Flow(LedgerColumn.InverterInKw, rectifierKw);
            book.Flow(LedgerColumn.InverterOutKw, outKw);
            book.Flow(LedgerColumn.ExportKw, toGridKw);
            T usedSolarKw = TBook.KeepsFlows || TBook.KeepsGross ? solarAcKw - curtailedAcKw + (dcKw * plant.InverterEfficiency) : zero;
            grid.Close(in plant, loadKw, T.OnlyAbove(needKw + gridKw, tiny), toGridKw, curtailedAcKw, usedSolarKw, ref book);
            if (T.Count == 1)
            {
                carried = stored;
                continue;
            }
            storedNow = stored;
            plantNow = ref Unsafe.Add(ref plantNow, 1);
            rowNow = ref Unsafe.Add(ref rowNow, 1);
            inputNow = ref Unsafe.Add(ref inputNow, 1);
            bookNow = ref Unsafe.Add(ref bookNow, 1);
            storedNow = ref Unsafe.Add(ref storedNow, 1);
            if (--left > 0) goto turn;
        }
        if (T.Count == 1) storedKwh = carried;
    }

    /// <summary>
    /// What a limit lets through, where the least of several was found to bind; what it withholds is booked. Few lanes come here, those that keep
    /// flows: theirs is a call, which leaves the JIT room to inline all of the others' step.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T OneByOne<T, TBook>(LimitSite site, in T wantedKw, in T limitKw, ref TBook book)
        where T : struct, ILane<T> where TBook : struct, IBook<T>
    {
        // The JIT knows the answer before it looks at what follows.
        if (typeof(T) != typeof(Scalar)) return Apart(site, wantedKw, limitKw, ref book);
        T allowedKw = T.Within(wantedKw, limitKw);
        book.Cut(site, wantedKw - allowedKw);
        return allowedKw;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static T Apart<T, TBook>(LimitSite site, T wantedKw, T limitKw, ref TBook book)
        where T : struct, ILane<T> where TBook : struct, IBook<T>
    {
        T allowedKw = T.Within(wantedKw, limitKw);
        book.Cut(site, wantedKw - allowedKw);
        return allowedKw;
    }
}
