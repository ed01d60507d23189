/* One interval on the grid, with all of its rules: written over V (a double, or several), CUT and FLOW (what is kept), for one width and one
   kind of book at a time. The order of operations is that of the C# step, so that the results can be compared to the last bit. */
static inline __attribute__((always_inline)) void STEP(
    const NAME(constants) *p, const NAME(row) *r, V load, V dcSeen, V acSeen, V *storedAt, V *importKw, V *exportKw BOOK_PARAMETER)
{
    const V zero = ALL(0), tiny = ALL(1e-11);
    V stored = *storedAt, chargeLimit = p->chargeLimit, dischargeLimit = p->dischargeLimit;
    if (p->tapers)
    {
        V share = (stored - p->lowest) * p->perUsable;
        if (p->chargePoints > 0) chargeLimit *= NAME(taper)(p->chargeFirst, p->chargeAt, p->chargeBend, p->chargePoints, share);
        if (p->dischargePoints > 0) dischargeLimit *= NAME(taper)(p->dischargeFirst, p->dischargeAt, p->dischargeBend, p->dischargePoints, share);
    }
    V elsewhere = acSeen - acSeen * p->acOnBusbar, need = load + p->standby;
    V busbar = ABOVE(need - elsewhere, p->busbar, zero, ALL(INFINITY));
    V guarded = p->busbar - acSeen * p->acOnBusbar, sellBusbar = MIN(busbar, guarded);
    V out = zero, charge = zero, rectifier = zero, toGrid = zero, dcLeft = zero, acLeft = zero, dc = zero, wantsGrid = zero, gridRoom = zero;
    V curtailedAc = zero;
    (void)curtailedAc;
    if (r->chargesFromGrid)
    {
        wantsGrid = ABOVE(r->gridCeiling - ALL(1e-9), stored, ALL(1), zero);
        gridRoom = MAX(zero, (r->gridCeiling - stored) * p->roomPerKwh) * wantsGrid;
    }
    if (ANY(dcSeen + acSeen, zero))
    {
        FLOW(2, dcSeen);
        FLOW(3, acSeen);
        dc = LIMIT(2, dcSeen, p->solarInput);
        FLOW(4, CLEAN(dcSeen - dc));
        V acToLoad = MIN(acSeen, need);
        FLOW(6, acToLoad);
        acLeft = acSeen - acToLoad;
        need -= acToLoad;
        V first = zero;
        if (r->chargesFromGrid)
        {
            V must = MAX(zero, need - MIN(r->importTarget, p->import));
            must = MIN(MIN(must, p->inverter), MIN(p->breaker, MAX(zero, busbar)));
            first = CLEAN(MIN(MIN(MAX(zero, dc - must * p->perInverterEfficiency), chargeLimit), gridRoom));
        }
        V toHouse = MIN(need, (dc - first) * p->inverterEfficiency), through = MIN(p->through, busbar);
        LIMITS(toHouse, through,
            toHouse = LIMIT(4, toHouse, p->inverter);
            toHouse = LIMIT(5, toHouse, p->breaker);
            toHouse = LIMIT(6, toHouse, busbar);)
        dcLeft = CLEAN(dc - first - toHouse * p->perInverterEfficiency);
        toHouse = CLEAN(toHouse);
        FLOW(5, toHouse);
        out = toHouse;
        need -= toHouse;
        V room = MAX(zero, (r->ceiling - stored) * p->roomPerKwh), dcCharge = dcLeft, takes = MIN(chargeLimit, room) - first;
        LIMITS(dcCharge, takes,
            dcCharge = LIMIT(7, dcCharge, chargeLimit - first);
            dcCharge = LIMIT(8, dcCharge, room - first);)
        dcCharge = CLEAN(dcCharge);
        dcLeft = CLEAN(dcLeft - dcCharge);
        dcCharge += first;
        FLOW(7, dcCharge);
        charge = dcCharge;
        if (ANY(acLeft, zero))
        {
            V want = acLeft, most = MIN(p->through, (MIN(chargeLimit, room) - dcCharge) * p->perRectifierEfficiency);
            LIMITS(want, most,
                want = LIMIT(9, want, p->inverter);
                want = LIMIT(10, want, p->breaker);
                want = LIMIT(11, want, (chargeLimit - dcCharge) * p->perRectifierEfficiency);
                want = LIMIT(12, want, (room - dcCharge) * p->perRectifierEfficiency);)
            rectifier = CLEAN(want);
            V acCharge = rectifier * p->rectifierEfficiency;
            FLOW(8, acCharge);
            charge += acCharge;
            acLeft -= rectifier;
        }
    }
    V discharge = zero, wanted = need - MIN(r->importTarget, p->relief);
    wanted = ABOVE(charge, zero, zero, MAX(zero, wanted));
    if (ANY(wanted, zero))
    {
        V aboveFloor = (stored - r->floor) * p->outPerKwh;
        V most = MIN(MIN(dischargeLimit, MIN(p->through, busbar) - out), aboveFloor);
        LIMITS(wanted, most,
            wanted = LIMIT(13, wanted, dischargeLimit);
            wanted = LIMIT(14, wanted, p->inverter - out);
            wanted = LIMIT(15, wanted, p->breaker - out);
            wanted = LIMIT(16, wanted, busbar - out);
            wanted = LIMIT(17, wanted, aboveFloor);)
        discharge = CLEAN(wanted);
        FLOW(12, discharge);
        need = ABOVE(discharge, zero, CLEAN(need - discharge), need);
        out += discharge;
    }
    V grid = zero;
    if (r->chargesFromGrid)
    {
        V want = ABOVE(out, tiny, zero, MAX(zero, gridRoom - charge) * wantsGrid) * p->perRectifierEfficiency;
        if (ANY(want, zero))
        {
            V rate = (chargeLimit - charge) * p->perRectifierEfficiency;
            V most = MIN(rate, MIN(p->through - rectifier, MIN(guarded, MIN(p->import, r->importTarget)) - need));
            LIMITS(want, most,
                want = LIMIT(18, want, rate);
                want = LIMIT(19, want, p->inverter - rectifier);
                want = LIMIT(20, want, p->breaker - rectifier);
                want = LIMIT(21, want, guarded - need);
                want = LIMIT(22, want, p->import - need);
                want = LIMIT(23, want, r->importTarget - need);)
            grid = CLEAN(want);
            V gridCharge = grid * p->rectifierEfficiency;
            FLOW(9, gridCharge);
            charge += gridCharge;
            rectifier += grid;
        }
    }
    if (ANY(acLeft + dcLeft, zero))
    {
        V soldAc = CLEAN(LIMIT(24, acLeft, p->export)), sold = dcLeft * p->inverterEfficiency;
        V most = MIN(MIN(p->through, sellBusbar) - out, p->export - soldAc);
        LIMITS(sold, most,
            sold = LIMIT(25, sold, p->inverter - out);
            sold = LIMIT(26, sold, p->breaker - out);
            sold = LIMIT(27, sold, sellBusbar - out);
            sold = LIMIT(28, sold, p->export - soldAc);)
        sold = CLEAN(sold);
        curtailedAc = CLEAN(acLeft - soldAc);
        FLOW(16, curtailedAc);
        V curtailedDc = CLEAN(dcLeft - sold * p->perInverterEfficiency);
        FLOW(15, curtailedDc);
        dc -= curtailedDc;
        toGrid = soldAc + sold;
        FLOW(14, toGrid);
        out += sold;
    }
    if (r->sells)
    {
        V want = MAX(zero, (stored - r->sellDown) * p->outPerKwh - discharge);
        want = ABOVE(charge + need, tiny, zero, want);
        if (ANY(want, zero))
        {
            V most = MIN(MIN(p->through, sellBusbar) - out, MIN(dischargeLimit - discharge, p->export - toGrid));
            LIMITS(want, most,
                want = LIMIT(29, want, dischargeLimit - discharge);
                want = LIMIT(30, want, p->inverter - out);
                want = LIMIT(31, want, p->breaker - out);
                want = LIMIT(32, want, sellBusbar - out);
                want = LIMIT(33, want, p->export - toGrid);)
            want = CLEAN(want);
            FLOW(13, want);
            discharge += want;
            out += want;
            toGrid += want;
        }
    }
    stored += p->stepHours * (p->chargeEfficiency * charge - discharge * p->perInverterEfficiency * p->perDischargeEfficiency);
    stored = MIN(p->highest, MAX(p->lowest, stored));
    *storedAt = stored;
    FLOW(21, stored);
    FLOW(10, rectifier);
    FLOW(11, out);
    FLOW(18, toGrid);
    V unmet = CLEAN(need + grid);
    if (KEEPS && ANY(unmet, p->import))
    {
        V overload = CLEAN(MAX(zero, unmet - p->import));
        (void)overload;
        CUT(34, overload);
        FLOW(20, overload);
    }
    FLOW(0, load);
    FLOW(1, p->standby);
    FLOW(17, unmet);
    CLOSE(unmet, toGrid, load + p->standby, acSeen - curtailedAc + dc * p->inverterEfficiency);
    *importKw = unmet;
    *exportKw = toGrid;
}
